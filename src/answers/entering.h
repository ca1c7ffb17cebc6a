// What is asked before an event is recorded: through which purse, whether it is there already, whose place it
// takes, under which line of the budget it stands ("for", and "for.2" of a paper's second line), whether the car
// is a new one. One question at a time; its choice is put into the event, and what is left is asked next. A page
// asks it as buttons; where nobody is there to be asked (a phone that sends what it kept) it settles itself.
#pragma once
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "answers/paper_places.h"
#include "answers/question.h"
#include "book/ledger/entry.h"
#include "book/ledger/names.h"
#include "exact/day.h"
#include "text/value.h"

namespace nonrunner::answers {

struct Entering {
  Value event;  // as in an events file, with `do` and `date`
  // Said beside its keys: "long_day", that so many hours are meant; "never_was", that what is taken back was typed
  // wrong and counts on no day.
  std::map<std::string, std::string> said;
  std::set<std::string> new_words = {};           // names that were asked about, and are new ones
  std::vector<book::EntryId> also_replaced = {};  // quick lines beside the one that the event names
};

// Fills in the purse where it needs no asking, and gives what has to be asked; nothing: it is ready. Throws
// Refusal for an event that cannot be read.
std::optional<Question> to_ask(const book::Book&, Entering&, Day today);
void answer(Entering&, const std::string& option, const std::string& value);
// Is the name that was refused a new one? With the option `new`, whose value is that name: a yes holds for no other.
Question is_it_new(const std::string& refused, const std::string& name);

// Nobody can be asked: it is taken as another one, from the purse used last. Gives the entry that it may be the
// same as.
std::optional<book::EntryId> settle_unasked(const book::Book&, Entering&);

// Of a receipt: pieces on it beside those planned. Throws Refusal for one that cannot be read.
std::vector<PiecesApart> pieces_apart(const book::Book&, const Entering&);

// Takes back the quick lines beside the first whose place a paper of that day takes; then the paper is recorded.
void take_places(book::Recording&, Day, const std::vector<book::EntryId>& others);

}  // namespace nonrunner::answers
