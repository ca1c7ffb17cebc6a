// Where a person puts a booked line, an entry or an operation in the budget: a heading of the estimate, the
// name of one of its lines, or a heading of one's own ("discovery", "readying"). It changes no entry and no
// sum of money.
//
// Refused, the first that applies:
//   1 the heading is empty   2 no vehicle has the tag   3 neither or several of line, entry and operation
//   4 no such line or entry, or it is not about that car
#pragma once
#include <map>
#include <string>

#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Assign {
  std::string vehicle;
  std::string line, operation;  // one of the three
  EntryId entry = 0;
  std::string heading;
};
void fields(Assign&, Fields&);
void assign(Recording&, const Assign&);

// Vehicle, what and heading, as a book that is made again has them: but those of lines that count no more, since a
// file has no id for such a line.
inline constexpr const char* assigned_in_order =
    "SELECT vehicle, what, heading FROM assigned WHERE what NOT LIKE 'line %' OR EXISTS (SELECT 1 FROM line "
    "l "
    "JOIN live_entry USING (entry) WHERE 'line ' || l.id = what) ORDER BY vehicle, what";

// "line R06.1", "entry 37", "operation front brakes" -> heading.
std::map<std::string, std::string> assigned(const Book&, const std::string& vehicle);

}  // namespace nonrunner::book
