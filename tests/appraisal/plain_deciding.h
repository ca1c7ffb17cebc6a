// Deciding written a second time, plainly: every policy of a small job tried, one after the other, at every
// state of knowledge. Amounts are taken at their means, so it is for jobs in which nothing is drawn. Shares
// nothing with the program but the job, and the beliefs after a test.
#pragma once
#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "appraisal/evidence.h"
#include "appraisal/job.h"

namespace nonrunner::appraisal {

class PlainDeciding {
 public:
  // Without interest. `offer`: absent is the plain one.
  PlainDeciding(const Job& job, const Offer* offer = nullptr) : job_(job), offer_(offer) {
    choose_fixes();
    masks_ = 1u << job.troubles.size();
    for (std::size_t c = 0; c < job.causes.size(); ++c)
      for (unsigned m = 0; m < masks_; ++m) ways_.push_back(ways_of(c, m));
    policies_ = 1;
    for (const auto& ways : ways_) policies_ *= ways.size();
  }

  double policies() const { return static_cast<double>(policies_); }

  struct Best {
    bool holds = false;
    double profit = 0;  // of the most profitable policy that holds
  };
  Best best(const Beliefs& beliefs, double price) const {
    Best best;
    const std::vector<double> chances = chances_of(beliefs);
    for_all([&](const std::vector<std::size_t>& policy) {
      const Sums sums = sums_of(policy, chances, price);
      if (!holds(sums) || (best.holds && sums.profit <= best.profit)) return;
      best = {true, sums.profit};
    });
    return best;
  }

  // In coins of a hundredth.
  long long walk_away(const Beliefs& beliefs) const {
    const std::vector<double> chances = chances_of(beliefs);
    long long best = -100'000'000;
    for_all([&](const std::vector<std::size_t>& policy) {
      const auto holds_at = [&](long long coins) {
        return holds(sums_of(policy, chances, static_cast<double>(coins) / 100));
      };
      if (!holds_at(best + 1)) return;
      long long step = 1;
      while (holds_at(best + 1 + step)) step *= 2;
      long long low = best + 1, high = best + 1 + step;
      while (high - low > 1) {
        const long long middle = (low + high) / 2;
        (holds_at(middle) ? low : high) = middle;
      }
      best = low;
    });
    return best;
  }

 private:
  struct Turn {
    double chance, cash, hours, days;
  };
  using Way = std::vector<Turn>;
  struct Sums {
    double profit = 0, cash = 0, hours = 0, loss = 0;
  };

  double pace() const { return job_.shop.pace.mean(); }
  double a_day() const { return job_.shop.holding_per_day + job_.shop.bay_per_day; }

  void choose_fixes() {
    for (const Fault& fault : job_.faults) {
      const Fix* taken = nullptr;
      double most = 0;
      for (const Fix& fix : fault.fixes) {
        const double hours = fix.hours.mean() * pace();
        const double gain = fix.restores * fault.takes_off.mean() * (1 - job_.sale.rate) - fix.cash.mean() -
                            hours * job_.shop.hour - hours * 7 / job_.shop.hours_per_week * a_day();
        if (taken ? gain <= most : !fault.must && gain <= 0) continue;
        taken = &fix;
        most = gain;
      }
      off_ += fault.takes_off.mean() * (taken ? 1 - taken->restores : 1);
      if (!taken) continue;
      fix_cash_ += taken->cash.mean();
      fix_hours_ += taken->hours.mean() * pace();
    }
  }

  // What one part costs in money and own hours, from the source that is cheapest for who bears it.
  std::pair<double, double> part(const Part& part, double cover) const {
    std::optional<double> least;
    std::pair<double, double> taken;
    for (int source = 0; source < 3; ++source) {
      const auto& price = part.price[static_cast<std::size_t>(source)];
      if (!price || (part.use && static_cast<int>(*part.use) != source)) continue;
      double cash = part.qty * price->mean(), hours = 0;
      if (source == 1) {
        cash += part.bad * part.qty * (part.price[0] ? part.price[0]->mean() : price->mean());
        hours = part.pull_hours.mean() * pace();
      }
      const double cost =
          (1 - cover) * (cash + hours * job_.shop.hour) + hours * 7 / job_.shop.hours_per_week * a_day();
      if (least && cost >= *least) continue;
      least = cost;
      taken = {cash, hours};
    }
    return taken;
  }

