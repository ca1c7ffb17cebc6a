// What is known about a car on a day: the appraisal in force with everything that was found applied to it.
//
// Tests seen before the purchase (in the job file) and after it (findings) count once each: a finding takes the
// place of what the file says of the same test, the later day counts. Odds follow by Bayes. A cause that was
// found stands above them, of two the later; one ruled out has no chance; a trouble found is certain, one ruled
// out has none. `something_else` is a cause that every car knows and no appraisal: nothing is known of its
// repair.
#pragma once
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "appraisal/job.h"
#include "book/events/finding.h"
#include "book/ledger/book.h"

namespace nonrunner::answers {

inline constexpr const char* something_else = "something else";

struct Known {
  // Odds and chances are those of that day; every test seen is spent, none counts again. Of a car that was bought an own
  // hour has to earn what the shop says, where it says it: its profit will count so.
  appraisal::Job job;
  Day kept_on;
  bool cause_is_found = false;  // something else included
  bool is_something_else = false;
  std::size_t likeliest = 0;    // the place of the cause found, else of the likeliest
  std::vector<bool> ruled_out;  // by cause
  // By trouble: found or ruled out, or certain by the appraisal and its tests; absent: nobody looked.
  std::vector<std::optional<bool>> trouble_there;
  std::set<std::size_t> failed, cured;  // corrections that were made
  std::vector<book::Fact> against;  // tests that speak against the cause that was found; they change nothing
  // Findings that the appraisal does not know, or that it cannot have: shown, and stopping nothing.
  std::vector<book::Fact> not_in_it;

  double chance(std::size_t cause) const { return job.causes[cause].odds; }  // add up to 1
};

// Of a car that was bought by that day: its hour becomes the shop's, where the shop says one; that of the day on which it
// was sold or finished, as in its profit.
void count_at_shops_hour(const book::Book&, const std::string& tag, std::optional<Day> on, appraisal::Job&);

// Absent where no appraisal is kept. `at_purchase`: by the appraisal that looks back. `cause`: taken as found,
// in place of what was noted, `something_else` too; throws Refusal where the appraisal knows no such cause (names the
// nearest).
std::optional<Known> known_of(const book::Book&, const std::string& tag, std::optional<Day> on = {},
                              const std::string& cause = {}, bool at_purchase = false);

// The job of the appraisal kept last with what was found since put in as if the file said it: tests as seen,
// causes ruled out without odds, troubles certain or out of the question. To be appraised again; with `settled`
// in place of what was settled when it was kept. Absent where none is kept.
std::optional<appraisal::Job> job_as_found(const book::Book&, const std::string& tag,
                                           const std::optional<std::string>& settled = {});

// The place of a cause by its number, its name or a beginning that only one has; throws Refusal that names the
// nearest, or all.
std::size_t place_of_cause(const appraisal::Job&, const std::string& name, const std::string& tag);
// The causes that still have a chance, the likeliest first and five at most, by the numbers that they can be called by:
// `1 "head gasket leaks", 3 "block cracked"`, with "and N more" where there are.
std::string causes_by_number(const appraisal::Job&);
// The tests of which nothing is known yet, three at most, each with what it may show, to be said as TEST=OUTCOME:
// `2 "compression, dry": 2=1 "even", 2=2 "two low"`. Empty where there are none.
std::string tests_by_number(const appraisal::Job&);

}  // namespace nonrunner::answers
