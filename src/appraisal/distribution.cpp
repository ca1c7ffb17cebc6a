#include "appraisal/distribution.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <utility>

#include "appraisal/source.h"
#include "chance/quantile_table.h"
#include "chance/sobol.h"
#include "exact/ends.h"

namespace nonrunner::appraisal {

namespace {

constexpr std::size_t block = 2048;  // points at a time: their coordinates stay in the cache

std::uint64_t threshold(double chance) {
  return static_cast<std::uint64_t>(std::llround(std::clamp(chance, 0.0, 1.0) * 0x1p32));
}

struct Term {
  const QuantileTable* table;
  std::size_t coordinate;
  double weight;
};

// Something that is paid only with a chance: weight x (constant, or what the table gives).
struct Coin {
  std::size_t coordinate;
  std::uint64_t below;
  double constant;
  std::optional<Term> amount;
};

// How one state with one way that its corrections turn out adds up. Hours are by the estimate, before the
// pace.
struct Sum {
  double cash = 0, hours = 0, days = 0;
  std::vector<Term> cash_terms, hour_terms, day_terms;
  std::vector<Coin> coins;
};

class Model {
 public:
  Model(const Job& job, const SoundValue& sound, const Courses& courses, const States& states,
        const Beliefs& beliefs, bool evenly)
      : job_(job), courses_(courses), states_(states), chances_(state_chances(job, beliefs)) {
    set_chances(beliefs, evenly);
    if (!sound.is_constant) {
      tables_.push_back(std::make_unique<QuantileTable>(sound.quantile));
      sound_ = tables_.back().get();
    }
    sound_mean_ = sound.mean;
    place_common();
    longest_ = 1;
    for (std::size_t c = 0; c < job.causes.size(); ++c)
      longest_ = std::max(longest_, courses.chain(c).steps.size() + 1);
    sum_of_.assign(chances_.size() * longest_, -1);
    for (std::size_t s = 0; s < chances_.size(); ++s)
      if (chances_[s] > 0) add_state(s);
    if (coordinates_ > SobolStream::dimensions_max)
      throw Refusal(fmt::format(
          "{}: the job has {} uncertain amounts for one cause, expected at most {}; give the smaller ones as "
          "plain numbers",
          job.vehicle.tag, coordinates_, SobolStream::dimensions_max));
  }

  Drawn run(std::size_t points) {
    Drawn drawn;
    for (auto* each : {&drawn.cash, &drawn.hours, &drawn.days, &drawn.fees}) each->resize(points);
    drawn.state.resize(points);
    drawn.drawn_with = chances_;
    if (evenly_)
      for (std::size_t s = 0; s < chances_.size(); ++s)
        if (const double believed = believed_[s / states_.masks]; believed > 0)
          drawn.drawn_with[s] *= drawn_[s / states_.masks] / believed;
    SobolStream stream(coordinates_);
    for (std::size_t first = 0; first < points; first += block)
      run_block(stream, first, std::min(block, points - first), drawn);
    return drawn;
  }

 private:
  void set_chances(const Beliefs& beliefs, bool evenly) {
    believed_ = beliefs.cause;
    drawn_ = believed_;
    const auto possible = std::count_if(believed_.begin(), believed_.end(), [](double p) { return p > 0; });
    evenly_ = evenly && possible > 1;
    if (evenly_)
      for (double& p : drawn_)
        if (p > 0) p = 0.5 * p + 0.5 / static_cast<double>(possible);
    double sum = 0;
    for (const double p : drawn_) cause_below_.push_back(threshold(sum += p));
    for (std::size_t c = drawn_.size(); c-- > 0;) {  // rounding must not leave the last draws without a cause
      cause_below_[c] = std::uint64_t{1} << 32;
      if (drawn_[c] > 0) break;
    }
    for (const double p : beliefs.trouble) trouble_below_.push_back(threshold(p));
  }

  const QuantileTable* table_of(const Amount& amount) {
    auto& made = by_amount_[&amount];
    if (!made) {
      tables_.push_back(std::make_unique<QuantileTable>(amount));
      made = tables_.back().get();
    }
    return made;
  }

  std::size_t coordinate_of(const void* what) {
    const auto common = common_.find(what);
    if (common != common_.end()) return common->second;
    const auto [own, fresh] = own_.try_emplace(what, common_end_ + own_.size());
    if (fresh) coordinates_ = std::max(coordinates_, own->second + 1);
    return own->second;
  }

  void place(const Amount& amount) {
    if (!amount.is_constant()) common_.emplace(&amount, coordinates_++);
  }

