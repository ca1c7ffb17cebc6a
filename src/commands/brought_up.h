// What is said where a book that an older version made was brought up to date by opening it.
#pragma once
#include <filesystem>
#include <iosfwd>
#include <set>

#include "book/ledger/book.h"

namespace nonrunner::commands {

// To be made before the book is opened. Where it is of this version's layout nothing is looked at.
class BroughtUp {
 public:
  explicit BroughtUp(const std::filesystem::path& book);
  // Names the copy that was set aside, the note of what it shows otherwise now, and by which command what stands under no
  // line of a car's budget is put under one; nothing where another process had been quicker, or nothing was to be done.
  void tell(const book::Book&, std::ostream& out) const;

 private:
  std::filesystem::path book_;
  bool is_older_ = false;
  std::set<std::filesystem::path> before_;  // what lay beside it under the name of a copy
};

}  // namespace nonrunner::commands
