#include "answers/fixes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "answers/budget.h"
#include "appraisal/courses.h"
#include "appraisal/fix_choices.h"
#include "appraisal/outlook.h"
#include "appraisal/sound_value.h"
#include "book/questions/figures.h"
#include "exact/ends.h"
#include "figures/opinion.h"
#include "text/counted.h"

namespace nonrunner::answers {

namespace {

[[noreturn]] void refuse_limits(const FixesAnswer& answer, const appraisal::Knapsack& found) {
  const Currency& c = answer.job.currency;
  const auto& limits = answer.limits;
  std::string asked;
  if (limits.hours) asked += counted(fmt::format("{:g}", *limits.hours), "own hour");
  if (limits.cash)
    asked += fmt::format("{}{} of cash", asked.empty() ? "" : " and ", shown_units(*limits.cash, c));
  throw Refusal(
      fmt::format("fixes: what must be put right does not fit into {}: it needs {:.2f} own hours and {} of "
                  "cash at least{}; "
                  "allow more, or do not sell it running",
                  asked, found.least_hours, shown_units(found.least_cash, c),
                  limits.hours && limits.cash ? " (each looked at alone)" : ""));
}

void put_in_order(FixesAnswer& answer) {
  const auto would_gain = [&](std::size_t k) {
    const auto& choices = answer.classes[k].choices;
    return std::any_of(choices.begin() + 1, choices.end(),
                       [](const appraisal::Choice& each) { return each.gain > 0; });
  };
  for (std::size_t k = 0; k < answer.classes.size(); ++k) {
    const appraisal::Choice& choice = answer.choice(k);
    if (answer.fault(k).must)
      answer.must.push_back(k);
    else if (!answer.is_left(k, answer.chosen().picks[k]))
      answer.order.push_back(
          {k, choice.hours > 0 ? std::optional(choice.gain / choice.hours) : std::nullopt});
    else
      (would_gain(k) ? answer.no_room : answer.left).push_back(k);
  }
  const auto earns = [](const FixesAnswer::Next& each) {
    return each.an_hour.value_or(std::numeric_limits<double>::infinity());
  };
  std::stable_sort(answer.order.begin(), answer.order.end(),
                   [&](const auto& x, const auto& y) { return earns(x) > earns(y); });
}

}  // namespace

bool FixesAnswer::has_must() const {
  return std::any_of(job.faults.begin(), job.faults.end(),
                     [](const appraisal::Fault& each) { return each.must; });
}
bool FixesAnswer::is_left(std::size_t k, std::size_t pick) const {
  return !appraisal::fix_of(fault(k), pick);
}

FixesAnswer fixes(const appraisal::Job& job, const appraisal::Limits& limits) {
  FixesAnswer answer;
  answer.job = job;
  answer.classes = appraisal::fix_choices(job);
  answer.limits = limits;
  answer.best = *appraisal::best_set(answer.classes, {}).best;
  if (answer.has_limits()) {
    const appraisal::Knapsack found = appraisal::best_set(answer.classes, limits);
    if (!found.best) refuse_limits(answer, found);
    answer.limited = *found.best;
  }
  answer.frontier = appraisal::frontier(answer.classes, limits.cash);
  answer.steps = appraisal::steps(answer.frontier);
  put_in_order(answer);
  return answer;
}

namespace {

std::size_t cause_of(const Budget& budget) {
  std::size_t cause = 0;
  while (budget.job.causes[cause].name != budget.cause) ++cause;
  return cause;
}

// What the appraisal in force would do with the car, the cause being the one taken and certain troubles there.
appraisal::Course best_course(const Budget& budget) {
  const appraisal::Job& job = budget.job;
  const appraisal::Courses courses(job, appraisal::sound_value_of(job).mean);
  unsigned certain = 0;
  for (std::size_t j = 0; j < job.troubles.size(); ++j)
    if (job.troubles[j].chance == 1) certain |= 1u << j;
  return courses.best(cause_of(budget), certain).course;
}

}  // namespace

void say_whether_put_right(FixesAnswer& answer) {
  const appraisal::Job& job = answer.job;
  if (job.road_barred) {
    answer.not_put_right = WhyNot{WhyNot::Kind::paper_is_lost};
    return;
  }
  const appraisal::Courses courses(job, appraisal::sound_value_of(job).mean);
  const appraisal::States states(courses);
  const appraisal::Beliefs beliefs = appraisal::posterior(job);
  const std::vector<double> chances = appraisal::state_chances(job, beliefs);
  const std::size_t masks = std::size_t{1} << job.troubles.size();
  // What another course leaves more than is only said of cases that could be put right.
  std::optional<std::size_t> likeliest;
  bool any_correction = false;
  for (std::size_t s = 0; s < chances.size(); ++s) {
    if (!(chances[s] > 0)) continue;
    const std::size_t cause = s / masks;
    any_correction = any_correction || !courses.chain(cause).steps.empty();
    if (states.best[s].course == appraisal::Course::put_right) return;
    const bool can_be = std::ranges::any_of(
        courses.paths(cause, static_cast<unsigned>(s % masks)),
        [](const appraisal::Path& path) { return path.course == appraisal::Course::put_right; });
    if (can_be && (!likeliest || chances[s] > chances[*likeliest])) likeliest = s;
  }
  if (likeliest) {
    answer.other_course = name_of(job.causes[*likeliest / masks], states.best[*likeliest].course);
    return;
  }
  answer.not_put_right = WhyNot{WhyNot::Kind::no_correction};
  if (!any_correction) return;
  for (std::size_t j = 0; j < job.troubles.size(); ++j)
    if (job.troubles[j].bars_road && beliefs.trouble[j] == 1)
      answer.not_put_right = WhyNot{WhyNot::Kind::trouble_bars, job.troubles[j].name};
}

void say_whether_put_right(FixesAnswer& answer, const book::Book& book, const std::string& tag) {
  const book::Life life = book::life_of(book, tag);
  if (life.parted != 0) {
    answer.not_put_right = WhyNot{WhyNot::Kind::in_pieces, {}, *life.in_pieces_since};
    return;
  }
  const auto budget = budget_of(book, tag);
  if (!budget) return;
  answer.not_put_right = budget->not_put_right;
  if (answer.not_put_right || !budget->appraised || budget->repair_unknown) return;
  const appraisal::Course best = best_course(*budget);
  if (best != appraisal::Course::put_right)
    answer.other_course = name_of(budget->job.causes[cause_of(*budget)], best);
}

appraisal::Job faults_still_open(const book::Book& book, const std::string& tag, appraisal::Job job) {
  const auto budget = budget_of(book, tag);
  if (!budget) return job;
  // Of a car in pieces none is needed any more: what they would do is shown all the same.
  const auto is_over = [&](const BudgetLine& line) {
    return line.finished() && !(budget->in_pieces && line.state == LineState::not_needed);
  };
  std::erase_if(job.faults, [&](const appraisal::Fault& fault) {
    return std::any_of(budget->lines.begin(), budget->lines.end(), [&](const BudgetLine& line) {
      return line.estimate.kind == appraisal::EstimatedLine::Kind::fix && line.estimate.what == fault.name &&
             is_over(line);
    });
  });
  return job;
}

}  // namespace nonrunner::answers
