#include "answers/go_on.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "answers/budget.h"
#include "answers/budget_sums.h"
#include "answers/kept_job.h"
#include "appraisal/policy_at.h"
#include "appraisal/sound_value.h"
#include "book/questions/figures.h"
#include "exact/hint.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

constexpr double settled_chance = 0.9;  // common practice, no source

// Under a line of the estimate for this cause, or under a heading of one's own; a line that only another cause
// needs is neither.
bool is_wanted(const Budget& budget, const PlacedMoney& money) {
  if (!money.place) return false;
  const BudgetLine& line = budget.lines[*money.place];
  return line.in_estimate || line.number == 0;
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
    for (const PlacedMoney& money : budget.money)
      needed = needed || (money.line == each.line && is_wanted(budget, money));
    sealed.all += each.refund;
    if (needed) continue;
    sealed.not_needed += each.refund;
    sealed.what_is_not_needed.push_back(each.what);
  }
  return sealed;
}

// The troubles that nobody looked for yet: each is there by its chance, and no line of the budget counts it.
// One that bars the road is taken to be found before work begins: the car then goes the best other way.
struct Unlooked {
  double cash = 0, hours = 0, takes_off = 0;     // of putting right, barred roads left out
  double found_less = 0, found_less_barred = 0;  // on an average, and where the road is barred
  double barred = 0;                             // the chance of that
};

Unlooked unlooked_of(const Budget& budget) {
  const appraisal::Job& job = budget.job;
  Unlooked sum;
  double open_road = 1, barring = 0, others = 0;
  for (std::size_t j = 0; j < job.troubles.size(); ++j) {
    if (budget.trouble_there[j]) continue;
    const appraisal::Trouble& trouble = job.troubles[j];
    const double less = trouble.chance * trouble.found_less.mean();
    sum.found_less += less;
    (trouble.bars_road ? barring : others) += less;
    if (trouble.bars_road) {
      open_road *= 1 - trouble.chance;
      continue;
    }
    // A car that is ready had its work: what did not show is not there.
    if (budget.ready) continue;
    sum.cash += trouble.chance * trouble.cash.mean();
    sum.hours += trouble.chance * trouble.hours.mean() * job.shop.pace.mean();
    sum.takes_off += trouble.chance * trouble.takes_off.mean();
  }
  sum.barred = 1 - open_road;
  sum.found_less_barred = others + (sum.barred > 0 ? barring / sum.barred : 0);
  return sum;
}

class CoursesFromBook {
 public:
  // `sold_for`: what was spent on selling it already.
  CoursesFromBook(const book::Book& book, const Budget& budget, const Sealed& sealed, Money sold_for)
      : book_(book),
        budget_(budget),
        sealed_(sealed),
        job_(budget.job),
        courses_(budget.job, appraisal::sound_value_of(budget.job).mean),
        selling_to_come_(std::max(0.0, budget.job.sale.costs.mean() - units(sold_for))),
        unlooked_(unlooked_of(budget)) {
    while (job_.causes[cause_].name != budget.cause) ++cause_;
    for (std::size_t j = 0; j < job_.troubles.size(); ++j)
      if (budget.trouble_there[j].value_or(false)) present_ |= 1u << j;
  }

  // As the appraisal in force, what is booked and the cause say.
  appraisal::OpenCourses all() const {
    appraisal::OpenCourses open;
    open.hour = job_.shop.hour;
    open.holding_per_day = job_.shop.holding_per_day;
    appraisal::OpenCourses if_barred = open;
    for (const appraisal::Course course :
         {appraisal::Course::as_found, appraisal::Course::part_out, appraisal::Course::scrap})
      if (const auto figures = courses_.figures(cause_, present_, course)) {
        const char* name = name_of(job_.causes[cause_], course);
        open.courses.push_back({name, {other(course, figures->brings - unlooked_.found_less)}});
        if_barred.courses.push_back({name, {other(course, figures->brings - unlooked_.found_less_barred)}});
      }
    if (unlooked_.barred == 1) return open;
    if (auto ways = ways_of_putting_right(if_barred); !ways.empty())
      open.courses.insert(open.courses.begin(), {name_of(appraisal::Course::put_right), std::move(ways)});
    return open;
  }

 private:
  double units(Money money) const { return in_units(money, book_.currency()); }
  double days_of_work(double hours) const { return hours / job_.shop.hours_per_week * 7; }

