#include "answers/appraise.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/finding.h"
#include "answers/known.h"
#include "appraisal/read_job.h"
#include "book/events/appraisals.h"
#include "book/events/finding.h"
#include "book/ledger/names.h"
#include "exact/hint.h"
#include "figures/opinion.h"
#include "text/toml.h"

namespace nonrunner::answers {

ToAppraise file_to_appraise(const std::string& text, const std::string& name, const book::Book* book,
                            const Currency& currency, Day day) {
  auto read = read_settled_job(text, name, book, currency, day);
  return {std::move(read.job), text, std::move(read.settled), {}};
}

ToAppraise car_to_appraise(const book::Book& book, const std::string& tag) {
  book::know_vehicle(book, "appraise", tag);
  const auto kept = book::appraisal_known(book, tag);
  if (!kept)
    throw hinted<Refusal>(fmt::format("appraise: no appraisal of {} is kept in the book", tag),
                          {Action::keep_appraisal, {}});
  const std::string name = "the appraisal of " + tag;
  Settled settled = kept->settled ? Settled{*kept->settled, {}}
                                  : answers::settled(parse_toml(kept->job, name), name, &book, kept->day);
  return {*job_as_found(book, tag), kept->job, std::move(settled), {}};
}

void ask(ToAppraise& given, Money offer) { given.job.deal.asking = in_units(offer, given.job.currency); }

void see(ToAppraise& given, const std::vector<std::string>& outcomes) {
  for (const std::string& outcome : outcomes) {
    const std::string named = seen_in_names(given.job, outcome);
    appraisal::see(given.job, named);
    const auto test = std::find_if(given.job.tests.begin(), given.job.tests.end(), [&](const auto& each) {
      return each.seen && named == each.name + "=" + each.outcomes[*each.seen];
    });
    const bool twice = std::any_of(given.seen.begin(), given.seen.end(),
                                   [&](const auto& each) { return each.test == test->name; });
    if (twice)
      throw WrongUsage(fmt::format("test \"{}\" stands twice, expected one outcome of it", test->name));
    given.seen.push_back({test->name, test->outcomes[*test->seen]});
  }
}

void keep(book::Recording& recording, const ToAppraise& given, Day day, const std::string& figures) {
  const std::string& tag = given.job.vehicle.tag;
  book::keep_appraisal(recording, tag, day, 0, {given.text, given.settled.figures, figures});
  book::Finding finding{day, tag, "tests seen, with the appraisal", {}};
  for (const ToAppraise::Seen& each : given.seen)
    finding.facts.push_back({book::fact::seen, each.test, each.outcome});
  if (!finding.facts.empty()) record(recording, finding);
}

}  // namespace nonrunner::answers
