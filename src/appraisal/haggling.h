// What to name when haggling: what the car may still cost a buyer before it is sold, in money and own hours,
// sorted by chance x cost, so that what is sure and dear comes first. Expected values. In the words of the
// two who stand at the car: what is wrong with it, not what is planned for it. Causes that are hardly
// possible are left out: who names them is not believed.
//
// The first figure to say: the walk-away price less what separates it from the price asked, half of it again
// at most, so that the middle between the two figures is what may be paid; in two figures that count. Common practice,
// no source.
#pragma once
#include <string>
#include <vector>

#include "appraisal/courses.h"
#include "appraisal/evidence.h"
#include "appraisal/outlook.h"

namespace nonrunner::appraisal {

constexpr double hardly_possible = 0.03;

struct CostToName {
  std::string what;
  double amount = 0;  // cash and own hours at the shop's hour, if it comes to it
  double chance = 1;
  bool counted = true;  // false: it is of putting right, which is the best course under no cause
};

// `put_right`: whether that is the best course under some cause.
std::vector<CostToName> costs_to_name(const Courses&, const Beliefs&, const Outlook&, bool put_right);

// Absent where nothing is to be paid at all, or no more is asked than may be paid.
std::optional<double> first_figure(double asking, double walk_away);

}  // namespace nonrunner::appraisal