  // Amounts that matter whatever the cause come first: the first coordinates of a Sobol sequence are its
  // best.
  void place_common() {
    coordinates_ = 2;  // the cause, and how its corrections turn out
    place(job_.shop.pace);
    if (sound_) common_.emplace(&sound_, coordinates_++);
    place(job_.sale.days);
    place(job_.opening_up.hours);
    for (std::size_t i = 0; i < job_.faults.size(); ++i) {
      const FixChoice& choice = courses_.fixes().choices[i];
      if (!choice.fix || job_.faults[i].fixes[*choice.fix].restores < 1) place(job_.faults[i].takes_off);
      if (!choice.fix) continue;
      place(job_.faults[i].fixes[*choice.fix].hours);
      place(job_.faults[i].fixes[*choice.fix].cash);
    }
    for (const Amount* amount :
         {&job_.shop.wait_days, &job_.sale.costs, &job_.opening_up.cash, &job_.deal.fees})
      place(*amount);
    for (const Trouble& trouble : job_.troubles) {
      common_.emplace(&trouble, coordinates_++);
      for (const Amount* amount : {&trouble.cash, &trouble.hours, &trouble.takes_off, &trouble.found_less})
        place(*amount);
    }
    common_end_ = coordinates_;
  }

  void add(double& constant, std::vector<Term>& terms, double weight, const Amount& amount) {
    if (weight == 0) return;
    if (amount.is_constant())
      constant += weight * amount.low;
    else
      terms.push_back({table_of(amount), coordinate_of(&amount), weight});
  }
  void cash(Sum& sum, double weight, const Amount& amount) { add(sum.cash, sum.cash_terms, weight, amount); }
  void hours(Sum& sum, const Amount& amount) { add(sum.hours, sum.hour_terms, 1, amount); }
  void days(Sum& sum, const Amount& amount) { add(sum.days, sum.day_terms, 1, amount); }

  void add_part(Sum& sum, const Part& part) {
    const Source source = choose_source(part, job_.shop).source;
    cash(sum, -part.qty, *part.price[static_cast<std::size_t>(source)]);
    if (source != Source::salvage) return;
    hours(sum, part.pull_hours);
    if (part.bad == 0) return;
    const Amount& again = price_again(part);
    Coin coin{coordinate_of(&part.bad), threshold(part.bad), 0, std::nullopt};
    if (again.is_constant())
      coin.constant = -part.qty * again.low;
    else
      coin.amount = Term{table_of(again), coordinate_of(&again), -part.qty};
    sum.coins.push_back(coin);
  }

  void add_found(Sum& sum, const Cause& cause, unsigned present) {
    const double kept = 1 - job_.sale.rate;
    cash(sum, kept, cause.found);
    for (std::size_t j = 0; j < job_.troubles.size(); ++j)
      if (present >> j & 1u) cash(sum, -kept, job_.troubles[j].found_less);
  }

  void add_put_right(Sum& sum, std::size_t c, unsigned present, std::size_t turn) {
    const double kept = 1 - job_.sale.rate;
    const Chain& chain = courses_.chain(c);
    const bool cured = turn < chain.steps.size();
    for (std::size_t i = 0; i < chain.steps.size() && i <= turn; ++i) {
      const Correction& correction = job_.corrections[chain.steps[i].correction];
      for (const Operation& operation : correction.operations) hours(sum, operation.hours);
      for (const Part& part : correction.parts) add_part(sum, part);
      for (const Consumable& consumable : correction.consumables)
        cash(sum, -consumable.qty, consumable.price);
      for (const Sublet& sublet : correction.sublets) cash(sum, -1, sublet.price);
      if (cured) cash(sum, -kept, correction.takes_off);
    }
    if (!cured) return add_found(sum, job_.causes[c], present);
    if (sound_)
      sum.cash_terms.push_back({sound_, coordinate_of(&sound_), kept * job_.keeps});
    else
      sum.cash += kept * job_.keeps * sound_mean_;
    days(sum, job_.shop.wait_days);
    for (std::size_t j = 0; j < job_.troubles.size(); ++j) {
      if (!(present >> j & 1u)) continue;
      cash(sum, -1, job_.troubles[j].cash);
      hours(sum, job_.troubles[j].hours);
      cash(sum, -kept, job_.troubles[j].takes_off);
    }
    for (std::size_t i = 0; i < job_.faults.size(); ++i) {
      const Fault& fault = job_.faults[i];
      const auto fix = courses_.fixes().choices[i].fix;
      cash(sum, -kept * (fix ? 1 - fault.fixes[*fix].restores : 1), fault.takes_off);
      if (!fix) continue;
      cash(sum, -1, fault.fixes[*fix].cash);
      hours(sum, fault.fixes[*fix].hours);
    }
  }