  appraisal::Way other(appraisal::Course course, double brings) const {
    appraisal::Way way;
    way.back = units(sealed_.all);
    if (is_nothing(job_.causes[cause_], course)) return way;
    way.brings = brings;
    if (course == appraisal::Course::as_found) {
      way.selling = selling_to_come_ + job_.sale.rate * way.brings;
      way.days = job_.sale.days.mean();
    } else if (course == appraisal::Course::part_out) {
      const appraisal::PartOut& pieces = *appraisal::part_out_of(job_, job_.causes[cause_]);
      way.brings = pieces.proceeds.mean();
      way.selling = pieces.costs.mean();
      way.hours = pieces.hours.mean() * courses_.pace();
      way.days = days_of_work(way.hours);
    } else {
      const appraisal::Scrap& scrap = *appraisal::scrap_of(job_, job_.causes[cause_]);
      way.brings = scrap.value.mean();
      way.selling = scrap.costs.mean();
    }
    return way;
  }

  std::vector<appraisal::Way> ways_of_putting_right(const appraisal::OpenCourses& if_barred) const {
    std::vector<appraisal::Way> ways = ways_along_chain(if_barred);
    if (unlooked_.barred == 0 || ways.empty()) return ways;
    for (appraisal::Way& way : ways) way.chance *= 1 - unlooked_.barred;
    // Without any other course nothing comes back.
    appraisal::Way barred;
    if (!if_barred.courses.empty()) {
      const std::string best = appraisal::go_on(if_barred).courses.front().name;
      for (const appraisal::OpenCourse& each : if_barred.courses)
        if (each.name == best) barred = each.ways.front();
    }
    barred.chance = unlooked_.barred;
    ways.push_back(barred);
    return ways;
  }

  // What was booked is out of it, so that the best way along the chain may be another than when nothing was.
  std::vector<appraisal::Way> ways_along_chain(const appraisal::OpenCourses& open) const {
    std::vector<appraisal::Way> best;
    double most = 0;
    for (const appraisal::Path& path : courses_.paths(cause_, present_)) {
      if (path.course != appraisal::Course::put_right) continue;
      const auto outcomes = courses_.outcomes(cause_, present_, path);
      // Of what was made already and did not cure nothing more is to be had.
      if (std::ranges::none_of(outcomes, &appraisal::PathOutcome::cured)) continue;
      appraisal::OpenCourses one = open;
      one.courses = {{"", ways_of(path, outcomes)}};
      const double value = appraisal::go_on(one).courses.front().value;
      if (!best.empty() && value <= most + 1e-9 * std::max(1.0, std::abs(most))) continue;
      best = std::move(one.courses.front().ways);
      most = value;
    }
    return best;
  }

  std::vector<appraisal::Way> ways_of(const appraisal::Path& path,
                                      const std::vector<appraisal::PathOutcome>& outcomes) const {
    if (budget_.ready || outcomes.size() == 1)
      // Fees that are still to be paid are the same on every course, and part of none.
      return {sold_running(budget_.estimate.sale_price, units(budget_.cash_to_come - fees_to_come(budget_)),
                           budget_.hours_to_come)};
    std::vector<appraisal::Way> ways;
    for (const appraisal::PathOutcome& each : outcomes) {
      const ToComeAlong& to_come = budget_.along[each.made - 1];
      ways.push_back(each.cured ? sold_running(std::max(0.0, each.figures.brings - budget_.marks_left),
                                               to_come.cash + to_come.cured_cash,
                                               to_come.hours + to_come.cured_hours)
                                : given_up(path.if_all_fail, each.figures.brings, to_come));
      ways.back().chance = each.chance;
    }
    return ways;
  }

  appraisal::Way sold_running(double brings, double spend, double hours) const {
    appraisal::Way way;
    way.brings = brings - unlooked_.takes_off;
    way.spend = spend + unlooked_.cash;
    way.hours = hours + unlooked_.hours;
    way.back = units(sealed_.not_needed);
    way.selling = selling_to_come_ + job_.sale.rate * way.brings;
    way.days =
        days_of_work(way.hours) + (way.hours > 0 ? job_.shop.wait_days.mean() : 0) + job_.sale.days.mean();
    return way;
  }

