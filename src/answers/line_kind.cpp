#include "answers/line_kind.h"

#include <algorithm>
#include <map>

#include "answers/budget.h"
#include "answers/known.h"
#include "answers/links.h"
#include "book/ledger/names.h"

namespace nonrunner::answers {

const char* line_kind(appraisal::EstimatedLine::Kind kind) {
  using Kind = appraisal::EstimatedLine::Kind;
  switch (kind) {
    case Kind::consumable:
    case Kind::opening_up:
      return "consumable";
    case Kind::sublet:
    case Kind::parting_out:
      return "sublet";
    case Kind::fees:
      return "fee";
    default:
      return "part";
  }
}

std::string line_kind(const book::Book& book, const std::string& to, const std::string& what,
                      const std::string& under) {
  static const std::map<std::string, std::string> own = {
      {"tools", "tool"}, {"owner", "private"}, {"overhead", "overhead"}};
  if (const auto found = own.find(to); found != own.end()) return found->second;
  const std::string guess = "part";
  if (!book::has_vehicle(book, to)) return guess;  // a new car has no budget
  const auto name = name_meant(line_names(book, to), under.empty() ? what : under, false);
  const auto budget = name ? budget_of(book, to) : std::nullopt;
  if (!budget) return guess;
  for (const BudgetLine& line : budget->lines)
    if (line.estimate.what == *name) return line_kind(line.estimate.kind);
  // Of a cause that is not the likeliest: the appraisal has it all the same.
  const auto known_job = known_of(book, to);
  const auto is_it = [&](const auto& each) { return each.name == *name; };
  for (const auto& correction :
       known_job ? known_job->job.corrections : std::vector<appraisal::Correction>()) {
    if (std::any_of(correction.sublets.begin(), correction.sublets.end(), is_it)) return "sublet";
    if (std::any_of(correction.consumables.begin(), correction.consumables.end(), is_it)) return "consumable";
    if (std::any_of(correction.parts.begin(), correction.parts.end(), is_it)) return "part";
  }
  return guess;
}

}  // namespace nonrunner::answers
