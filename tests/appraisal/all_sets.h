// The slow obvious way: every set of choices, one from each class.
#pragma once
#include <functional>

#include "appraisal/choice.h"

namespace nonrunner::appraisal {

inline void for_all_sets(const std::vector<ChoiceClass>& classes,
                         const std::function<void(const ChoiceSet&)>& look) {
  ChoiceSet set{std::vector<std::size_t>(classes.size(), 0), 0, 0, 0};
  while (true) {
    set.hours = set.cash = set.gain = 0;
    for (std::size_t k = 0; k < classes.size(); ++k) {
      const Choice& choice = classes[k].choices[set.picks[k]];
      set.hours += choice.hours, set.cash += choice.cash, set.gain += choice.gain;
    }
    look(set);
    std::size_t k = 0;
    while (k < classes.size() && ++set.picks[k] == classes[k].choices.size()) set.picks[k++] = 0;
    if (k == classes.size()) return;
  }
}

}  // namespace nonrunner::appraisal
