#include "answers/year_sums.h"

#include "exact/decimal.h"

namespace nonrunner::answers {

namespace {

std::optional<Money> per_hour(Money result, Hours hours) {
  if (hours <= Hours{}) return std::nullopt;
  return Money::of_minor(scaled(result.minor(), 1000, hours.thousandths(), Rounding::half_away));
}

void add_months(const figures::YearFigures& figures, YearSums& sums) {
  for (const figures::YearMonth& month : figures.months) {
    sums.sales += month.sales;
    sums.cost_of_sales += month.cost_of_sales;
    sums.selling_costs += month.selling_costs;
    sums.other_income += month.other_income;
    sums.late_cost += month.late_cost;
    sums.overhead += month.overhead;
    sums.tools += month.tools;
    sums.looking += month.looking;
  }
}

}  // namespace

YearSums sums_of(const figures::YearFigures& figures) {
  YearSums sums;
  sums.year = figures.year;
  add_months(figures, sums);
  sums.result = figures.result;
  sums.sales_returned = figures.sales_returned;
  for (const figures::YearVehicle& car : figures.vehicles) {
    const Money result = car.sales - car.cost_of_sales - car.selling_costs + car.other_income - car.late_cost;
    YearCar& each = sums.cars.emplace_back(YearCar{car.tag, car.state, result, car.own_hours, {}, {}});
    if (car.ended_in_year) {
      each.hours_before = car.hours_before;
      each.per_own_hour = per_hour(result, car.own_hours + car.hours_before);
    }
    sums.own_hours += car.own_hours;
    sums.in_cars += car.closing;
  }
  sums.per_own_hour = per_hour(sums.result, sums.own_hours);
  for (const figures::YearPurse& purse : figures.purses) sums.in_purses += purse.closing;
  for (const figures::YearStock& stock : figures.stock) sums.on_the_shelf += stock.closing;
  for (const figures::YearLine& tool : figures.tools_kept) sums.in_tools += tool.amount;
  for (const figures::Due& due : figures.due) sums.due_back += due.amount;
  for (const figures::YearOwed& owed : figures.owed) sums.owed += owed.amount;
  sums.owed_on_cards = figures.card_owed;
  sums.without_paper = figures::bought_without_paper(figures);
  return sums;
}

}  // namespace nonrunner::answers
