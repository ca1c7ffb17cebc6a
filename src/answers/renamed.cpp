#include "answers/renamed.h"

#include "book/events/finding.h"

namespace nonrunner::answers {

Renamed::Renamed(const book::Book& book, const std::string& tag, std::optional<Day> on) {
  for (const book::DatedFinding& finding : book::findings(book, tag, on))
    for (const book::Fact& fact : finding.facts)
      if (fact.what == book::fact::same) now_[fact.name] = fact.value;
}

std::string Renamed::now(const std::string& name) const {
  std::string last = name;
  // No further than there are names: two may have been exchanged.
  for (std::size_t steps = 0; steps < now_.size(); ++steps) {
    const auto found = now_.find(last);
    if (found == now_.end()) break;
    last = found->second;
  }
  return last;
}

}  // namespace nonrunner::answers
