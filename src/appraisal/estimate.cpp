#include "appraisal/estimate.h"

#include "appraisal/source.h"
#include "figures/every_budget.h"

namespace nonrunner::appraisal {

namespace {

EstimatedLine line_of(EstimatedLine::Kind kind, const std::string& group, const std::string& what, double qty,
                      double stated) {
  EstimatedLine line;
  line.kind = kind;
  line.group = group;
  line.what = what;
  line.qty = qty;
  line.price = line.stated = stated;
  return line;
}

}  // namespace

Needs needs_of(const Job& job, const Correction& correction) {
  using Kind = EstimatedLine::Kind;
  const double pace = job.shop.pace.mean();
  Needs needs;
  double pulling = 0;
  for (const Operation& operation : correction.operations)
    needs.work.push_back({correction.name, operation.name, operation.hours.mean() * pace});
  for (const Part& part : correction.parts) {
    const SourceChoice choice = choose_source(part, job.shop);
    EstimatedLine line = line_of(Kind::part, correction.name, part.name, part.qty,
                                 part.price[static_cast<std::size_t>(choice.source)]->mean());
    line.source = name_of(choice.source);
    line.price = choice.cash / part.qty;
    line.core = part.core.mean();
    if (choice.source == Source::salvage && part.bad > 0) {
      line.bad = part.bad;
      line.again = price_again(part).mean();
      line.again_is_new = part.price[static_cast<std::size_t>(Source::fresh)].has_value();
    }
    needs.lines.push_back(std::move(line));
    pulling += choice.hours * pace;
  }
  for (const Consumable& each : correction.consumables)
    needs.lines.push_back(line_of(Kind::consumable, correction.name, each.name, each.qty, each.price.mean()));
  for (const Sublet& each : correction.sublets)
    needs.lines.push_back(line_of(Kind::sublet, correction.name, each.name, 1, each.price.mean()));
  if (pulling > 0) needs.work.push_back({correction.name, figures::every_budget::pulling_parts, pulling});
  return needs;
}

}  // namespace nonrunner::appraisal