  std::vector<Way> ways_of(std::size_t c, unsigned present) const {
    const Cause& cause = job_.causes[c];
    const double cover = offer_ ? offer_->covers[c] : 0;
    const double week = 7 / job_.shop.hours_per_week;
    const double opening_hours =
        (cause.opening_hours ? *cause.opening_hours : job_.opening_up.hours).mean() * pace();
    const double opening_cash = (cause.opening_cash ? *cause.opening_cash : job_.opening_up.cash).mean();
    double trouble_cash = 0, trouble_hours = 0, trouble_marks = 0, less = 0;
    bool barred = job_.road_barred;
    for (std::size_t j = 0; j < job_.troubles.size(); ++j) {
      if (!(present >> j & 1u)) continue;
      const Trouble& trouble = job_.troubles[j];
      trouble_cash += trouble.cash.mean();
      trouble_hours += trouble.hours.mean() * pace();
      trouble_marks += trouble.takes_off.mean();
      less += trouble.found_less.mean();
      barred = barred || trouble.bars_road;
    }
    // What comes after `spent`, own hours and other people's days so far.
    const auto end_with = [&](int course, double chance, double spent, double hours,
                              double borne) -> std::optional<Turn> {
      double days = (opening_hours + hours + borne) * week;
      if (course == 0) {
        if (!cause.found) return std::nullopt;
        days += job_.sale.days.mean();
        return Turn{chance,
                    (cause.found->mean() - less) * (1 - job_.sale.rate) - job_.sale.costs.mean() - spent -
                        opening_cash - days * job_.shop.holding_per_day,
                    opening_hours + hours, days};
      }
      if (course == 1) {
        const auto& pieces = cause.part_out ? cause.part_out : job_.part_out;
        if (!pieces) return std::nullopt;
        const double more = pieces->hours.mean() * pace();
        days += more * week;
        return Turn{chance,
                    pieces->proceeds.mean() - pieces->costs.mean() - spent - opening_cash -
                        days * job_.shop.holding_per_day,
                    opening_hours + hours + more, days};
      }
      const auto& scrap = cause.scrap ? cause.scrap : job_.scrap;
      if (!scrap) return std::nullopt;
      return Turn{
          chance,
          scrap->value.mean() - scrap->costs.mean() - spent - opening_cash - days * job_.shop.holding_per_day,
          opening_hours + hours, days};
    };
    std::vector<Way> ways;
    for (int course = 0; course < 3; ++course)
      if (const auto turn = end_with(course, 1, 0, 0, 0)) ways.push_back({*turn});
    // Where there is no course at all nothing is done with it.
    const bool nothing = ways.empty();
    const auto given_up = [&](double chance, double spent, double hours, double borne) {
      const double days = (opening_hours + hours + borne) * week;
      return Turn{chance, -spent - opening_cash - days * job_.shop.holding_per_day, opening_hours + hours,
                  days};
    };
    if (nothing) ways.push_back({given_up(1, 0, 0, 0)});
    if (barred) return ways;
    Way cured;
    double left = 1, spent = 0, hours = 0, borne = 0, marks = trouble_marks + off_;
    for (auto next = cause.correction; next && left > 0; next = job_.corrections[*next].otherwise) {
      const Correction& correction = job_.corrections[*next];
      double cash = 0, work = 0;
      for (const Operation& operation : correction.operations) work += operation.hours.mean() * pace();
      for (const Part& each : correction.parts) {
        const auto [price, pulling] = part(each, cover);
        cash += price;
        work += pulling;
      }
      for (const Consumable& each : correction.consumables) cash += each.qty * each.price.mean();
      for (const Sublet& each : correction.sublets) cash += each.price.mean();
      spent += (1 - cover) * cash;
      hours += (1 - cover) * work;
      borne += cover * work;
      marks += correction.takes_off.mean();
      if (left * correction.works > 0) {
        const double more = fix_hours_ + trouble_hours;
        const double days = (opening_hours + hours + borne + more) * week + job_.shop.wait_days.mean() +
                            job_.sale.days.mean();
        cured.push_back({left * correction.works,
                         (job_.sound->mean() * job_.keeps - marks) * (1 - job_.sale.rate) -
                             job_.sale.costs.mean() - spent - trouble_cash - fix_cash_ - opening_cash -
                             days * job_.shop.holding_per_day,
                         opening_hours + hours + more, days});
      }
      left *= 1 - correction.works;
      if (left == 0) ways.push_back(cured);
      if (left > 0 && nothing) {
        ways.push_back(cured);
        ways.back().push_back(given_up(left, spent, hours, borne));
      }
      for (int course = 0; left > 0 && course < 3; ++course)
        if (const auto turn = end_with(course, left, spent, hours, borne)) {
          ways.push_back(cured);
          ways.back().push_back(*turn);
        }
    }
    return ways;
  }

