#include "answers/budget_sums.h"

#include <algorithm>
#include <map>

namespace nonrunner::answers {

std::vector<const PlacedMoney*> not_in_estimate(const Budget& budget) {
  std::vector<const PlacedMoney*> all;
  for (const PlacedMoney& money : budget.money)
    if (book::is_cost(money.kind) && !in_estimate(budget, money)) all.push_back(&money);
  std::stable_sort(all.begin(), all.end(),
                   [](const PlacedMoney* a, const PlacedMoney* b) { return a->amount < b->amount; });
  return all;
}

std::vector<KeptOutside> kept_outside(const Budget& budget) {
  std::vector<KeptOutside> all;
  std::map<std::string, std::size_t> by_line;
  for (const PlacedMoney* money : not_in_estimate(budget)) {
    const auto [found, added] = by_line.emplace(money->line, all.size());
    if (added || money->line.empty())
      all.push_back({money->what, -money->amount});
    else
      all[found->second].cost -= money->amount;
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const KeptOutside& a, const KeptOutside& b) { return a.cost > b.cost; });
  std::erase_if(all, [](const KeptOutside& each) { return each.cost <= Money{}; });
  return all;
}

std::vector<HeadingSum> by_heading(const Budget& budget) {
  using Kind = appraisal::EstimatedLine::Kind;
  std::vector<HeadingSum> all;
  for (const BudgetLine& line : budget.lines) {
    const std::string heading = line.estimate.kind == Kind::fix ? "fixes" : line.estimate.group;
    auto found =
        std::find_if(all.begin(), all.end(), [&](const HeadingSum& each) { return each.heading == heading; });
    if (found == all.end()) {
      all.push_back({heading, {}, {}, {}, false});
      found = all.end() - 1;
    }
    found->expected += line.expected;
    found->booked += line.booked;
    found->to_come += line.to_come;
    found->in_estimate |= line.in_estimate;
  }
  return all;
}

BudgetSums sums_of(const Budget& budget) {
  BudgetSums sums;
  for (const BudgetLine& line : budget.lines) {
    sums.expected += line.expected;
    sums.booked += line.booked;
  }
  for (const PlacedMoney* money : not_in_estimate(budget))
    if (!money->place) sums.under_no_heading -= money->amount;
  sums.booked += sums.under_no_heading;
  Hours under_headings;
  for (const BudgetWork& work : budget.work) {
    sums.expected_hours += work.estimate.hours;
    under_headings += work.booked;
  }
  for (const PlacedWork& worked : budget.worked) sums.all_hours += worked.own;
  if (sums.all_hours > under_headings) sums.hours_under_no_heading = sums.all_hours - under_headings;
  return sums;
}

Money fees_to_come(const Budget& budget) {
  Money sum;
  for (const BudgetLine& line : budget.lines)
    if (line.estimate.kind == appraisal::EstimatedLine::Kind::fees) sum += line.to_come;
  return sum;
}

}  // namespace nonrunner::answers
