#include "answers/next_step.h"

namespace nonrunner::answers {

namespace {
constexpr double for_certain = 0.995;  // a chance that is shown as 100 %
}

std::optional<NextStep> next_step(book::State state, bool in_pieces, const std::optional<Budget>& budget) {
  using What = NextStep::What;
  if (state == book::State::considered) return NextStep{What::decide, ""};
  if (state != book::State::owned) return NextStep{What::report, ""};
  if (in_pieces) return NextStep{What::sell_parts, ""};
  if (!budget) return std::nullopt;
  if (budget->ready) return NextStep{What::sell, ""};
  // What cannot be put right whatever is found is no matter of the next step but of which course to take.
  if (budget->not_put_right && (budget->cause_is_noted || budget->if_cause.empty())) return std::nullopt;
  if (budget->appraised && !budget->cause_is_noted) return NextStep{What::find_cause, ""};
  for (const BudgetWork& work : budget->work)
    if (!work.finished() && work.chance >= for_certain) return NextStep{What::work, work.estimate.operation};
  for (const BudgetLine& line : budget->lines)
    if (!line.finished() && line.chance() >= for_certain) return NextStep{What::buy, line.estimate.what};
  return NextStep{What::advertise, ""};
}

}  // namespace nonrunner::answers