  std::vector<double> chances_of(const Beliefs& beliefs) const {
    std::vector<double> chances;
    for (const double cause : beliefs.cause)
      for (unsigned m = 0; m < masks_; ++m) {
        double chance = cause;
        for (std::size_t j = 0; j < beliefs.trouble.size(); ++j)
          chance *= m >> j & 1u ? beliefs.trouble[j] : 1 - beliefs.trouble[j];
        chances.push_back(chance);
      }
    return chances;
  }

  double paid(double price) const {
    double fee = 0;
    for (const FeeBand& band : job_.deal.fee_bands)
      if (price >= band.from || band.from == 0) fee = band.fee;
    return price * (1 + job_.deal.rate) + fee + job_.deal.fees.mean();
  }

  Sums sums_of(const std::vector<std::size_t>& policy, const std::vector<double>& chances,
               double price) const {
    Sums sums;
    const double pay = paid(price);
    for (std::size_t s = 0; s < chances.size(); ++s)
      for (const Turn& turn : ways_[s][policy[s]]) {
        const double chance = chances[s] * turn.chance, cash = turn.cash - pay;
        sums.cash += chance * cash;
        sums.hours += chance * turn.hours;
        sums.profit += chance * (cash - turn.hours * job_.shop.hour - turn.days * job_.shop.bay_per_day);
        if (cash < -1e-9 * std::max(1.0, pay)) sums.loss += chance;
      }
    return sums;
  }

  bool holds(const Sums& sums) const {
    const auto close = [](double amount) { return 1e-9 * std::max(1.0, std::abs(amount)); };
    return sums.profit >= job_.aims.profit() - close(job_.aims.profit()) &&
           (!job_.aims[Aim::loss_chance] || sums.loss <= *job_.aims[Aim::loss_chance] + 1e-9) &&
           (!job_.aims[Aim::per_hour] ||
            sums.cash >= *job_.aims[Aim::per_hour] * sums.hours - close(*job_.aims[Aim::per_hour]));
  }

  template <class Look>
  void for_all(Look look) const {
    std::vector<std::size_t> policy(ways_.size(), 0);
    while (true) {
      look(policy);
      std::size_t s = 0;
      while (s < policy.size() && ++policy[s] == ways_[s].size()) policy[s++] = 0;
      if (s == policy.size()) return;
    }
  }

  const Job& job_;
  const Offer* offer_;
  unsigned masks_ = 1;
  double off_ = 0, fix_cash_ = 0, fix_hours_ = 0;
  std::vector<std::vector<Way>> ways_;  // by case
  std::size_t policies_ = 1;
};

// The plan over every order of tests, every policy at every state of knowledge.
class PlainPlan {
 public:
  PlainPlan(const Job& job, const PlainDeciding& plain, const std::vector<const PlainDeciding*>& others)
      : job_(job), plain_(plain), others_(others) {}

  double decide(const Beliefs& beliefs, std::optional<double> price) const {
    double most = 0;
    const auto look = [&](const PlainDeciding& offer, double at) {
      const auto best = offer.best(beliefs, at);
      if (best.holds) most = std::max(most, best.profit - job_.aims.profit());
    };
    if (price) look(plain_, *price);
    for (std::size_t k = 0; k < others_.size(); ++k) look(*others_[k], job_.deal.others[k].price);
    return most;
  }

  double best(const Beliefs& beliefs, std::optional<double> price,
              const std::vector<std::size_t>& left) const {
    double most = decide(beliefs, price);
    for (const std::size_t t : left) {
      const Test& test = job_.tests[t];
      std::vector<std::size_t> others = left;
      others.erase(std::find(others.begin(), others.end(), t));
      double sum = 0;
      for (std::size_t outcome = 0; outcome < test.outcomes.size(); ++outcome)
        if (const auto then = after(beliefs, test, outcome))
          sum += chance_of(beliefs, test, outcome) * best(*then, price, others);
      const double cost = test.cash.mean() + test.hours.mean() * job_.shop.pace.mean() * job_.shop.hour;
      most = std::max(most, (1 - test.gone.value_or(job_.deal.gone)) * sum - cost);
    }
    return most;
  }

 private:
  const Job& job_;
  const PlainDeciding& plain_;
  std::vector<const PlainDeciding*> others_;
};

}  // namespace nonrunner::appraisal
