// Under which line of a car's budget an entry stands. A line is known by its name; its number is shorthand on
// this car's screens, given once in order of first appearance and never used again for another.
//
// Nothing is guessed on reading: what was said holds (`for`, later `under`), else the line of the entry's own
// name, else none. Fees of the purchase, and other fees up to 14 days after it, stand under the fees (common
// practice, no source).
//
// Closeness only asks. A name's head is what stands before its first comma, bracket, " with " or " for ", in
// lower case, split at all that is neither letter nor digit, without numbers and small words, a plural s taken
// off; two words are equal also where both have five letters or more and one letter is changed, added or
// missing. An entry is close to a line whose whole head stands in the entry's head, or all of whose words the
// entry's head of two words or more has in the line's whole name; one word is close to a fault where it is one of the
// first two of its name.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "appraisal/estimate.h"
#include "book/ledger/marks.h"
#include "book/questions/vehicle_money.h"
#include "text/same_name.h"

namespace nonrunner::answers {

// A name that a budget can have, and what else it is called by (the fixes of a fault).
struct LineName {
  std::string name;
  bool is_hours = false;
  std::vector<std::string> also;
  Day known_on;    // since when it is in the budget
  int number = 0;  // on this car's screens
};
// Every name that this car's budget has had, in the order of their numbers: of each appraisal that was kept, and
// of each line planned by hand.
std::vector<LineName> line_names(const book::Book&, const std::string& tag);
// The names of one appraisal, beside those that are there.
void add_names_of(std::vector<LineName>&, const appraisal::Job&, Day kept_on);

// The name that `text` is: in whatever letters, or by an alias of one line alone; absent where there is none.
std::optional<std::string> of_own_name(const std::vector<LineName>&, const std::string& text, bool is_hours);
// A line that is planned: by the name that the budget has, where it is written with other letters there.
std::string name_to_plan(const book::Book&, const std::string& tag, const std::string& text);
// The name that `text` is, by number ("7"), by name, or by an alias; absent where there is none.
std::optional<std::string> name_meant(const std::vector<LineName>&, const std::string& text, bool is_hours);
// What an entry's words are, where a number may stand for the line of that number. Refuses one of up to three digits that
// is no line's of that sort: nobody calls a part or a job so; more digits are a maker's number. `where` stands before what is said.
std::string words_meant(const book::Book&, const std::string& where, const std::string& tag,
                        const std::string& words, bool is_hours);
// The same where a line is asked for, and not words that may be its own: by a beginning too, that only one has.
std::optional<std::string> line_meant(const std::vector<LineName>&, const std::string& text, bool is_hours);
std::size_t words_in_head(const std::string& name);
// The names that an entry of these words is close to.
std::vector<const LineName*> close_names(const std::vector<LineName>&, const std::string& words,
                                         bool is_hours);

// For each line of money and each of work the name that it stands under; absent: none.
struct Links {
  std::vector<std::optional<std::string>> money, worked;
};
Links links_of(const book::Book&, const std::string& tag, const std::vector<LineName>&,
               const std::vector<book::MoneyLine>&, const std::vector<figures::Work>&, std::optional<Day> on);

}  // namespace nonrunner::answers
