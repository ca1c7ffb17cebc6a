// What can be done about one fault, without the job around it: the pieces from which sets of fixes are chosen
// (appraisal/knapsack.h, appraisal/frontier.h).
#pragma once
#include <cstddef>
#include <string>
#include <vector>

namespace nonrunner::appraisal {

struct Choice {
  std::string name;
  double hours = 0;  // own hours, not negative
  double cash = 0;   // money, not negative
  double gain = 0;   // money, may be negative
};

// Exactly one choice is taken from each. A fault that may be left has a choice "leave it" with zeros; one
// without it must be put right.
struct ChoiceClass {
  std::string name;
  std::vector<Choice> choices;  // at least one
};

struct ChoiceSet {
  std::vector<std::size_t> picks;  // for each class the place of its choice
  double hours = 0;
  double cash = 0;
  double gain = 0;
};

}  // namespace nonrunner::appraisal
