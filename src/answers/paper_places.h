// Where the lines of a whole paper go in the budgets of their cars, looked through before it is booked: what may stand
// under a line of the budget and does not say so, and what was bought beyond what is planned.
//
// A line of kind fee or sublet goes with the line before it on the paper, of the same car, that stands under one
// ("fitting" with the tyre). Else closeness asks (answers/links.h).
#pragma once
#include <string>
#include <vector>

#include "answers/placing.h"
#include "book/events/receipt.h"

namespace nonrunner::answers {

struct PaperPlace {
  std::size_t line = 0;  // its place on the paper
  std::string tag;
  Placing placing;      // `close`: the line that it may stand under
  std::string follows;  // the words of the line on the paper that it goes with; empty: it is close by its own
};
// Of lines for one car that say nothing of it; none of a quick line, whose place is asked about by itself.
// `replaced`: the quick lines whose place the paper takes; their lines of the budget are asked about as if open.
std::vector<PaperPlace> places_to_ask(const book::Book&, const book::Receipt&,
                                      const std::vector<book::EntryId>& replaced = {});
// A paper of one line is the same thing as what it replaces: where it says nothing of its place, it stands under the
// one line under which that stood.
void carry_place(const book::Book&, book::Receipt&, const std::vector<book::EntryId>& replaced);
// Answered by the key `for`. "No" to a line that goes with another one says nothing, so that a fee of the purchase stays
// one.
Question question_of(const PaperPlace&, const book::Receipt&);
void answer(const PaperPlace&, std::size_t choice, book::Receipt&);

// Pieces on the paper beside those planned: more than there is use for, or one "pair" where two pieces are planned.
struct PiecesApart {
  std::size_t line = 0;
  std::string tag, name;
  Quantity bought, planned, too_many;
  bool may_be_all = false;  // the paper counts pairs or sets, the estimate pieces
};
std::vector<PiecesApart> pieces_apart(const book::Book&, const book::Receipt&);

}  // namespace nonrunner::answers
