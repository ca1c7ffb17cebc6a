#include "answers/made_ready.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/budget.h"

namespace nonrunner::answers {

std::vector<std::string> open_in_budget(const book::Book& book, const std::string& tag) {
  std::vector<std::string> open;
  const auto budget = budget_of(book, tag);
  if (!budget) return open;
  for (const BudgetLine& line : budget->lines)
    if (!line.finished() && line.in_estimate && !is_zero(line.if_needed))
      open.push_back(
          fmt::format("{} {} ({})", line.number, line.estimate.what, line.if_needed.shown(book.currency())));
  for (const BudgetWork& work : budget->work)
    if (!work.finished() && work.to_come >= 0.05)
      open.push_back(fmt::format("{} {} ({:.1f} h)", work.number, work.estimate.operation, work.to_come));
  return open;
}

MadeReady made_ready(const book::Book& book, const std::string& tag, const std::vector<std::string>& before) {
  MadeReady ready;
  const std::vector<std::string> after = open_in_budget(book, tag);
  for (const std::string& line : before)
    if (std::find(after.begin(), after.end(), line) == after.end()) ready.closed.push_back(line);
  const auto budget = budget_of(book, tag);
  if (!budget) return ready;
  for (const BudgetLine& line : budget->lines)
    for (const appraisal::Fault& fault : budget->job.faults)
      if (fault.must && fault.name == line.estimate.what && line.state == LineState::done &&
          is_zero(line.booked))
        ready.nothing_booked.push_back(fault.name);
  return ready;
}

}  // namespace nonrunner::answers
