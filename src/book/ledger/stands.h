// Under which day an amount stands, where that is another than the day from which its entry counts: what a full paper brings
// in the place of a quick line of a closed period, and what puts right an entry of one. It counts from the first open day; as
// far as what it takes the place of went, it stands where that stood, so that a cost from before a sale stays one. The rest
// stands under its own day. Where the day is put right, the part that the first of them brought goes along to that day,
// however often; what later ones brought more stays under the days on which it came. What ends a car's life, put right, ends it
// for its money under the day of the first: what came between that day and the first open one stays late.
//
// An event says which entry it puts right as `corrects = ENTRY`, in an open period too, since what it puts right may have
// stood in a closed one before: so book -> events -> book holds. What the book asks for are the rows of `place`, recorded and
// sealed with the entry.
#pragma once
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"
#include "text/table.h"

namespace nonrunner::book {

// Takes `corrects` out of an event's table and hands it to the recording, for the next entry of that kind. `numbered`: the
// book's number of an entry that a file names by its own. Throws Refusal where it is no entry of that kind that was taken back.
Value without_corrects(Recording&, const Table& event, const std::function<EntryId(EntryId)>& numbered);

// Under which day the entry ended a car for its money, as it would be recorded today; absent: under its own, or it ends none.
std::optional<Day> ended_under(const Book&, const Entry&);

// What a quick line, and what it put right, brought to cars, under which days: there its full paper, which was given the day
// `given` and bears `bears`, stands as far as that goes.
struct Stood {
  std::string vehicle;
  Day day;
  Money amount;
};
std::vector<Stood> stood_for_paper(const Book&, EntryId quick, Day given, Day bears);

// The quick lines that gave their place to a paper beside the one that it names: each was taken back, making way, right before
// the entry `before`, which takes back the named one or is yet to come.
struct GivenPlace {
  EntryId quick = 0;
  Day gone;  // from which day on it does not count
};
std::vector<GivenPlace> places_given(const Book&, EntryId before);

// What puts right a paper that took the place of a quick line bears the earlier day of both, as that did, while the paper's
// own day stays: that day; absent where the day is put right too, and where no quick line was there.
std::optional<Day> day_of_quick_line(const Book&, EntryId corrected, Day given);

}  // namespace nonrunner::book
