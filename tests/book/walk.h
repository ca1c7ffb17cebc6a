// Walking the refusals of an event from top to bottom: it begins with every fault at once and one fault is
// mended at each step, so that which refusal comes first is tested as well as what it says.
#pragma once
#include <initializer_list>
#include <string>

#include "book/fixture.h"

namespace nonrunner::book {

struct Step {
  std::string event;
  std::string says;  // whole; "accepted" where all faults are mended
};

inline void walk(Shop& shop, std::initializer_list<Step> steps) {
  for (const Step& step : steps) {
    INFO(step.event);
    CHECK(shop.refusal(step.event) == step.says);
  }
}

}  // namespace nonrunner::book
