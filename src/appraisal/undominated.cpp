#include "appraisal/undominated.h"

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <map>

#include "exact/ends.h"

namespace nonrunner::appraisal {

namespace {

struct State {
  double hours = 0, cash = 0, gain = 0;
  std::uint32_t before = 0;  // place in the list of one class less
  std::uint32_t choice = 0;
};

// `states` in order of hours: drops whatever an earlier one beats.
std::vector<State> unbeaten(const std::vector<State>& states) {
  std::vector<State> kept;
  std::map<double, double> best;  // cash -> gain, both rising: the most that so much cash has given so far
  for (const State& state : states) {
    auto above = best.upper_bound(state.cash);
    if (above != best.begin() && std::prev(above)->second >= state.gain) continue;
    while (above != best.end() && above->second <= state.gain) above = best.erase(above);
    best.insert_or_assign(state.cash, state.gain);
    kept.push_back(state);
  }
  return kept;
}

}  // namespace

std::vector<ChoiceSet> undominated(const std::vector<ChoiceClass>& classes, const Keep& keep) {
  std::vector<std::vector<State>> lists = {{State{}}};
  std::size_t total = 1;
  for (std::size_t k = 0; k < classes.size(); ++k) {
    std::vector<State> grown;
    const std::vector<State>& last = lists.back();
    for (std::size_t i = 0; i < last.size(); ++i) {
      for (std::size_t j = 0; j < classes[k].choices.size(); ++j) {
        const Choice& choice = classes[k].choices[j];
        const State state{last[i].hours + choice.hours, last[i].cash + choice.cash,
                          last[i].gain + choice.gain, static_cast<std::uint32_t>(i),
                          static_cast<std::uint32_t>(j)};
        if (keep(k + 1, state.hours, state.cash, state.gain)) grown.push_back(state);
      }
      if (total + grown.size() > states_most)
        throw Refusal(
            "too many different sets of fixes to compare them all; leave out faults or fixes that matter "
            "little");
    }
    std::stable_sort(grown.begin(), grown.end(), [](const State& a, const State& b) {
      if (a.hours != b.hours) return a.hours < b.hours;
      if (a.cash != b.cash) return a.cash < b.cash;
      return a.gain > b.gain;
    });
    lists.push_back(unbeaten(grown));
    total += lists.back().size();
  }
  std::vector<ChoiceSet> sets;
  for (const State& state : lists.back()) {
    ChoiceSet set{std::vector<std::size_t>(classes.size()), state.hours, state.cash, state.gain};
    const State* at = &state;
    for (std::size_t k = classes.size(); k > 0; --k) {
      set.picks[k - 1] = at->choice;
      at = &lists[k - 1][at->before];
    }
    sets.push_back(std::move(set));
  }
  return sets;
}

}  // namespace nonrunner::appraisal
