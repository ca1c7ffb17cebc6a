// Faults with fixes drawn at random, for tests against a slower way.
#pragma once
#include <random>

#include "appraisal/choice.h"

namespace nonrunner::appraisal {

// Every fourth fault must be put right, where `some_must`. Up to three fixes each, to two decimals as people
// write them.
inline std::vector<ChoiceClass> random_classes(std::mt19937& random, std::size_t faults, bool some_must) {
  const auto within = [&](int low, int high) {
    return static_cast<double>(low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1))) /
           100;
  };
  std::vector<ChoiceClass> classes;
  for (std::size_t k = 0; k < faults; ++k) {
    ChoiceClass one{"fault " + std::to_string(k), {}};
    if (!some_must || random() % 4 != 0) one.choices.push_back({"leave it", 0, 0, 0});
    const std::size_t fixes = 1 + random() % 3;
    for (std::size_t j = 0; j < fixes; ++j)
      one.choices.push_back(
          {"fix " + std::to_string(j), within(20, 800), within(0, 30000), within(-4000, 25000)});
    classes.push_back(one);
  }
  return classes;
}

}  // namespace nonrunner::appraisal
