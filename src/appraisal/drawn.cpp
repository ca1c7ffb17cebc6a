#include "appraisal/drawn.h"

#include "appraisal/source.h"

namespace nonrunner::appraisal {

namespace {

using Values = std::vector<double>;

void add(Values& into, double weight, const double* values) {
  for (std::size_t i = 0; i < into.size(); ++i) into[i] += weight * values[i];
}

class Adding {
 public:
  Adding(Draws& draws, const SoundValue& sound, const Courses& courses, std::size_t cause)
      : draws_(draws),
        sound_(sound),
        courses_(courses),
        job_(courses.job()),
        of_(courses.job().causes[cause]),
        cause_(cause),
        kept_(1 - courses.job().sale.rate) {
    for (Values* values : {&sum_.cash, &sum_.hours, &sum_.days, &sum_.outlay})
      values->assign(draws.points(), 0.0);
    if (courses_.cover(cause_) > 0) borne_.assign(draws.points(), 0.0);
  }

  Drawn made(const Path& path, const PathOutcome& outcome) {
    hours(1, opening_hours_of(job_, of_));
    spend(1, opening_cash_of(job_, of_));
    for (std::size_t i = 0; i < outcome.made; ++i)
      correction(courses_.chain(cause_).steps[i].correction, outcome.cured);
    if (outcome.cured)
      sold_running();
    else
      otherwise(path.course == Course::put_right ? path.if_all_fail : path.course);
    close();
    return std::move(sum_);
  }

 private:
  const double* values_of(const Amount& amount) { return draws_.of(amount).data(); }

  // Adds weight x the amount to what is named.
  void put(Values& into, double& constant, double weight, const Amount& amount) {
    if (weight == 0) return;
    if (amount.is_constant())
      constant += weight * amount.low;
    else
      add(into, weight, values_of(amount));
  }
  void gets(double weight, const Amount& amount) { put(sum_.cash, cash_, weight, amount); }
  void spend(double weight, const Amount& amount) {
    gets(-weight, amount);
    put(sum_.outlay, outlay_, weight, amount);
  }
  void hours(double weight, const Amount& amount) { put(sum_.hours, hours_, weight, amount); }
  void days(const Amount& amount) { put(sum_.days, days_, 1, amount); }

  void part(const Part& part, Source source, double borne) {
    const double qty = borne * part.qty;
    spend(qty, *part.price[static_cast<std::size_t>(source)]);
    put(sum_.outlay, outlay_, qty, part.core);
    if (source != Source::salvage) return;
    hours(borne, part.pull_hours);
    put(borne_, borne_hours_, 1 - borne, part.pull_hours);
    if (part.bad == 0 || qty == 0) return;
    const Amount& again = price_again(part);
    const double* bad = draws_.bad_from(part).data();
    const double* price = again.is_constant() ? nullptr : values_of(again);
    for (std::size_t i = 0; i < sum_.cash.size(); ++i) {
      const double paid = bad[i] * qty * (price ? price[i] : again.low);
      sum_.cash[i] -= paid;
      sum_.outlay[i] += paid;
    }
  }

  void correction(std::size_t at, bool cured) {
    const Correction& of = job_.corrections[at];
    const double borne = 1 - courses_.cover(cause_);
    for (const Operation& operation : of.operations) {
      hours(borne, operation.hours);
      put(borne_, borne_hours_, 1 - borne, operation.hours);
    }
    const CorrectionCost& cost = courses_.correction(cause_, at);
    for (std::size_t i = 0; i < of.parts.size(); ++i) part(of.parts[i], cost.sources[i], borne);
    for (const Consumable& each : of.consumables) spend(borne * each.qty, each.price);
    for (const Sublet& each : of.sublets) spend(borne, each.price);
    if (cured) gets(-kept_, of.takes_off);
  }

  void sold_running() {
    if (sound_.is_constant)
      cash_ += kept_ * job_.keeps * sound_.mean;
    else
      add(sum_.cash, kept_ * job_.keeps, draws_.sound().data());
    days(job_.shop.wait_days);
    for (std::size_t i = 0; i < job_.faults.size(); ++i) {
      const Fault& fault = job_.faults[i];
      const auto fix = courses_.fixes().choices[i].fix;
      gets(-kept_ * (fix ? 1 - fault.fixes[*fix].restores : 1), fault.takes_off);
      if (!fix) continue;
      spend(1, fault.fixes[*fix].cash);
      hours(1, fault.fixes[*fix].hours);
    }
    sold_whole();
  }

