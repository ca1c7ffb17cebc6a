// Which fixes pay: the best set with and without limits, what comes first, and the way from no fixes to all
// that pay (appraisal/knapsack.h, appraisal/frontier.h). Doubles are opinions in the currency's units.
#pragma once
#include <string>
#include <vector>

#include "answers/why_not.h"
#include "appraisal/frontier.h"
#include "appraisal/job.h"
#include "appraisal/knapsack.h"
#include "book/ledger/book.h"

namespace nonrunner::answers {

struct FixesAnswer {
  appraisal::Job job;
  std::vector<appraisal::ChoiceClass> classes;  // one for each fault
  appraisal::Limits limits;
  appraisal::ChoiceSet best;     // without limits
  appraisal::ChoiceSet limited;  // within them, where there are any
  std::vector<appraisal::ChoiceSet> frontier, steps;

  // What to do in what order, as places in `classes`.
  struct Next {
    std::size_t fault = 0;
    std::optional<double> an_hour;  // what an hour of it earns; absent: it takes none
  };
  std::vector<std::size_t> must;     // first
  std::vector<Next> order;           // then these, by what an hour of each earns
  std::vector<std::size_t> no_room;  // would pay, but not within the limits
  std::vector<std::size_t> left;     // no fix wins back what it costs
  // Of a car that is not meant to be sold running, for which no fix pays: why it cannot be, or what its
  // appraisal would do with it instead; both empty where it can.
  std::optional<WhyNot> not_put_right;
  std::string other_course;

  bool has_limits() const { return limits.hours || limits.cash; }
  const appraisal::ChoiceSet& chosen() const { return has_limits() ? limited : best; }
  bool has_must() const;
  const appraisal::Fault& fault(std::size_t k) const { return job.faults[k]; }
  bool is_left(std::size_t k, std::size_t pick) const;
  const appraisal::Choice& choice(std::size_t k) const { return classes[k].choices[chosen().picks[k]]; }
};

// Throws Refusal where what must be put right does not fit into the limits, or the sets are too many.
FixesAnswer fixes(const appraisal::Job&, const appraisal::Limits&);

// The same before the purchase: where under no cause that can be putting right is the best course.
void say_whether_put_right(FixesAnswer&);
// Says in the answer whether the car is not put right: in pieces, barred, without a correction, or better sold
// another way.
void say_whether_put_right(FixesAnswer&, const book::Book&, const std::string& tag);

// The job without the faults that its car's budget has done, or leaves: nothing is left to choose of them.
appraisal::Job faults_still_open(const book::Book&, const std::string& tag, appraisal::Job);

}  // namespace nonrunner::answers