  Sum sum_for(std::size_t c, unsigned present, Course course, std::size_t turn) {
    Sum sum;
    hours(sum, job_.opening_up.hours);
    cash(sum, -1, job_.opening_up.cash);
    const Cause& cause = job_.causes[c];
    if (course == Course::put_right) add_put_right(sum, c, present, turn);
    if (course == Course::as_found) add_found(sum, cause, present);
    if (course == Course::put_right || course == Course::as_found) {
      cash(sum, -1, job_.sale.costs);
      days(sum, job_.sale.days);
    } else if (course == Course::part_out) {
      const PartOut& pieces = *part_out_of(job_, cause);
      cash(sum, 1, pieces.proceeds);
      cash(sum, -1, pieces.costs);
      hours(sum, pieces.hours);
    } else {
      const Scrap& scrap = *scrap_of(job_, cause);
      cash(sum, 1, scrap.value);
      cash(sum, -1, scrap.costs);
    }
    return sum;
  }

  void add_state(std::size_t state) {
    const std::size_t c = state / states_.masks;
    const auto present = static_cast<unsigned>(state % states_.masks);
    const Course course = states_.best[state].course;
    if (c != cause_of_own_) {
      own_.clear();
      cause_of_own_ = c;
    }
    const Chain& chain = courses_.chain(c);
    const std::size_t turns =
        course == Course::put_right ? chain.steps.size() + (chain.fails > 0 ? 1 : 0) : 1;
    for (std::size_t turn = 0; turn < turns; ++turn) {
      sum_of_[state * longest_ + turn] = static_cast<std::int32_t>(sums_.size());
      sums_.push_back(sum_for(c, present, course, turn));
    }
  }

  std::size_t state_at(std::size_t i, std::size_t points) const {
    std::size_t c = 0;
    while (coordinates_drawn_[i] >= cause_below_[c]) ++c;
    std::size_t present = 0;
    for (std::size_t j = 0; j < trouble_below_.size(); ++j)
      if (coordinates_drawn_[common_.at(&job_.troubles[j]) * points + i] < trouble_below_[j])
        present |= std::size_t{1} << j;
    return c * states_.masks + present;
  }

  std::size_t turn_at(std::size_t i, std::size_t points, std::size_t c) const {
    const Chain& chain = courses_.chain(c);
    const double u = (coordinates_drawn_[points + i] + 0.5) * 0x1p-32;
    double sum = 0;
    for (std::size_t step = 0; step < chain.steps.size(); ++step)
      if (u < (sum += chain.steps[step].cures)) return step;
    return chain.fails > 0 ? chain.steps.size() : chain.steps.size() - 1;
  }

  void run_block(SobolStream& stream, std::size_t first, std::size_t points, Drawn& drawn) {
    stream.next(points, coordinates_drawn_);
    std::vector<double> pace(points, job_.shop.pace.low);
    if (!job_.shop.pace.is_constant()) fill(pace, job_.shop.pace, points);
    if (job_.deal.fees.is_constant())
      std::fill_n(drawn.fees.begin() + static_cast<std::ptrdiff_t>(first), points, job_.deal.fees.low);
    else {
      std::vector<double> fees(points);
      fill(fees, job_.deal.fees, points);
      std::copy(fees.begin(), fees.end(), drawn.fees.begin() + static_cast<std::ptrdiff_t>(first));
    }
    members_.resize(sums_.size());
    std::vector<std::size_t> used;
    for (std::size_t i = 0; i < points; ++i) {
      const std::size_t state = state_at(i, points);
      drawn.state[first + i] = static_cast<std::uint32_t>(state);
      const std::size_t turn =
          states_.best[state].course == Course::put_right ? turn_at(i, points, state / states_.masks) : 0;
      const auto sum = static_cast<std::size_t>(sum_of_[state * longest_ + turn]);
      if (members_[sum].empty()) used.push_back(sum);
      members_[sum].push_back(static_cast<std::uint32_t>(i));
    }
    for (const std::size_t sum : used) {
      add_up(sums_[sum], members_[sum], points, pace, first, drawn);
      members_[sum].clear();
    }
  }

  void fill(std::vector<double>& values, const Amount& amount, std::size_t points) {
    const QuantileTable& table = *table_of(amount);
    const std::uint32_t* u = &coordinates_drawn_[coordinate_of(&amount) * points];
    for (std::size_t i = 0; i < points; ++i) values[i] = table.at(u[i]);
  }

