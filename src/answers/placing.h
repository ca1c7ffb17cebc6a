// Where a new entry goes in its car's budget, chosen when it is made: as said, else by its own name, else asked
// about where it is close to exactly one open line.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "answers/budget.h"
#include "answers/links.h"
#include "answers/question.h"
#include "book/ledger/book.h"

namespace nonrunner::answers {

struct Placing {
  // What the entry has to say: absent: nothing, it stands under the line of its own name, if there is one;
  // empty: under none.
  std::optional<std::string> says;
  std::string line;           // under which it stands then; empty: under none
  int number = 0;             // of that line, or of `close`
  std::string close;          // under none: the one open line that it is close to, to be asked about
  bool close_enough = false;  // for yes to be the usual answer: both heads have two words or more
};

// Whether the entry is what it is close to; answered by the key `for`. A head of one word is no ground for
// Enter: "radiator hose" is close to "radiator".
Question question_of(const Placing&, const std::string& event, const std::string& words);
void answer(Placing&, std::size_t choice);

// The lines of money that these entries stand under, each once.
std::vector<std::string> stood_under(const Budget&, const std::vector<book::EntryId>& entries);

// A car's budget looked through once, for several entries. `replaced`: quick lines whose place a paper takes. They
// still close their lines while it is looked through, so that the lines under which they stand count as open.
class Places {
 public:
  Places(const book::Book&, const std::string& tag, std::vector<book::EntryId> replaced = {});
  const std::vector<LineName>& names() const { return names_; }
  // Of an entry of these words that says nothing itself.
  Placing placing(const std::string& words, bool is_hours) const;
  // As if it were close to this line of money and no other, for Enter to be yes.
  Placing under(const std::string& line) const;

 private:
  const book::Book& book_;
  std::string tag_;
  std::vector<book::EntryId> replaced_;
  std::vector<LineName> names_;
  mutable std::optional<std::vector<LineName>> open_;  // found out where it is needed
};

// `said`: a line's number or name, or "none"; throws Refusal for one that the car's budget does not have.
Placing placing_of(const book::Book&, const std::string& event, const std::string& tag,
                   const std::string& words, const std::optional<std::string>& said, bool is_hours);
// A line of the budget as it was named on the command line, by number, name or a beginning that only one has; absent
// where there is none, or, the second, Refusal (naming the nearest).
std::optional<std::string> line_if_named(const book::Book&, const std::string& tag, const std::string& text);
// The same without beginnings.
std::optional<std::string> line_if_wholly_named(const book::Book&, const std::string& tag,
                                                const std::string& text);
std::string line_named(const book::Book&, const std::string& event, const std::string& tag,
                       const std::string& text);

}  // namespace nonrunner::answers
