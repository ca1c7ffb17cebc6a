// An amount of a job file that is to be "own": three points believed beforehand, moved and widened or
// narrowed to what the cars in the book say (resale/own_records.h), as far as there are any.
//
// The result has the shape of the prior: X = mean + (X0 - mean0) sd / sd0, so that it is again three points
// (a beta-PERT). Known to be right by its mean and variance (tests/resale/own_amount.cpp).
#pragma once
#include <vector>

#include "chance/three_point.h"
#include "resale/own_records.h"

namespace nonrunner::resale {

struct OwnPrior {
  ThreePoint points;
  double weight = 4;  // cars that it counts for
};

// What a job file's "own" rests on until there are cars. Common practice, no source; a job file can state its
// own: pace = ["own", 0.9, 1.1, 1.6].
namespace common_practice {
constexpr OwnPrior pace{{0.9, 1.2, 1.9}, 4};         // real hours / estimated hours
constexpr OwnPrior realised{{0.90, 0.95, 1.00}, 4};  // price got / price advertised
constexpr OwnPrior days{{7, 18, 45}, 4};             // from the first advert to the sale
constexpr PriorShare bad_salvage{0.15, 10};          // parts from a yard that were bad
constexpr double odds_weight = 5;                    // cars that the odds of the causes count for
constexpr double place_weight = 4;  // cars that what is stated of a day of the place counts for
}  // namespace common_practice

struct OwnAmount {
  OwnPrior prior;
  ShrunkMean figures;
  ThreePoint points;
};

// `least`, `most`: what the amount can be at all; points beyond are set to them. All of `own` lie between.
OwnAmount own_amount(const OwnPrior&, const std::vector<double>& own, double least, double most);

}  // namespace nonrunner::resale
