#include "appraisal/courses.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include "figures/appraisal.h"

namespace nonrunner::appraisal {

const char* name_of(Course course) {
  switch (course) {
    case Course::put_right:
      return "put right";
    case Course::as_found:
      return "sell as found";
    case Course::part_out:
      return "part out";
    case Course::scrap:
      return "scrap";
  }
  return "";
}

bool is_nothing(const Cause& cause, Course course) { return course == Course::as_found && !cause.found; }

const char* name_of(const Cause& cause, Course course) {
  return is_nothing(cause, course) ? figures::do_nothing : name_of(course);
}

Courses::Courses(const Job& job, double sound_mean, const Terms& terms)
    : job_(&job),
      sound_mean_(sound_mean),
      price_(terms.price.value_or(job.deal.asking)),
      covers_(terms.covers) {
  refresh();
}

void Courses::refresh() {
  interest_ = interest_a_day(*job_, price_);
  pace_ = job_->shop.pace.mean();
  sound_ = sound_mean_ * job_->keeps;
  sale_days_ = job_->sale.days.mean();
  sale_costs_ = job_->sale.costs.mean();
  fixes_ = best_fixes(*job_, interest_);
  chains_.clear();
  for (const Cause& cause : job_->causes) chains_.push_back(chain_of(*job_, cause));
  corrections_.resize(job_->corrections.size());
  of_covered_.assign(covers_.empty() ? 0 : chains_.size(), {});
  for (std::size_t at = 0; at < corrections_.size(); ++at)
    corrections_[at] = cost_of(job_->corrections[at], job_->shop, 0, interest_);
  for (std::size_t c = 0; c < of_covered_.size(); ++c) {
    if (covers_[c] == 0) continue;
    for (const Step& step : chains_[c].steps)
      of_covered_[c].push_back(
          cost_of(job_->corrections[step.correction], job_->shop, covers_[c], interest_));
  }
  of_troubles_.assign(std::size_t{1} << job_->troubles.size(), {});
  for (std::size_t present = 1; present < of_troubles_.size(); ++present) {
    const std::size_t last = std::bit_floor(present);
    of_troubles_[present] = of_troubles_[present - last];
    of_troubles_[present].add(job_->troubles[static_cast<std::size_t>(std::countr_zero(last))]);
  }
}

void Courses::refresh_correction(std::size_t at) {
  corrections_[at] = cost_of(job_->corrections[at], job_->shop, 0, interest_);
}

const CorrectionCost& Courses::correction(std::size_t cause, std::size_t at) const {
  if (cover(cause) == 0) return corrections_[at];
  const auto& steps = chains_[cause].steps;
  const auto step =
      std::find_if(steps.begin(), steps.end(), [&](const Step& s) { return s.correction == at; });
  return of_covered_[cause][static_cast<std::size_t>(step - steps.begin())];
}

double Courses::opening_hours(std::size_t cause) const {
  return opening_hours_of(*job_, job_->causes[cause]).mean() * pace_;
}

double Courses::opening_cash(std::size_t cause) const {
  return opening_cash_of(*job_, job_->causes[cause]).mean();
}

void Courses::OfTroubles::add(const Trouble& trouble) {
  cash += trouble.cash.mean();
  hours += trouble.hours.mean();
  takes_off += trouble.takes_off.mean();
  found_less += trouble.found_less.mean();
  bars_road = bars_road || trouble.bars_road;
}

bool Courses::can_be_put_right(std::size_t cause, unsigned present) const {
  return !chains_[cause].steps.empty() && !job_->road_barred && !of_troubles_[present].bars_road;
}

// The courses without putting right; where there is none at all, `as_found` that brings nothing.
std::vector<Course> Courses::others(std::size_t cause) const {
  const Cause& of = job_->causes[cause];
  std::vector<Course> all;
  const bool pieces = part_out_of(*job_, of).has_value(), scrap = scrap_of(*job_, of).has_value();
  if (of.found || (!pieces && !scrap)) all.push_back(Course::as_found);
  if (pieces) all.push_back(Course::part_out);
  if (scrap) all.push_back(Course::scrap);
  return all;
}

std::vector<Path> Courses::paths(std::size_t cause, unsigned present) const {
  std::vector<Path> all;
  const std::vector<Course> without = others(cause);
  all.reserve((chains_[cause].steps.size() + 1) * without.size());
  if (can_be_put_right(cause, present)) {
    const auto& steps = chains_[cause].steps;
    for (std::size_t tried = 1; tried <= steps.size(); ++tried) {
      const bool can_fail = tried < steps.size() || chains_[cause].fails > 0;
      for (const Course then : without) {
        all.push_back({Course::put_right, tried, can_fail ? then : Course::as_found});
        if (!can_fail) break;
      }
    }
  }
  for (const Course course : without) all.push_back({course, 0, Course::as_found});
  return all;
}

CourseFigures Courses::begun(std::size_t cause) const {
  CourseFigures f;
  f.opening_hours = f.own_hours = opening_hours(cause);
  f.days = f.own_hours / job_->shop.hours_per_week * 7;
  return f;
}

// What a course other than putting right adds to what was done so far. Its cash is without holding.
void Courses::end_otherwise(CourseFigures& f, std::size_t cause, unsigned present, Course course) const {
  const Cause& of = job_->causes[cause];
  switch (course) {
    case Course::put_right:
      break;
    case Course::as_found:
      if (!of.found) break;
      f.brings = of.found->mean() - of_troubles_[present].found_less;
      f.days += sale_days_;
      f.outlay += sale_costs_;
      f.cash += f.brings * (1 - job_->sale.rate) - sale_costs_;
      break;
    case Course::part_out: {
      const PartOut& pieces = *part_out_of(*job_, of);
      const double hours = pieces.hours.mean() * pace_;
      f.brings = pieces.proceeds.mean();
      f.own_hours += hours;
      f.days += hours / job_->shop.hours_per_week * 7;
      f.outlay += pieces.costs.mean();
      f.cash += f.brings - pieces.costs.mean();
      break;
    }
    case Course::scrap: {
      const Scrap& scrap = *scrap_of(*job_, of);
      f.brings = scrap.value.mean();
      f.outlay += scrap.costs.mean();
      f.cash += f.brings - scrap.costs.mean();
      break;
    }
  }
}

std::vector<PathOutcome> Courses::outcomes(std::size_t cause, unsigned present, const Path& path) const {
  std::vector<PathOutcome> all;
  all.reserve(path.tried + 1);
  outcomes(cause, present, path, all);
  return all;
}

void Courses::outcomes(std::size_t cause, unsigned present, const Path& path,
                       std::vector<PathOutcome>& all) const {
  const double holding = job_->shop.holding_per_day;
  CourseFigures so_far = begun(cause);
  all.clear();
  const auto close = [&](double chance, std::size_t made, bool cured, CourseFigures f) {
    f.cash -= f.days * holding;
    all.push_back({chance, made, cured, f});
  };
  if (path.course != Course::put_right) {
    end_otherwise(so_far, cause, present, path.course);
    close(1, 0, false, so_far);
    return;
  }
  const OfTroubles& troubles = of_troubles_[present];
  const Chain& chain = chains_[cause];
  const double borne = 1 - cover(cause), per_week = job_->shop.hours_per_week;
  double marks = troubles.takes_off + fixes_.still_off, fails = 1;
  for (std::size_t i = 0; i < path.tried; ++i) {
    const CorrectionCost& cost = correction(cause, chain.steps[i].correction);
    const double hours = cost.hours * pace_;
    so_far.own_hours += borne * hours;
    so_far.days += hours / per_week * 7;  // the seller's time passes as well
    so_far.cash -= borne * cost.cash;
    so_far.outlay += borne * (cost.cash + cost.cores);
    marks += cost.takes_off;
    fails = i + 1 < chain.steps.size() ? chain.steps[i + 1].reached : chain.fails;
    if (chain.steps[i].cures == 0) continue;
    CourseFigures f = so_far;
    const double more_hours = (fixes_.hours + troubles.hours) * pace_;
    const double more_cash = fixes_.cash + troubles.cash;
    f.brings = sound_ - marks;
    f.own_hours += more_hours;
    f.days += more_hours / per_week * 7 + job_->shop.wait_days.mean() + sale_days_;
    f.cash += f.brings * (1 - job_->sale.rate) - sale_costs_ - more_cash;
    f.outlay += more_cash + sale_costs_;
    close(chain.steps[i].cures, i + 1, true, f);
  }
  if (fails > 0) {
    end_otherwise(so_far, cause, present, path.if_all_fail);
    close(fails, path.tried, false, so_far);
  }
}

CourseFigures Courses::figures(std::size_t cause, unsigned present, const Path& path) const {
  return mean_of(cause, outcomes(cause, present, path));
}

CourseFigures Courses::mean_of(std::size_t cause, const std::vector<PathOutcome>& outcomes) const {
  CourseFigures mean;
  mean.opening_hours = opening_hours(cause);
  for (const PathOutcome& each : outcomes) {
    mean.cash += each.chance * each.figures.cash;
    mean.own_hours += each.chance * each.figures.own_hours;
    mean.days += each.chance * each.figures.days;
    mean.brings += each.chance * each.figures.brings;
    mean.outlay += each.chance * each.figures.outlay;
  }
  return mean;
}

Courses::ByCourse Courses::by_course(std::size_t cause, unsigned present) const {
  ByCourse all;
  std::vector<PathOutcome> turns;
  for (const Path& path : paths(cause, present)) {
    outcomes(cause, present, path, turns);
    const CourseFigures f = mean_of(cause, turns);
    const double worth = profit(f);
    std::optional<Best>& best = all[static_cast<std::size_t>(path.course)];
    // Further along the chain only where it is better by more than rounding may pretend.
    if (best && worth <= best->profit + 1e-9 * std::max(1.0, std::abs(best->profit))) continue;
    best = Best{path.course, path, f, worth};
  }
  return all;
}

std::optional<Path> Courses::best_path(std::size_t cause, unsigned present, Course course) const {
  const auto best = by_course(cause, present)[static_cast<std::size_t>(course)];
  if (!best) return std::nullopt;
  return best->path;
}

std::optional<CourseFigures> Courses::figures(std::size_t cause, unsigned present, Course course) const {
  const auto best = by_course(cause, present)[static_cast<std::size_t>(course)];
  if (!best) return std::nullopt;
  return best->figures;
}

// Some course is always on offer.
const Courses::Best& Courses::best_of(const ByCourse& by_course) {
  const Best* best = nullptr;
  for (const std::optional<Best>& each : by_course)
    if (each && (!best || each->profit > best->profit)) best = &*each;
  return *best;
}

Courses::Best Courses::best(std::size_t cause, unsigned present) const {
  return best_of(by_course(cause, present));
}

}  // namespace nonrunner::appraisal