  // No correction has cured: the other course, after what was tried.
  appraisal::Way given_up(appraisal::Course course, double brings, const ToComeAlong& tried) const {
    appraisal::Way way = other(course, brings - unlooked_.found_less);
    way.back = units(sealed_.not_needed);
    way.spend += tried.cash;
    way.hours += tried.hours;
    way.days += days_of_work(tried.hours);
    return way;
  }

  const book::Book& book_;
  const Budget& budget_;
  const Sealed& sealed_;
  const appraisal::Job& job_;
  appraisal::Courses courses_;
  double selling_to_come_;  // an advert that is paid serves whichever way it is sold whole
  Unlooked unlooked_;
  std::size_t cause_ = 0;
  unsigned present_ = 0;
};

void refuse_where_decided(const book::VehicleFigures& figures) {
  if (figures.life.ended != 0)
    throw hinted<Refusal>(fmt::format("go-on: {} was {} on {}; there is nothing left to decide", figures.tag,
                                      book::shown(figures.life.state), figures.life.ended_said.iso()),
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
Budget budget_or_courses(const book::Book& book, const GoOnAsked& asked,
                         std::optional<WhyNot>& not_put_right) {
  std::optional<Budget> budget = budget_of(book, asked.tag, asked.cause, asked.on);
  if (budget && budget->not_put_right) {
    not_put_right = budget->not_put_right;
    budget = appraised_cause(book, asked.tag, asked.cause, asked.on);
  }
  if (!budget || !budget->appraised)
    throw hinted<Refusal>(fmt::format("go-on: no appraisal is kept for {}{}", asked.tag,
                                      asked.on ? " by " + asked.on->iso() : ""),
                          {Action::give_courses_or_keep_appraisal, {}});
  if (budget->repair_unknown)
    refuse_unknown_repair("go-on", asked.tag, Action::give_courses_or_keep_appraisal);
  // What the tests have all but settled needs no word more.
  if (!budget->cause_is_noted && budget->cause_chance < settled_chance)
    throw hinted<Refusal>(
        fmt::format("go-on: which cause was found on {}: {}?", asked.tag, causes_by_number(budget->job)),
        {Action::name_cause, {{"tag", asked.tag}, {"cause", budget->cause}}});
  return *budget;
}

std::optional<appraisal::Course> price_rests_on(const book::Book& book, const Budget& budget,
                                                const book::VehicleFigures& figures) {
  if (is_zero(figures.price_paid)) return std::nullopt;
  const auto kept = job_at_purchase(book, figures.tag);
  if (!kept) return std::nullopt;
  const appraisal::Job& job = kept->job;
  std::size_t cause = 0;
  while (cause < job.causes.size() && job.causes[cause].name != budget.cause) ++cause;
  if (cause == job.causes.size()) return std::nullopt;
  std::size_t present = 0;
  for (std::size_t j = 0; j < budget.job.troubles.size(); ++j)
    for (std::size_t k = 0; k < job.troubles.size(); ++k)
      if (budget.trouble_there[j].value_or(false) && job.troubles[k].name == budget.job.troubles[j].name)
        present |= std::size_t{1} << k;
  const appraisal::Policy policy = appraisal::policy_at(job, appraisal::sound_value_of(job),
                                                        in_units(figures.price_paid, book.currency()));
  const std::size_t which = (cause << job.troubles.size()) + present;
  const appraisal::Course course = policy.paths[which].course;
  const bool was_best = policy.most_profitable[which].course == appraisal::Course::put_right;
  if (!policy.holds || !was_best || course == appraisal::Course::put_right) return std::nullopt;
  return course;
}

}  // namespace

bool is_settled(const Known& known) {
  return known.cause_is_found || known.chance(known.likeliest) >= settled_chance;
}

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
  const appraisal::OpenCourses open = CoursesFromBook(book, budget, sealed, figures.selling_costs).all();
  answer.result = appraisal::go_on(open);
  for (std::size_t j = 0; j < budget.job.troubles.size(); ++j) {
    const appraisal::Trouble& trouble = budget.job.troubles[j];
    if (!budget.trouble_there[j] && trouble.chance > 0)
      answer.by_chance.push_back({trouble.name, trouble.chance});
  }
  if (answer.result.courses[answer.result.advice].name == appraisal::name_of(appraisal::Course::put_right))
    answer.price_rests_on = price_rests_on(book, budget, figures);
  if (!answer.not_put_right && !answer.can_be_put_right()) answer.not_put_right = why_not_put_right(budget);
  return answer;
}

}  // namespace nonrunner::answers
