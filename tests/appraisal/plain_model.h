// The model of the distribution written a second time, plainly: one point after the other, from top to
// bottom, with pseudo-random numbers. Slow, and shares nothing with the program's drawing but the job and the
// choice of courses.
#pragma once
#include <map>
#include <random>
#include <vector>

#include "appraisal/courses.h"
#include "appraisal/evidence.h"
#include "appraisal/job.h"
#include "appraisal/source.h"

namespace nonrunner::appraisal {

class PlainModel {
 public:
  PlainModel(const Job& job, const Courses& courses, const Beliefs& beliefs)
      : job_(job), courses_(courses), beliefs_(beliefs) {}

  // The cash profit of one car bought at `price`; its own hours in `hours`.
  double cash_profit(double price, double& hours) {
    std::size_t cause = 0;
    for (double u = uniform(); cause + 1 < job_.causes.size() && u >= beliefs_.cause[cause]; ++cause)
      u -= beliefs_.cause[cause];
    unsigned present = 0;
    for (std::size_t j = 0; j < job_.troubles.size(); ++j)
      if (happens(beliefs_.trouble[j])) present |= 1u << j;
    const double pace = draw(job_.shop.pace);
    const double fees = draw(job_.deal.fees);
    double estimated = draw(opening_hours_of(job_, job_.causes[cause]));
    double cash = -draw(opening_cash_of(job_, job_.causes[cause]));
    double days = 0;
    const Path path = courses_.best(cause, present).path;
    cash += path.course == Course::put_right ? put_right(cause, present, path, estimated, days)
                                             : otherwise(path.course, cause, present, estimated, days);
    hours = estimated * pace;
    days += hours / job_.shop.hours_per_week * 7;
    cash -= days * job_.shop.holding_per_day;
    return cash - (price * (1 + job_.deal.rate) + fees) * (1 + job_.shop.money_rate * days / 365);
  }

 private:
  double uniform() { return static_cast<double>(bits_() >> 11) * 0x1p-53; }
  bool happens(double chance) { return uniform() < chance; }

  // The quantile at a random chance, between 4,096 values worked out beforehand.
  double draw(const Amount& amount) {
    if (amount.is_constant()) return amount.low;
    auto& values = quantiles_[&amount];
    if (values.empty())
      for (int i = 0; i <= 4096; ++i) values.push_back(amount.quantile(i / 4096.0));
    const double at = uniform() * 4096;
    const auto cell = static_cast<std::size_t>(at);
    return values[cell] + (values[cell + 1] - values[cell]) * (at - static_cast<double>(cell));
  }

  double otherwise(Course course, std::size_t cause, unsigned present, double& hours, double& days) {
    if (course == Course::as_found) return as_found(cause, present, days);
    if (course == Course::scrap) {
      const Scrap& scrap = *scrap_of(job_, job_.causes[cause]);
      return draw(scrap.value) - draw(scrap.costs);
    }
    const PartOut& pieces = *part_out_of(job_, job_.causes[cause]);
    hours += draw(pieces.hours);
    return draw(pieces.proceeds) - draw(pieces.costs);
  }

  double as_found(std::size_t cause, unsigned present, double& days) {
    double price = draw(*job_.causes[cause].found);
    for (std::size_t j = 0; j < job_.troubles.size(); ++j)
      if (present >> j & 1u) price -= draw(job_.troubles[j].found_less);
    days += draw(job_.sale.days);
    return price * (1 - job_.sale.rate) - draw(job_.sale.costs);
  }

  double put_right(std::size_t cause, unsigned present, const Path& path, double& hours, double& days) {
    double cost = 0, marks = 0;
    bool cured = false;
    std::size_t tried = 0;
    for (auto next = job_.causes[cause].correction; next && !cured && tried < path.tried;
         next = job_.corrections[*next].otherwise, ++tried) {
      const Correction& correction = job_.corrections[*next];
      for (const Operation& operation : correction.operations) hours += draw(operation.hours);
      for (const Part& part : correction.parts) {
        const Source source = choose_source(part, job_.shop).source;
        cost += part.qty * draw(*part.price[static_cast<std::size_t>(source)]);
        if (source != Source::salvage) continue;
        hours += draw(part.pull_hours);
        const bool bad = happens(part.bad);
        // The same kind of part again costs what the first one did.
        const double again = part.price[0] ? draw(*part.price[0]) : part.price[1]->mean();
        if (bad) cost += part.qty * again;
      }
      for (const Consumable& consumable : correction.consumables)
        cost += consumable.qty * draw(consumable.price);
      for (const Sublet& sublet : correction.sublets) cost += draw(sublet.price);
      marks += draw(correction.takes_off);
      cured = happens(correction.works);
    }
    if (!cured) return otherwise(path.if_all_fail, cause, present, hours, days) - cost;
    for (std::size_t j = 0; j < job_.troubles.size(); ++j) {
      if (!(present >> j & 1u)) continue;
      cost += draw(job_.troubles[j].cash);
      hours += draw(job_.troubles[j].hours);
      marks += draw(job_.troubles[j].takes_off);
    }
    for (std::size_t i = 0; i < job_.faults.size(); ++i) {
      const auto fix = courses_.fixes().choices[i].fix;
      const double off = draw(job_.faults[i].takes_off);
      if (!fix) {
        marks += off;
        continue;
      }
      const Fix& made = job_.faults[i].fixes[*fix];
      cost += draw(made.cash);
      hours += draw(made.hours);
      marks += off * (1 - made.restores);
    }
    days += draw(job_.shop.wait_days) + draw(job_.sale.days);
    return (draw(*job_.sound) * job_.keeps - marks) * (1 - job_.sale.rate) - draw(job_.sale.costs) - cost;
  }

  const Job& job_;
  const Courses& courses_;
  const Beliefs& beliefs_;
  std::mt19937_64 bits_{20260502};
  std::map<const Amount*, std::vector<double>> quantiles_;
};

}  // namespace nonrunner::appraisal
