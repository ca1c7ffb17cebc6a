// Where the pieces of a receipt line stand: in the cars that it was bought for, and in those that it was charged or moved to
// since. Of a line of one piece the piece stands in one car; of several each may stand in another.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/line.h"

namespace nonrunner::book {

// Whether it is more than one piece, so that some may have been moved and others not.
bool is_of_several(const Line&);

// What of a line stands in the cars that it was charged or moved to and may be taken out from that day on: the least on any
// day, since what was typed for a later day may have taken it. Above zero.
std::map<std::string, Money> charged_to(const Book&, const Line&, Day);

// What it was moved into that car for by the end of the day, each time added up.
Money moved_into(const Book&, const Line&, const std::string& vehicle, Day on);

// What of it still stands in the cars that it was bought for, at the end of the day: zero or more.
Money stands_at_first(const Book&, const Line&, std::optional<Day> on);

// The car that a part of this line was moved to last, by the end of the day; absent: it is where it was bought for. Tools
// are charged to cars and moved to none.
std::optional<std::string> holder_of(const Book&, std::int64_t line, std::optional<Day> on = {});

// The cars that have pieces of a part's line at the end of the day.
std::vector<std::string> cars_with(const Book&, const Line&, std::optional<Day> on);

}  // namespace nonrunner::book
