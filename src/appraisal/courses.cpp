#include "appraisal/courses.h"

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

Courses::Courses(const Job& job, double sound_mean)
    : job_(&job),
      pace_(job.shop.pace.mean()),
      opening_hours_(job.opening_up.hours.mean() * pace_),
      sound_(sound_mean * job.keeps),
      sale_days_(job.sale.days.mean()),
      sale_costs_(job.sale.costs.mean()),
      fixes_(best_fixes(job)) {
  for (const Correction& correction : job.corrections) corrections_.push_back(cost_of(correction, job.shop));
  for (const Cause& cause : job.causes) chains_.push_back(chain_of(job, cause));
}

double Courses::found(std::size_t cause, unsigned present) const {
  double value = job_->causes[cause].found.mean();
  for (std::size_t j = 0; j < job_->troubles.size(); ++j)
    if (present >> j & 1u) value -= job_->troubles[j].found_less.mean();
  return value;
}

CourseFigures Courses::put_right(std::size_t cause, unsigned present, double cover) const {
  const Chain& chain = chains_[cause];
  double trouble_cash = 0, trouble_hours = 0, marks = 0;
  for (std::size_t j = 0; j < job_->troubles.size(); ++j) {
    if (!(present >> j & 1u)) continue;
    trouble_cash += job_->troubles[j].cash.mean();
    trouble_hours += job_->troubles[j].hours.mean();
    marks += job_->troubles[j].takes_off.mean();
  }
  CourseFigures f;
  double correction_cash = 0, correction_hours = 0, cores = 0;
  const double cured = 1 - chain.fails;
  for (const Step& step : chain.steps) {
    const CorrectionCost& cost = corrections_[step.correction];
    correction_cash += step.reached * cost.cash;
    correction_hours += step.reached * cost.hours * pace_;
    cores += step.reached * cost.cores;
    marks += cost.takes_off;
    f.brings += step.cures * (sound_ - marks - fixes_.still_off);
  }
  f.brings += chain.fails * found(cause, present);
  const double more_cash = cured * (fixes_.cash + trouble_cash);
  const double more_hours = cured * (fixes_.hours + trouble_hours) * pace_;
  const double borne = (1 - cover) * correction_cash;
  f.own_hours = opening_hours_ + (1 - cover) * correction_hours + more_hours;
  f.days = (opening_hours_ + correction_hours + more_hours) / job_->shop.hours_per_week * 7 +
           cured * job_->shop.wait_days.mean() + sale_days_;
  f.cash = f.brings * (1 - job_->sale.rate) - sale_costs_ - borne - more_cash -
           f.days * job_->shop.holding_per_day;
  f.outlay = borne + more_cash + (1 - cover) * cores + sale_costs_;
  return f;
}

std::optional<CourseFigures> Courses::figures(std::size_t cause, unsigned present, Course course,
                                              double cover) const {
  const Shop& shop = job_->shop;
  const Cause& of = job_->causes[cause];
  CourseFigures f;
  f.own_hours = opening_hours_;
  f.days = opening_hours_ / shop.hours_per_week * 7;
  switch (course) {
    case Course::put_right: {
      if (chains_[cause].steps.empty() || job_->road_barred) return std::nullopt;
      for (std::size_t j = 0; j < job_->troubles.size(); ++j)
        if ((present >> j & 1u) && job_->troubles[j].bars_road) return std::nullopt;
      return put_right(cause, present, cover);
    }
    case Course::as_found:
      f.days += sale_days_;
      f.brings = found(cause, present);
      f.outlay = sale_costs_;
      f.cash = f.brings * (1 - job_->sale.rate) - sale_costs_ - f.days * shop.holding_per_day;
      return f;
    case Course::part_out: {
      const auto& pieces = part_out_of(*job_, of);
      if (!pieces) return std::nullopt;
      f.own_hours += pieces->hours.mean() * pace_;
      f.days = f.own_hours / shop.hours_per_week * 7;
      f.brings = pieces->proceeds.mean();
      f.outlay = pieces->costs.mean();
      f.cash = f.brings - f.outlay - f.days * shop.holding_per_day;
      return f;
    }
    case Course::scrap: {
      const auto& scrap = scrap_of(*job_, of);
      if (!scrap) return std::nullopt;
      f.brings = scrap->value.mean();
      f.outlay = scrap->costs.mean();
      f.cash = f.brings - f.outlay - f.days * shop.holding_per_day;
      return f;
    }
  }
  return std::nullopt;
}

Courses::Best Courses::best(std::size_t cause, unsigned present, double cover) const {
  Best best;
  bool any = false;
  for (const Course course : all_courses) {
    const auto f = figures(cause, present, course, cover);
    if (!f) continue;
    const double worth = profit(*f);
    if (any && worth <= best.profit) continue;
    best = {course, *f, worth};
    any = true;
  }
  return best;
}

}  // namespace nonrunner::appraisal
