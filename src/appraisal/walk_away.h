// The walk-away price: the highest price at which every aim holds. Each aim's limit is found on its own, the
// lowest binds:
//   profit       E[profit] >= aims.profit                                  by formula
//   loss_chance  P(cash profit < 0) <= aims.loss_chance                    from the drawn points
//   per_hour     E[cash profit] >= aims.per_hour x E[own hours]            by formula
// A limit below zero means: not even as a gift. An aim that is not set, or that no price can break, has no
// limit.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "appraisal/job.h"
#include "appraisal/outlook.h"
#include "chance/weighted_sample.h"

namespace nonrunner::appraisal {

struct WalkAway {
  std::optional<double> by_profit, by_loss_chance, by_per_hour;
  double price = 0;
  std::string binding;  // "profit", "loss_chance" or "per_hour"
};

WalkAway walk_away(const Job&, const Outlook&, const WeightedSample& break_even_prices,
                   const std::vector<double>& weights);

}  // namespace nonrunner::appraisal
