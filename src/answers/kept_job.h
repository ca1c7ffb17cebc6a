// An appraisal kept in the book, read again: the one place where a kept job file becomes a Job.
//
// Two of them matter. What looks forward (what is still to come, what to advertise at, go on or stop) goes by
// the last one that was kept; what looks back (variance, own pace, how the appraisals did) by the last one
// kept on or before the day of the purchase. Of two of one day the later one counts.
#pragma once
#include <optional>
#include <string>

#include "appraisal/job.h"
#include "book/events/appraisals.h"
#include "text/value.h"

namespace nonrunner::answers {

struct KeptJob {
  appraisal::Job job;
  Day day;
  std::string figures;  // what it came to when it was kept, JSON; empty: not appraised
};

appraisal::Job read_kept_job(const book::Book&, const std::string& tag, const book::KeptAppraisal&);
// The one kept last as the tree of its file, settled; absent where none is kept.
std::optional<Value> kept_tree(const book::Book&, const std::string& tag);

// Looking forward, as of the end of `on`; absent where none was kept by then.
std::optional<KeptJob> kept_job(const book::Book&, const std::string& tag, std::optional<Day> on = {});
// The same for a question that still decides something, named in the refusal: throws Refusal where the car is unknown,
// sold or finished, or no appraisal of it is kept.
KeptJob job_to_decide(const book::Book&, const std::string& question, const std::string& tag);
// Looking back; of a car that was never bought the last one.
std::optional<KeptJob> job_at_purchase(const book::Book&, const std::string& tag, std::optional<Day> on = {});
// The same with figures believed beforehand in place of "own": what own figures are worked out from, since
// none may rest on itself.
std::optional<appraisal::Job> believed_job_at_purchase(const book::Book&, const std::string& tag);
// What a car is: as the appraisal that looks back describes it; where none was kept by its purchase, as the last
// one does. Empty where none is kept at all.
appraisal::Vehicle described(const book::Book&, const std::string& tag);

}  // namespace nonrunner::answers
