// Figures of a kept appraisal changed by hand: the file that was kept stays as it is, the changed figures are
// settled beside it (answers/settled_job.h) under `by_hand`, each with its place in the file:
//
//   by_hand = [{ at = "cause.0.odds", is = [31] }, { at = "value.sound", is = [5000, 5700, 6500] }]
//
// A place is the way to a number or to three points: keys, and of a list the number from 0.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/book.h"
#include "text/value.h"

namespace nonrunner::answers {

struct ByHand {
  std::string place;  // "cause.0.odds"
  std::string value;  // as a person writes it: "31" or "5000, 5700, 6500"
};

// A figure that can be changed, in the order of the file.
struct Changeable {
  std::string place;
  std::string about;  // what it belongs to: "odds before the tests", the name of a correction
  std::string what;   // which it is: the name of a cause, "fuel filter, new, each"
  std::string value;  // as it stands
};
std::vector<Changeable> changeable(const book::Book&, const std::string& tag);

// `settled` with these figures in it, in place of what it says of the same places; what says nothing new is
// left out. Throws Refusal for a place that cannot be changed or a value that is no number, or three.
std::string settled_with(const book::Book&, const std::string& tag, const std::string& settled,
                         const std::vector<ByHand>&);

// The same of a job file that is not kept yet: `job` is its tree, with what was settled put in.
std::string settled_with(Value job, const std::string& name, const std::string& settled,
                         const std::vector<ByHand>&, const Currency&);

// What of such figures was changed by hand.
std::string by_hand_of(const std::string& settled);
// Puts the rows of `by_hand` into the tree of the file, each at the line of what it takes the place of.
void put_by_hand(Value& job, const Value& rows);

}  // namespace nonrunner::answers
