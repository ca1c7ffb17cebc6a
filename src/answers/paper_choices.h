// What one chooses from where a paper is entered line by line: who sold before, and what the cars still need.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/book.h"

namespace nonrunner::answers {

std::vector<std::string> suppliers_known(const book::Book&);  // the one last bought from first

// A line of money of an owned car's budget that is still open, or that a quick line without its paper stands under.
struct OpenLine {
  std::string vehicle, name;
  int number = 0;      // on that car's screens
  std::string kind;    // as a receipt line calls it: part, consumable, sublet, fee
  std::string source;  // that the appraisal has in mind; may be empty
  bool waits = false;  // a quick line closed it, and its paper has still to come
};
std::vector<OpenLine> open_lines(const book::Book&, Day today);  // car by car
std::vector<std::string> cars_owned(const book::Book&, Day today);

}  // namespace nonrunner::answers