  void sold_whole() {
    spend(1, job_.sale.costs);
    days(job_.sale.days);
  }

  void otherwise(Course course) {
    switch (course) {
      case Course::put_right:
        break;
      case Course::as_found:
        if (!of_.found) break;
        gets(kept_, *of_.found);
        sold_whole();
        break;
      case Course::part_out: {
        const PartOut& pieces = *part_out_of(job_, of_);
        gets(1, pieces.proceeds);
        spend(1, pieces.costs);
        hours(1, pieces.hours);
        break;
      }
      case Course::scrap: {
        const Scrap& scrap = *scrap_of(job_, of_);
        gets(1, scrap.value);
        spend(1, scrap.costs);
        break;
      }
    }
  }

  void close() {
    const Amount& pace = job_.shop.pace;
    const double* paces = pace.is_constant() ? nullptr : values_of(pace);
    const double week = 7 / job_.shop.hours_per_week, holding = job_.shop.holding_per_day;
    for (std::size_t i = 0; i < sum_.cash.size(); ++i) {
      const double at = paces ? paces[i] : pace.low;
      sum_.hours[i] = (sum_.hours[i] + hours_) * at;
      sum_.days[i] += days_ + (sum_.hours[i] + ((borne_.empty() ? 0 : borne_[i]) + borne_hours_) * at) * week;
      sum_.cash[i] += cash_ - sum_.days[i] * holding;
      sum_.outlay[i] += outlay_;
    }
  }

  Draws& draws_;
  const SoundValue& sound_;
  const Courses& courses_;
  const Job& job_;
  const Cause& of_;
  std::size_t cause_;
  double kept_;
  Drawn sum_;
  // Hours by the estimate that the seller bears, if he bears any: they take their days, but no own hours.
  Values borne_;
  double cash_ = 0, hours_ = 0, days_ = 0, outlay_ = 0, borne_hours_ = 0;  // constants
};

}  // namespace

Drawn drawn(Draws& draws, const SoundValue& sound, const Courses& courses, std::size_t cause,
            const Path& path, const PathOutcome& outcome) {
  return Adding(draws, sound, courses, cause).made(path, outcome);
}

Drawn drawn_troubles(Draws& draws, const Job& job, unsigned present, bool put_right) {
  const std::size_t n = draws.points();
  Drawn sum{Values(n, 0.0), Values(n, 0.0), Values(n, 0.0), Values(n, 0.0)};
  const auto put = [&](Values& into, double weight, const Amount& amount) {
    if (amount.is_constant())
      for (double& each : into) each += weight * amount.low;
    else
      add(into, weight, draws.of(amount).data());
  };
  const double kept = 1 - job.sale.rate, week = 7 / job.shop.hours_per_week;
  for (std::size_t j = 0; j < job.troubles.size(); ++j) {
    if (!(present >> j & 1u)) continue;
    const Trouble& trouble = job.troubles[j];
    if (!put_right) {
      put(sum.cash, -kept, trouble.found_less);
      continue;
    }
    put(sum.cash, -1, trouble.cash);
    put(sum.outlay, 1, trouble.cash);
    put(sum.cash, -kept, trouble.takes_off);
    put(sum.hours, 1, trouble.hours);
  }
  const Amount& pace = job.shop.pace;
  const double* paces = pace.is_constant() ? nullptr : draws.of(pace).data();
  for (std::size_t i = 0; i < n; ++i) {
    sum.hours[i] *= paces ? paces[i] : pace.low;
    sum.days[i] = sum.hours[i] * week;
    sum.cash[i] -= sum.days[i] * job.shop.holding_per_day;
  }
  return sum;
}

std::vector<double> break_even_payments(Draws& draws, const Job& job, const Drawn& of, const Drawn* more,
                                        Stretch points) {
  const double rate = job.shop.money_rate;
  const double* fees = job.deal.fees.is_constant() ? nullptr : draws.of(job.deal.fees).data();
  std::vector<double> all(points.count);
  for (std::size_t at = 0; at < points.count; ++at) {
    const std::size_t i = points.first + at;
    const double cash = more ? of.cash[i] + more->cash[i] : of.cash[i];
    const double days = more ? of.days[i] + more->days[i] : of.days[i];
    all[at] = cash / (1 + rate * days / 365) - (fees ? fees[i] : job.deal.fees.low);
  }
  return all;
}

}  // namespace nonrunner::appraisal