  void add_terms(const std::vector<Term>& terms, const std::vector<std::uint32_t>& members,
                 std::size_t points, std::vector<double>& into) const {
    for (const Term& term : terms) {
      const std::uint32_t* u = &coordinates_drawn_[term.coordinate * points];
      const QuantileTable& table = *term.table;
      for (std::size_t k = 0; k < members.size(); ++k) into[k] += term.weight * table.at(u[members[k]]);
    }
  }

  void add_up(const Sum& sum, const std::vector<std::uint32_t>& members, std::size_t points,
              const std::vector<double>& pace, std::size_t first, Drawn& drawn) {
    cash_.assign(members.size(), sum.cash);
    hours_.assign(members.size(), sum.hours);
    days_.assign(members.size(), sum.days);
    add_terms(sum.cash_terms, members, points, cash_);
    add_terms(sum.hour_terms, members, points, hours_);
    add_terms(sum.day_terms, members, points, days_);
    for (const Coin& coin : sum.coins) {
      const std::uint32_t* u = &coordinates_drawn_[coin.coordinate * points];
      for (std::size_t k = 0; k < members.size(); ++k) {
        if (u[members[k]] >= coin.below) continue;
        cash_[k] += coin.constant;
        if (coin.amount)
          cash_[k] +=
              coin.amount->weight *
              coin.amount->table->at(coordinates_drawn_[coin.amount->coordinate * points + members[k]]);
      }
    }
    for (std::size_t k = 0; k < members.size(); ++k) {
      const std::size_t i = members[k];
      const double hours = hours_[k] * pace[i];
      const double days = days_[k] + hours / job_.shop.hours_per_week * 7;
      drawn.hours[first + i] = hours;
      drawn.days[first + i] = days;
      drawn.cash[first + i] = cash_[k] - days * job_.shop.holding_per_day;
    }
  }

  const Job& job_;
  const Courses& courses_;
  const States& states_;
  std::vector<double> chances_;           // of the states, as believed
  std::vector<double> believed_, drawn_;  // of the causes
  bool evenly_ = false;
  std::vector<std::uint64_t> cause_below_, trouble_below_;
  const QuantileTable* sound_ = nullptr;
  double sound_mean_ = 0;
  std::vector<std::unique_ptr<QuantileTable>> tables_;
  std::map<const Amount*, const QuantileTable*> by_amount_;
  std::map<const void*, std::size_t> common_, own_;  // coordinates of amounts, troubles and bad parts
  std::size_t coordinates_ = 0, common_end_ = 0, cause_of_own_ = static_cast<std::size_t>(-1);
  std::size_t longest_ = 1;
  std::vector<std::int32_t> sum_of_;
  std::vector<Sum> sums_;
  std::vector<std::uint32_t> coordinates_drawn_;
  std::vector<std::vector<std::uint32_t>> members_;
  std::vector<double> cash_, hours_, days_;
};

}  // namespace

Drawn draw(const Job& job, const SoundValue& sound, const Courses& courses, const States& states,
           const Beliefs& beliefs, std::size_t points, bool evenly) {
  return Model(job, sound, courses, states, beliefs, evenly).run(points);
}

std::vector<double> weights(const Job& job, const Drawn& drawn, const Beliefs& beliefs) {
  std::vector<double> by_state = state_chances(job, beliefs);
  if (by_state == drawn.drawn_with) return {};
  for (std::size_t s = 0; s < by_state.size(); ++s)
    by_state[s] = drawn.drawn_with[s] > 0 ? by_state[s] / drawn.drawn_with[s] : 0;
  std::vector<double> all(drawn.state.size());
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = by_state[drawn.state[i]];
  return all;
}

WeightedSample cash_profits(const Job& job, const Drawn& drawn, double price) {
  std::vector<double> values(drawn.cash.size());
  for (std::size_t i = 0; i < values.size(); ++i) values[i] = drawn.cash_profit(job, price, i);
  return WeightedSample(std::move(values));
}

WeightedSample profits(const Job& job, const Drawn& drawn, double price) {
  std::vector<double> values(drawn.cash.size());
  for (std::size_t i = 0; i < values.size(); ++i)
    values[i] = drawn.cash_profit(job, price, i) - drawn.hours[i] * job.shop.hour;
  return WeightedSample(std::move(values));
}

WeightedSample break_even_prices(const Job& job, const Drawn& drawn) {
  std::vector<double> values(drawn.cash.size());
  for (std::size_t i = 0; i < values.size(); ++i)
    values[i] = (drawn.cash[i] / (1 + job.shop.money_rate * drawn.days[i] / 365) - drawn.fees[i]) /
                (1 + job.deal.rate);
  return WeightedSample(std::move(values));
}

}  // namespace nonrunner::appraisal
