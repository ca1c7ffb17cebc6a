#include "appraisal/chain.h"

#include "appraisal/source.h"

namespace nonrunner::appraisal {

CorrectionCost cost_of(const Correction& correction, const Shop& shop, double cover, double interest) {
  CorrectionCost cost;
  for (const Operation& operation : correction.operations) cost.hours += operation.hours.mean();
  for (const Part& part : correction.parts) {
    const SourceChoice choice = choose_source(part, shop, cover, interest);
    cost.sources.push_back(choice.source);
    cost.cash += choice.cash;
    cost.hours += choice.hours;
    cost.cores += choice.cores;
  }
  for (const Consumable& consumable : correction.consumables)
    cost.cash += consumable.qty * consumable.price.mean();
  for (const Sublet& sublet : correction.sublets) cost.cash += sublet.price.mean();
  cost.takes_off = correction.takes_off.mean();
  return cost;
}

Chain chain_of(const Job& job, const Cause& cause) {
  Chain chain;
  double reached = 1;
  for (auto next = cause.correction; next; next = job.corrections[*next].otherwise) {
    const double works = job.corrections[*next].works;
    chain.steps.push_back({*next, reached, reached * works});
    reached *= 1 - works;
    if (reached == 0) break;
  }
  chain.fails = chain.steps.empty() ? 0 : reached;
  return chain;
}

}  // namespace nonrunner::appraisal
