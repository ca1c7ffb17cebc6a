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

// "line R06.1", "entry 37", "operation front brakes" -> heading.
std::map<std::string, std::string> assigned(const Book&, const std::string& vehicle);

}  // namespace nonrunner::book
