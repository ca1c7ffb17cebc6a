// What is believed about the prices of cars before any comparable is seen. All of it is common practice, no
// source; weak on purpose, and each line can be replaced under [value.slopes] in a job file, or made "flat"
// (nothing believed).
//
// A slope is a share of the median comparable's price (brought to the sold basis), stated as [most likely,
// give or take one standard deviation]:
//   odometer   for each 10,000 more on the odometer   -0.04 give or take 0.04
//   year       for each year younger                  +0.05 give or take 0.05
//   grade      for each grade better                  +0.06 give or take 0.06
// and the spread of single cars about the line as [share, the number of cars that this opinion counts for]:
//   spread     0.07, counting as 3 cars
//
// Where all three slopes are flat the spread is flat too unless it is stated: then the fit is ordinary least
// squares. The level is always flat: it comes from the comparables alone.
#pragma once
#include <optional>

namespace nonrunner::resale {

struct Belief {
  double share = 0;
  double give_or_take = 1;  // above zero
};

struct Spread {
  double share = 0.07;  // above zero
  double cars = 3;      // above zero: degrees of freedom of the inverse gamma prior
};

struct SlopePriors {
  std::optional<Belief> odometer = Belief{-0.04, 0.04};  // absent: flat
  std::optional<Belief> year = Belief{0.05, 0.05};
  std::optional<Belief> grade = Belief{0.06, 0.06};
  std::optional<Spread> spread = Spread{};

  static SlopePriors flat() { return {std::nullopt, std::nullopt, std::nullopt, std::nullopt}; }
};

}  // namespace nonrunner::resale
