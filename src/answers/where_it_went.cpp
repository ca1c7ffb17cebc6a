#include "answers/where_it_went.h"

#include <map>

#include "answers/budget_sums.h"
#include "book/questions/vehicle_money.h"

namespace nonrunner::answers {

std::vector<OfKind> where_it_went(const book::Book& book, const std::string& tag) {
  std::map<figures::MoneyKind, Money> sums;
  for (const book::MoneyLine& line : book::money_of(book, tag))
    if (line.kind != figures::MoneyKind::due_back) sums[line.kind] += line.amount;
  std::vector<OfKind> all;
  const auto sale = sums.find(figures::MoneyKind::sale);
  if (sale != sums.end()) all.push_back({sale->first, sale->second});
  for (const auto& [kind, amount] : sums)
    if (kind != figures::MoneyKind::sale && !is_zero(amount)) all.push_back({kind, amount});
  return all;
}

std::vector<StoodAt> cash_over_time(const book::Book& book, const std::string& tag) {
  std::map<Day, Money> by_day;
  for (const book::MoneyLine& line : book::money_of(book, tag))
    if (line.kind != figures::MoneyKind::due_back) by_day[line.day] += line.amount;
  std::vector<StoodAt> all;
  Money sum;
  for (const auto& [day, amount] : by_day) all.push_back({day, sum += amount});
  return all;
}

std::vector<Variance> variances(const Budget& budget) {
  std::vector<Variance> all;
  for (const HeadingSum& each : by_heading(budget))
    all.push_back({each.heading, each.in_estimate ? std::optional(each.expected) : std::nullopt, each.booked,
                   each.in_estimate ? each.booked - each.expected : each.booked});
  const Money outside = sums_of(budget).under_no_heading;
  if (!is_zero(outside)) all.push_back({"", std::nullopt, outside, outside});
  return all;
}

}  // namespace nonrunner::answers
