#include "answers/next_step.h"

#include "answers/budget.h"

namespace nonrunner::answers {

namespace {
constexpr double for_certain = 0.995;  // a chance that is shown as 100 %
}

std::optional<NextStep> next_step(const book::Book& book, const book::BoardRow& row) {
  using What = NextStep::What;
  if (row.state == book::State::considered) return NextStep{What::decide, ""};
  if (row.state != book::State::owned) return NextStep{What::report, ""};
  if (row.in_pieces) return NextStep{What::sell_parts, ""};
  const auto budget = budget_of(book, row.tag);
  if (!budget) return std::nullopt;
  if (budget->ready) return NextStep{What::sell, ""};
  if (budget->appraised && !budget->cause_is_noted) return NextStep{What::find_cause, ""};
  for (const BudgetWork& work : budget->work)
    if (!work.finished() && work.chance >= for_certain) return NextStep{What::work, work.estimate.operation};
  for (const BudgetLine& line : budget->lines)
    if (!line.finished() && line.chance() >= for_certain) return NextStep{What::buy, line.estimate.what};
  return NextStep{What::advertise, ""};
}

}  // namespace nonrunner::answers
