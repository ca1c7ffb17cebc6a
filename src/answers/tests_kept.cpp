#include "answers/tests_kept.h"

#include <algorithm>

#include "answers/kept_job.h"

namespace nonrunner::answers {

std::vector<book::Fact> tests_to_keep(const book::Book& book, const std::string& tag,
                                      const appraisal::Job& fresh) {
  std::vector<book::Fact> facts;
  const auto kept = kept_job(book, tag);
  if (!kept) return facts;
  for (const appraisal::Test& before : kept->job.tests) {
    if (!before.seen || before.spoiled) continue;
    const std::string& outcome = before.outcomes[*before.seen];
    for (const appraisal::Test& now : fresh.tests)
      if (now.name == before.name && !now.seen && !now.spoiled &&
          std::find(now.outcomes.begin(), now.outcomes.end(), outcome) != now.outcomes.end())
        facts.push_back({book::fact::seen, before.name, outcome});
  }
  for (const book::DatedFinding& finding : book::findings(book, tag))
    for (const book::Fact& fact : finding.facts)
      std::erase_if(facts, [&](const book::Fact& each) {
        return fact.what == book::fact::seen && fact.name == each.name;
      });
  return facts;
}

}  // namespace nonrunner::answers
