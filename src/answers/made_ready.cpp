#include "answers/made_ready.h"

#include <algorithm>

#include "answers/budget.h"

namespace nonrunner::answers {

namespace {
bool holds(const std::vector<StillOpen>& lines, const StillOpen& line) {
  return std::any_of(lines.begin(), lines.end(),
                     [&](const StillOpen& each) { return is_same_line(each, line); });
}
}  // namespace

std::vector<StillOpen> open_in_budget(const book::Book& book, const std::string& tag) {
  constexpr double nothing = 0.05;  // hours: less is shown as none
  std::vector<StillOpen> open;
  const auto budget = budget_of(book, tag);
  if (!budget) return open;
  for (const BudgetLine& line : budget->lines)
    if (!line.finished() && line.in_estimate && !is_zero(line.if_needed))
      open.push_back({line.number, line.estimate.what, false, line.if_needed, 0});
  for (const BudgetWork& work : budget->work)
    if (!work.finished() && work.to_come >= nothing)
      open.push_back({work.number, work.estimate.operation, true, {}, work.to_come});
  return open;
}

MadeReady made_ready(const book::Book& book, const std::string& tag, const std::vector<StillOpen>& before) {
  MadeReady ready;
  const std::vector<StillOpen> after = open_in_budget(book, tag);
  for (const StillOpen& line : before)
    if (!holds(after, line)) ready.closed.push_back(line);
  const auto budget = budget_of(book, tag);
  if (!budget) return ready;
  for (const BudgetLine& line : budget->lines)
    for (const appraisal::Fault& fault : budget->job.faults)
      if (fault.must && fault.name == line.estimate.what && line.state == LineState::done &&
          is_zero(line.booked) && holds(ready.closed, {0, fault.name, false, {}, 0}))
        ready.nothing_booked.push_back(fault.name);
  return ready;
}

}  // namespace nonrunner::answers
