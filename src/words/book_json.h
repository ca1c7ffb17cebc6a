// What the book holds, as JSON text. Keys are the interface: they stay, others may come beside them. Money is
// a decimal string with the currency's digits, a quantity a number, a day ISO 8601; what does not exist is
// null.
#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "answers/budget.h"
#include "answers/looked_at.h"
#include "book/care/check.h"
#include "book/events/clock.h"
#include "book/events/comparables.h"
#include "book/questions/board.h"
#include "book/questions/figures.h"
#include "book/questions/journal.h"
#include "book/questions/owed.h"

namespace nonrunner::words {

// A few facts beside each other, such as what was written where.
using Fact =
    std::variant<std::string, std::int64_t, std::vector<std::string>, std::map<std::string, std::string>>;
std::string facts_as_json(const std::vector<std::pair<std::string, Fact>>&);
// The entry that was made, if any, and what was remarked on it.
std::string recorded_as_json(book::EntryId, const std::vector<std::string>& remarks);

// One car; with its budget where it has one. Without a state on a day on which nothing of it was in the book.
std::string to_json(const book::VehicleFigures&, const std::optional<answers::Budget>&, const book::Book&,
                    const answers::FirstKnown&);
std::string board_as_json(const std::vector<book::BoardRow>&, const Currency&);
std::string due_as_json(const std::vector<book::Due>&, const std::vector<book::MayGoBack>&,
                        const std::vector<book::Owed>&, const Currency&);
std::string tray_as_json(const std::vector<book::Waiting>&, const Currency&);
std::string purses_as_json(const std::vector<book::NamedBalance>&, const Currency&);
std::string stock_as_json(const std::vector<book::NamedBalance>&, const Currency&);
std::string journal_as_json(const std::vector<book::JournalRow>&, const Currency&);
std::string lines_as_json(const std::vector<book::Line>&, const Currency&);
std::string comparables_as_json(const std::vector<book::KeptComparable>&, const book::Book&);
std::string clocks_as_json(const std::vector<book::Clock>&, const std::string& now);
std::string to_json(const book::Health&, const Currency&);

}  // namespace nonrunner::words
