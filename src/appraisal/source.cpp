#include "appraisal/source.h"

namespace nonrunner::appraisal {

const Amount& price_again(const Part& part) {
  const auto& fresh = part.price[static_cast<std::size_t>(Source::fresh)];
  return fresh ? *fresh : *part.price[static_cast<std::size_t>(Source::salvage)];
}

double day_cost(const Shop& shop, double interest) {
  return shop.holding_per_day + shop.bay_per_day + interest;
}

double days_of_an_hour(const Shop& shop) { return shop.pace.mean() * 7 / shop.hours_per_week; }

SourceChoice choose_source(const Part& part, const Shop& shop, double cover, double interest) {
  SourceChoice best;
  double least = 0;
  bool any = false;
  for (const Source source : all_sources) {
    const auto& price = part.price[static_cast<std::size_t>(source)];
    if (!price || (part.use && *part.use != source)) continue;
    SourceChoice choice{source, part.qty * price->mean(), 0, part.qty * part.core.mean()};
    if (source == Source::salvage) {
      choice.cash += part.bad * part.qty * price_again(part).mean();
      choice.hours = part.pull_hours.mean();
    }
    const double cost = (1 - cover) * (choice.cash + choice.hours * shop.pace.mean() * shop.hour) +
                        choice.hours * days_of_an_hour(shop) * day_cost(shop, interest);
    if (any && cost >= least) continue;
    best = choice;
    least = cost;
    any = true;
  }
  return best;
}

}  // namespace nonrunner::appraisal
