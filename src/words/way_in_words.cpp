#include "words/way_in_words.h"

#include <fmt/format.h>

#include "appraisal/fix_choices.h"

namespace nonrunner::words {

std::vector<std::pair<std::size_t, std::string>> what_changes(
    const appraisal::Job& job, const std::vector<appraisal::ChoiceClass>& classes,
    const appraisal::ChoiceSet* before, const appraisal::ChoiceSet& after) {
  const auto is_left = [&](std::size_t k, std::size_t pick) {
    return !appraisal::fix_of(job.faults[k], pick);
  };
  std::vector<std::pair<std::size_t, std::string>> all;
  for (std::size_t k = 0; k < classes.size(); ++k) {
    const std::size_t now = after.picks[k];
    if (before && before->picks[k] == now) continue;
    const bool was_left = !before || is_left(k, before->picks[k]);
    if (was_left && is_left(k, now)) continue;
    std::string what = classes[k].choices[now].name;
    if (before && !was_left) what += fmt::format(", not {}", classes[k].choices[before->picks[k]].name);
    all.emplace_back(k, classes[k].name + ": " + what);
  }
  return all;
}

std::string next_in_words(const appraisal::Job& job, const std::vector<appraisal::ChoiceClass>& classes,
                          const appraisal::ChoiceSet* before, const appraisal::ChoiceSet& after) {
  const auto changed = what_changes(job, classes, before, after);
  if (changed.empty()) return "nothing yet";
  if (!before && changed.size() > 1) return fmt::format("{} fixes to begin with", changed.size());
  std::string next;
  for (const auto& [k, what] : changed) next += (next.empty() ? "" : "; ") + what;
  return next;
}

}  // namespace nonrunner::words
