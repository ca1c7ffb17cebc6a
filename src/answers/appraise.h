// Is it worth buying: what is appraised, with what is said beside it, and what the book keeps of the answer. The answer
// itself is the model's (appraisal/appraise.h).
#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "answers/budget.h"
#include "answers/by_hand.h"
#include "answers/question.h"
#include "answers/settled_job.h"
#include "book/events/appraisals.h"
#include "book/ledger/book.h"
#include "exact/money.h"

namespace nonrunner::answers {

// A job file, or the appraisal that a car in the book has, with what was found since.
struct ToAppraise {
  appraisal::Job job;
  std::string text;  // of the file, as it is kept
  Settled settled;
  struct Seen {
    std::string test, outcome;
  };
  std::vector<Seen> seen;  // beside the file
};
// Throws Refusal for every mistake of the file; of a car where it is unknown or no appraisal of it is kept.
// `changed`: figures of it changed by hand, which are kept beside it.
ToAppraise file_to_appraise(const std::string& text, const std::string& name, const book::Book*,
                            const Currency&, Day, const std::vector<ByHand>& changed = {});
ToAppraise car_to_appraise(const book::Book&, const std::string& tag,
                           const std::vector<ByHand>& changed = {});

// As if this were asked.
void ask(ToAppraise&, Money offer);
// Each TEST=OUTCOME, by name or number, in place of what the file says. Throws WrongUsage where there is no such test
// or outcome, or a test stands twice, Refusal where it is spoiled or the outcome cannot be.
void see(ToAppraise&, const std::vector<std::string>& outcomes);

// It could not be made here: the plan goes on without it. `test` is its place.
void leave_out(ToAppraise&, std::size_t test);

// Which new line is what was booked before it? Of a line that is gone and close to none: nothing to ask.
std::optional<Question> question_of(const LeftBehind&, const std::string& tag);

// Throws Refusal where the car was sold or finished: what came after would change what its result is held against.
void expect_may_be_kept(const book::Book&, const ToAppraise&);
// Keeps it as the appraisal of that day; lines that are gone and have another name in it follow (`same`: old name, new
// one) with one event. The file is kept as it is; what a test has shown beside it is a finding, and
// stays known. `figures`: what it came to (words/appraise_json.h).
using SameLines = std::vector<std::pair<std::string, std::string>>;
void keep(book::Recording&, const ToAppraise&, Day, const std::string& figures, const SameLines& same = {});
// What tests have shown ("TEST=OUTCOME") where it is bought or left by the appraisal that is kept already: a
// finding of that day. Where the appraisal that is kept now knows no such test or outcome, it is kept in words only, and
// that is remarked.
void keep_seen(book::Recording&, const std::string& tag, Day, const std::vector<std::string>& outcomes);

// By which a purchase says which appraisal it was decided by: SHA-256 of the file and of what was settled.
std::string named(const book::KeptAppraisal&);
// A car that was just bought by the entry `bought_by` stands under the appraisal that it was decided by (`decided_by`, as
// `named` has it), whatever was kept meanwhile: it is kept with the purchase where another is in force. `bought_by`
// 0: the car was left, and nothing is kept. Gives what is to be said of it; empty: it is the one in force.
std::string decide_by(book::Recording&, const std::string& tag, const std::string& decided_by,
                      book::EntryId bought_by);

}  // namespace nonrunner::answers
