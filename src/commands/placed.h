// Where a new entry goes in its car's budget, for the commands that book on a car: the options, the mark that
// the entry carries, and what the acknowledgement says of it.
#pragma once
#include <string>
#include <vector>

#include "answers/placing.h"
#include "book/ledger/marks.h"
#include "commands/options.h"

namespace nonrunner::commands {

Option for_option();
Option done_option();
Option more_option();

class Placed {
 public:
  // `words`: what the entry calls itself; a bare number is a line of the budget. Asks about a line that it is
  // close to where somebody is there to answer; else the acknowledgement says what to type.
  Placed(const Given&, Terminal&, const book::Book&, const std::string& tag, const std::string& words,
         bool is_hours);

  const std::string& words() const { return words_; }  // the line's name where a number was typed
  const std::string& tag() const { return tag_; }
  const answers::Placing& placing() const { return placing_; }
  void mark(book::Recording&, bool is_done = false) const;   // before the event is recorded
  void remark(book::Recording&, book::EntryId entry) const;  // after it: what it may belong to
  std::string said() const;                                  // ", line 4: starter"

 private:
  std::string tag_, words_;
  bool is_hours_;
  answers::Placing placing_;
};

// Entries just made from a file and kept, close to a line of their car's budget and under none: asked about where
// somebody is there and they are few, else told, each with what to type. Gives what is told.
std::vector<std::string> settle_unplaced(const Given&, Terminal&, book::Book&, book::EntryId first,
                                         book::EntryId last);

}  // namespace nonrunner::commands
