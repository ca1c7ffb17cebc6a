#include "appraisal/frontier.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "appraisal/undominated.h"

namespace nonrunner::appraisal {

std::vector<ChoiceSet> frontier(const std::vector<ChoiceClass>& classes, std::optional<double> cash) {
  std::vector<double> rest(classes.size() + 1);  // least cash that the classes to come need
  for (std::size_t k = classes.size(); k > 0; --k) {
    double least = std::numeric_limits<double>::infinity();
    for (const Choice& choice : classes[k - 1].choices) least = std::min(least, choice.cash);
    rest[k - 1] = rest[k] + least;
  }
  std::vector<ChoiceClass> priced = classes;
  // Without a limit cash cannot decide: leaving it out of the comparison keeps the lists short. Put back
  // below.
  if (!cash)
    for (ChoiceClass& one : priced)
      for (Choice& choice : one.choices) choice.cash = 0;
  const double most = cash ? *cash + 1e-9 * (1 + std::abs(*cash)) : 0;
  const std::vector<ChoiceSet> sets = undominated(
      priced, [&](std::size_t k, double, double spent, double) { return !cash || spent + rest[k] <= most; });

  std::vector<ChoiceSet> rising;
  for (const ChoiceSet& set : sets) {
    if (!rising.empty() && set.gain <= rising.back().gain) continue;
    if (!rising.empty() && set.hours <= rising.back().hours) rising.pop_back();
    rising.push_back(set);
  }
  for (ChoiceSet& set : rising) {
    set.cash = 0;
    for (std::size_t k = 0; k < classes.size(); ++k) set.cash += classes[k].choices[set.picks[k]].cash;
  }
  return rising;
}

double per_hour(const ChoiceSet& before, const ChoiceSet& after) {
  return (after.gain - before.gain) / (after.hours - before.hours);
}

std::vector<ChoiceSet> steps(const std::vector<ChoiceSet>& frontier) {
  std::vector<ChoiceSet> corners;
  for (const ChoiceSet& set : frontier) {
    while (corners.size() >= 2 && per_hour(corners[corners.size() - 2], corners.back()) <=
                                      per_hour(corners.back(), set) * (1 + 1e-12))
      corners.pop_back();
    corners.push_back(set);
  }
  return corners;
}

const ChoiceSet* at_budget(const std::vector<ChoiceSet>& frontier, double hours) {
  const ChoiceSet* last = nullptr;
  for (const ChoiceSet& set : frontier)
    if (set.hours <= hours + 1e-9 * (1 + std::abs(hours))) last = &set;
  return last;
}

}  // namespace nonrunner::appraisal
