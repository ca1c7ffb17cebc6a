#include "answers/go_on.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/budget.h"
#include "appraisal/sound_value.h"
#include "book/ledger/settings.h"
#include "book/questions/figures.h"
#include "exact/hint.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

constexpr double settled_chance = 0.9;  // common practice, no source

// Fees that are still to be paid are the same on every course, and part of none.
Money fees_to_come(const Budget& budget) {
  Money sum;
  for (const BudgetLine& line : budget.lines)
    if (line.estimate.kind == appraisal::EstimatedLine::Kind::fees) sum += line.to_come;
  return sum;
}

// Under a line of the estimate for this cause, or under a heading of one's own; a line that only another cause
// needs is neither.
bool is_wanted(const Budget& budget, std::size_t money) {
  const auto under = budget.money_under[money];
  return under && (budget.lines[*under].in_estimate || budget.lines[*under].number == 0);
}

// The lines that can still go back unused, and which of them putting right has no use for: parts of a wrong
// guess, which stand under no line of the estimate for this cause and under no heading of one's own.
struct Sealed {
  Money all, not_needed;
  std::vector<std::string> what_is_not_needed;
};
Sealed sealed_of(const book::Book& book, const std::string& tag, const Budget& budget, Day day) {
  Sealed sealed;
  for (const book::MayGoBack& each : book::may_go_back(book, day, tag)) {
    bool needed = false;
    for (std::size_t i = 0; i < budget.money.size(); ++i)
      needed = needed || (budget.money[i].line == each.line && is_wanted(budget, i));
    sealed.all += each.refund;
    if (needed) continue;
    sealed.not_needed += each.refund;
    sealed.what_is_not_needed.push_back(each.what);
  }
  return sealed;
}

// The courses as the appraisal in force, what is booked and the cause say.
appraisal::OpenCourses courses_from_book(const book::Book& book, const Budget& budget, const Sealed& sealed) {
  const appraisal::Job& job = budget.job;
  const appraisal::Courses courses(job, appraisal::sound_value_of(job).mean);
  std::size_t cause = 0;
  while (job.causes[cause].name != budget.cause) ++cause;
  const auto units = [&](Money money) { return in_units(money, book.currency()); };
  // Troubles that are certain count in every course: what they cost is in the budget, what they take off is not.
  unsigned present = 0;
  for (std::size_t j = 0; j < job.troubles.size(); ++j)
    if (job.troubles[j].chance == 1) present |= 1u << j;
  const double sale_days = job.sale.days.mean(), costs = job.sale.costs.mean();
  const auto days_of_work = [&](double hours) { return hours / job.shop.hours_per_week * 7; };
  appraisal::OpenCourses open;
  open.hour = units(book::hour(book));
  if (open.hour == 0) open.hour = job.shop.hour;
  open.holding_per_day = job.shop.holding_per_day;
  for (const appraisal::Course course : appraisal::all_courses) {
    const auto figures = courses.figures(cause, present, course);
    if (!figures) continue;
    appraisal::Way way;
    way.brings = course == appraisal::Course::put_right ? budget.estimate.sale_price : figures->brings;
    switch (course) {
      case appraisal::Course::put_right:
        way.spend = units(budget.cash_to_come - fees_to_come(budget));
        way.hours = budget.hours_to_come;
        way.back = units(sealed.not_needed);
        way.selling = costs + job.sale.rate * way.brings;
        way.days = days_of_work(way.hours) + (way.hours > 0 ? job.shop.wait_days.mean() : 0) + sale_days;
        break;
      case appraisal::Course::as_found:
        way.selling = costs + job.sale.rate * way.brings;
        way.days = sale_days;
        way.back = units(sealed.all);
        break;
      case appraisal::Course::part_out:
        way.selling = appraisal::part_out_of(job, job.causes[cause])->costs.mean();
        way.hours = appraisal::part_out_of(job, job.causes[cause])->hours.mean() * courses.pace();
        way.days = days_of_work(way.hours);
        way.back = units(sealed.all);
        break;
      case appraisal::Course::scrap:
        way.selling = appraisal::scrap_of(job, job.causes[cause])->costs.mean();
        way.back = units(sealed.all);
        break;
    }
    open.courses.push_back({appraisal::name_of(course), {way}});
  }
  return open;
}

void refuse_where_decided(const book::VehicleFigures& figures) {
  if (figures.life.ended != 0)
    throw hinted<Refusal>(fmt::format("go-on: {} was {} on {}; there is nothing left to decide", figures.tag,
                                      book::shown(figures.life.state), figures.life.ended_day.iso()),
                          {Action::look_back, {}});
  if (figures.still_brings)
    throw hinted<Refusal>(
        fmt::format(
            "go-on: {} is in pieces since {}: it is parted out already, expected a car that can still be "
            "put right",
            figures.tag, figures.life.in_pieces_since->iso()),
        {Action::look_back_or_give_courses, {}});
}

// The budget of the cause, or, of what cannot be put right and has none, what its other courses need.
Budget budget_or_courses(const book::Book& book, const GoOnAsked& asked, std::string& not_put_right) {
  std::optional<Budget> budget = budget_of(book, asked.tag, asked.cause, asked.on);
  if (!budget) {
    budget = appraised_cause(book, asked.tag, asked.cause, asked.on);
    if (budget) not_put_right = why_not_put_right(*budget);
  }
  if (!budget || !budget->appraised)
    throw hinted<Refusal>(fmt::format("go-on: no appraisal is kept for {}{}", asked.tag,
                                      asked.on ? " by " + asked.on->iso() : ""),
                          {Action::give_courses_or_keep_appraisal, {}});
  if (budget->repair_unknown)
    throw hinted<Refusal>(
        fmt::format("go-on: {} has something else, which its appraisal does not know", asked.tag),
        {Action::give_courses_or_keep_appraisal, {}});
  // What the tests have all but settled needs no word more.
  if (!budget->cause_is_noted && budget->cause_chance < settled_chance)
    throw hinted<Refusal>(fmt::format("go-on: which cause was found on {}?", asked.tag),
                          {Action::name_cause, {{"tag", asked.tag}, {"cause", budget->cause}}});
  return *budget;
}

}  // namespace

bool GoOnAnswer::can_be_put_right() const {
  return std::any_of(result.courses.begin(), result.courses.end(), [](const auto& each) {
    return each.name == appraisal::name_of(appraisal::Course::put_right);
  });
}

GoOnAnswer go_on(const book::Book& book, const GoOnAsked& asked, Day today) {
  book::know_vehicle(book, "go-on", asked.tag);
  const book::VehicleFigures figures = book::figures_of(book, asked.tag, today, asked.on);
  if (!asked.courses) refuse_where_decided(figures);
  GoOnAnswer answer;
  answer.tag = asked.tag;
  answer.cause = asked.cause;
  answer.currency = book.currency();
  answer.on = asked.on;
  answer.spent = figures.cost;
  answer.worked = figures.own_hours;
  answer.from_book = !asked.courses;
  answer.life = book::life_of(book, asked.tag);
  if (asked.courses) {
    answer.result = appraisal::go_on(*asked.courses);
    return answer;
  }
  const Budget budget = budget_or_courses(book, asked, answer.not_put_right);
  answer.cause = budget.cause;
  const Sealed sealed = sealed_of(book, asked.tag, budget, asked.on.value_or(today));
  answer.not_needed = sealed.what_is_not_needed;
  answer.result = appraisal::go_on(courses_from_book(book, budget, sealed));
  return answer;
}

}  // namespace nonrunner::answers
