#include "reports/profit/sums.h"

#include <algorithm>

#include "exact/decimal.h"
#include "reports/formula.h"

namespace nonrunner::reports::profit {

const char* name_of(ProfitKind kind) {
  switch (kind) {
    case ProfitKind::purchase:
      return "purchase";
    case ProfitKind::fee:
      return "fee";
    case ProfitKind::part:
      return "part";
    case ProfitKind::consumable:
      return "consumable";
    case ProfitKind::sublet:
      return "sublet";
    case ProfitKind::paid_hours:
      return "paid hours";
    case ProfitKind::other_cost:
      return "other cost";
    case ProfitKind::recovered:
      return "recovered";
    case ProfitKind::selling_cost:
      return "selling cost";
    case ProfitKind::commission:
      return "commission";
    case ProfitKind::deposit_kept:
      return "deposit kept";
    case ProfitKind::sale:
      return "sale";
    case ProfitKind::due_back:
      return "due back";
  }
  return "";
}

std::optional<Money> per_hour(Money amount, Hours hours) {
  if (hours.thousandths() == 0) return std::nullopt;
  return Money::of_minor(scaled(amount.minor(), 1000, hours.thousandths(), Rounding::half_away));
}

namespace {

Outcome outcome(const Sums& sums, const ProfitFigures& figures, bool final) {
  const auto by_then = [&](ProfitKind kind) {
    return sums.to_sale[index(kind)] + (final ? sums.after[index(kind)] : Money());
  };
  Outcome o;
  o.price = by_then(ProfitKind::sale);
  for (std::size_t kind = 0; kind <= index(ProfitKind::other_cost); ++kind) {
    o.cost -= sums.to_sale[kind];
    if (final) o.late -= sums.after[kind];
  }
  o.recovered_before = sums.to_sale[index(ProfitKind::recovered)];
  o.recovered_after = final ? sums.after[index(ProfitKind::recovered)] : Money();
  // Never below nothing: what was recovered beyond the cost is income.
  o.cost_of_sale = std::max(Money{}, o.cost - o.recovered_before);
  o.recovered_after += std::max(Money{}, o.recovered_before - o.cost);
  o.selling = -by_then(ProfitKind::selling_cost) - by_then(ProfitKind::commission);
  o.deposit_kept = by_then(ProfitKind::deposit_kept);
  o.cash_profit = o.price - o.cost_of_sale - o.selling + o.deposit_kept + o.recovered_after - o.late;
  for (const Work& each : figures.hours)
    if (final || !each.after_sale) o.own += each.own;
  o.own_value = Price::of(figures.hour).times(o.own);
  o.profit = o.cash_profit - o.own_value;
  const Money commission = -by_then(ProfitKind::commission);
  o.rest = o.cash_profit - o.price + commission;
  // A commission that is an amount and no share of the price is a cost like the others.
  const Money fixed = sums.commission_by_rate || !sums.priced ? -o.rest : commission - o.rest;
  const Rate rate = sums.commission_by_rate || !sums.priced ? figures.commission_rate : Rate();
  // A price is never below nothing; what a car that was not sold whole did not bring back is, where it brought more.
  const bool is_price = sums.priced || figures.state == ProfitFigures::State::owned;
  const auto for_costs = [&](Money costs) {
    return is_price ? formula::price_for(costs, rate) : rate.grossed_up(costs);
  };
  o.break_even = for_costs(fixed);
  o.break_even_with_hours = for_costs(fixed + o.own_value);
  o.per_hour = per_hour(o.cash_profit, o.own);
  return o;
}

}  // namespace

Sums added_up(const ProfitFigures& figures) {
  Sums sums;
  Money running, commission, price;
  int sales = 0, commissions = 0;
  for (std::size_t i = 0; i < figures.lines.size(); ++i) {
    const ProfitLine& line = figures.lines[i];
    (line.after_sale ? sums.after : sums.to_sale)[index(line.kind)] += line.amount;
    sums.anything_after |= line.after_sale;
    sums.priced |= line.kind == ProfitKind::sale;
    if (line.kind == ProfitKind::sale) price += line.amount, ++sales;
    if (line.kind == ProfitKind::commission) commission -= line.amount, ++commissions;
    running += line.amount;
    const bool day_ends = i + 1 == figures.lines.size() || figures.lines[i + 1].day != line.day;
    if (day_ends) sums.tied_up = std::max(sums.tied_up, -running);
  }
  for (const Work& each : figures.hours) sums.anything_after |= each.after_sale;
  const Rate rate = figures.commission_rate;
  // A share of a price of nothing is no line at all.
  sums.commission_by_rate = sales == 1 && commissions <= 1 && rate.billionths() > 0 &&
                            rate.of(price, Rounding::half_away) == commission;
  sums.final = outcome(sums, figures, true);
  sums.at_sale = outcome(sums, figures, false);
  return sums;
}

}  // namespace nonrunner::reports::profit
