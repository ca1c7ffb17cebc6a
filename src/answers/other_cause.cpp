#include "answers/other_cause.h"

#include <algorithm>

#include "answers/budget.h"
#include "answers/known.h"

namespace nonrunner::answers {

namespace {

struct Noted {
  std::string cause;
  Day day;
};
std::optional<Noted> noted_before(const book::Book& book, const std::string& tag) {
  std::optional<Noted> last;
  for (const book::DatedFinding& finding : book::findings(book, tag))
    for (const book::Fact& each : finding.facts)
      if (each.what == book::fact::cause) last = {each.name, finding.day};
  return last;
}

bool is_in_appraisal(const std::optional<Known>& known, const std::string& cause) {
  return known &&
         std::ranges::any_of(known->job.causes, [&](const auto& each) { return each.name == cause; });
}

void add_dropped(OtherCause& other, const Budget& needed, const std::optional<Budget>& now) {
  for (const BudgetLine& line : needed.lines) {
    const auto is_it = [&](const BudgetLine& each) { return each.estimate.what == line.estimate.what; };
    if (is_zero(line.to_come) || (now && std::ranges::any_of(now->lines, is_it))) continue;
    other.lines.push_back(line.estimate.what);
    other.to_come += line.to_come;
  }
  for (const BudgetWork& work : needed.work) {
    const auto is_it = [&](const BudgetWork& each) {
      return each.estimate.operation == work.estimate.operation;
    };
    if (work.to_come < 0.005 || (now && std::ranges::any_of(now->work, is_it))) continue;
    other.lines.push_back(work.estimate.operation);
    other.hours_to_come += work.to_come;
  }
}

}  // namespace

std::optional<OtherCause> other_cause(const book::Book& book, const book::Finding& finding) {
  std::string noted;
  for (const book::Fact& each : finding.facts)
    if (each.what == book::fact::cause) noted = each.name;
  const auto before = noted.empty() ? std::nullopt : noted_before(book, finding.vehicle);
  if (!before || before->cause == noted) return std::nullopt;
  OtherCause other;
  other.before_holds = before->day > finding.day;
  other.found_on = before->day;
  other.counts = other.before_holds ? before->cause : noted;
  other.counts_no_more = other.before_holds ? noted : before->cause;
  const auto known = known_of(book, finding.vehicle);
  if (!is_in_appraisal(known, other.counts_no_more)) return other;
  const auto needed = budget_of(book, finding.vehicle, other.counts_no_more);
  const bool is_known = other.counts == something_else || is_in_appraisal(known, other.counts);
  const auto now = is_known ? budget_of(book, finding.vehicle, other.counts) : std::nullopt;
  if (needed) add_dropped(other, *needed, now);
  return other;
}

}  // namespace nonrunner::answers
