#include "appraisal/sums.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "appraisal/source.h"
#include "chance/sobol.h"
#include "exact/ends.h"

namespace nonrunner::appraisal {

std::uint64_t of_two_to_the_32(double chance) {
  return static_cast<std::uint64_t>(std::llround(std::clamp(chance, 0.0, 1.0) * 0x1p32));
}

Sums::Sums(const SoundValue& sound, const Courses& courses, const States& states,
           const std::vector<double>& chances)
    : job_(courses.job()), states_(states), sound_(sound), courses_(courses) {
  if (!sound.is_constant) {
    tables_.push_back(sound.points ? std::make_unique<QuantileTable>(*sound.points)
                                   : std::make_unique<QuantileTable>(sound.quantile));
    sound_table_ = tables_.back().get();
  }
  place_common();
  for (std::size_t c = 0; c < job_.causes.size(); ++c)
    turns_ = std::max(turns_, courses.chain(c).steps.size() + 1);
  sum_of_.assign(chances.size() * turns_, 0);
  for (std::size_t state = 0; state < chances.size(); ++state) {
    cause_ = state / states.masks;
    if (state % states.masks == 0) own_.clear();
    if (!(chances[state] > 0)) continue;
    const Course course = states.best[state].course;
    const Chain& chain = courses.chain(cause_);
    const std::size_t turns =
        course == Course::put_right ? chain.steps.size() + (chain.fails > 0 ? 1 : 0) : 1;
    for (std::size_t turn = 0; turn < turns; ++turn) {
      chance_ = chances[state];
      if (course == Course::put_right)
        chance_ *= turn < chain.steps.size() ? chain.steps[turn].cures : chain.fails;
      sum_of_[state * turns_ + turn] = sums_.size();
      sums_.push_back(made(cause_, static_cast<unsigned>(state % states.masks), course, turn));
    }
  }
  arrange();
  take_out_common();
}

void Sums::place(const Amount& amount) {
  if (amount.is_constant()) return;
  common_.emplace(&amount, draws_.size());
  draws_.push_back({});
  table_of(amount);
}

void Sums::place_common() {
  if (sound_table_) {
    common_.emplace(&sound_, draws_.size());
    draws_.push_back({});
  }
  for (const Amount* amount : {&job_.shop.pace, &job_.sale.days, &job_.opening_up.hours, &job_.shop.wait_days,
                               &job_.sale.costs, &job_.opening_up.cash, &job_.deal.fees})
    place(*amount);
  for (std::size_t i = 0; i < job_.faults.size(); ++i) {
    const auto fix = courses_.fixes().choices[i].fix;
    if (!fix || job_.faults[i].fixes[*fix].restores < 1) place(job_.faults[i].takes_off);
    if (!fix) continue;
    place(job_.faults[i].fixes[*fix].hours);
    place(job_.faults[i].fixes[*fix].cash);
  }
  for (const Trouble& trouble : job_.troubles) {
    common_.emplace(&trouble, draws_.size());
    draws_.push_back({});
    const double worth = trouble.cash.mean() + trouble.takes_off.mean() + trouble.found_less.mean() +
                         trouble.hours.mean() * job_.shop.hour;
    moves(&trouble, trouble.chance * (1 - trouble.chance) * worth * worth);
    for (const Amount* amount : {&trouble.cash, &trouble.hours, &trouble.takes_off, &trouble.found_less})
      place(*amount);
  }
}

std::size_t Sums::draw_of(const void* what) {
  const auto common = common_.find(what);
  if (common != common_.end()) return common->second;
  const auto [own, fresh] = own_.try_emplace(what, draws_.size());
  if (fresh) draws_.push_back({cause_, 0, 0});
  return own->second;
}

void Sums::moves(const void* what, double variance) { draws_[draw_of(what)].moves += chance_ * variance; }

void Sums::arrange() {
  // The most moving of each cause's own share one coordinate, the next ones the next.
  std::vector<std::size_t> order(draws_.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return draws_[a].moves > draws_[b].moves; });
  std::vector<std::size_t> taken(job_.causes.size(), 0);
  std::vector<std::pair<double, std::vector<std::size_t>>>
      groups;  // how much it moves, and the draws of one coordinate
  std::vector<std::size_t> group_of_rank;
  for (const std::size_t draw : order) {
    if (!draws_[draw].cause) {
      groups.push_back({draws_[draw].moves, {draw}});
      continue;
    }
    const std::size_t rank = taken[*draws_[draw].cause]++;
    if (rank == group_of_rank.size()) {
      group_of_rank.push_back(groups.size());
      groups.push_back({0, {}});
    }
    groups[group_of_rank[rank]].first += draws_[draw].moves;
    groups[group_of_rank[rank]].second.push_back(draw);
  }
  std::stable_sort(groups.begin(), groups.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  coordinates_ = 2;  // the cause and the turn
  for (const auto& [moved, draws] : groups) {
    for (const std::size_t draw : draws) draws_[draw].coordinate = coordinates_;
    ++coordinates_;
  }
  if (coordinates_ > SobolStream::dimensions_max)
    throw Refusal(fmt::format(
        "{}: the job has {} uncertain amounts for one cause, expected at most {}; give the smaller ones as "
        "plain numbers",
        job_.vehicle.tag, coordinates_, SobolStream::dimensions_max));
  for (Sum& sum : sums_) {
    for (auto* terms : {&sum.cash_terms, &sum.hour_terms, &sum.day_terms, &sum.borne_terms})
      for (Term& term : *terms) term.coordinate = draws_[term.coordinate].coordinate;
    for (Coin& coin : sum.coins) {
      coin.coordinate = draws_[coin.coordinate].coordinate;
      if (coin.amount) coin.amount->coordinate = draws_[coin.amount->coordinate].coordinate;
    }
  }
}

void Sums::take_out_common() {
  for (std::vector<Term> Sum::*terms : {&Sum::cash_terms, &Sum::hour_terms, &Sum::day_terms}) {
    std::vector<Term> in_all = sums_.front().*terms;
    for (const Sum& sum : sums_)
      std::erase_if(in_all, [&](const Term& term) { return std::ranges::count(sum.*terms, term) != 1; });
    for (Sum& sum : sums_)
      std::erase_if(sum.*terms, [&](const Term& term) { return std::ranges::count(in_all, term) == 1; });
    in_all_.*terms = std::move(in_all);
  }
}

const QuantileTable* Sums::table_of(const Amount& amount) {
  auto& made = table_of_[&amount];
  if (!made) {
    tables_.push_back(std::make_unique<QuantileTable>(amount));
    made = tables_.back().get();
  }
  return made;
}

std::optional<Term> Sums::term_of(const Amount& amount) const {
  if (amount.is_constant()) return std::nullopt;
  const QuantileTable* table = table_of_.at(&amount);
  return Term{table, draws_[common_.at(&amount)].coordinate, table->width()};
}

// `worth`: what one unit more costs, for how much the amount moves the profit.
void Sums::add(double& constant, std::vector<Term>& terms, double weight, const Amount& amount,
               double worth) {
  if (weight == 0) return;
  if (amount.is_constant()) {
    constant += weight * amount.low;
    return;
  }
  const QuantileTable* table = table_of(amount);
  constant += weight * table->low();
  terms.push_back({table, draw_of(&amount), weight * table->width()});
  moves(&amount, worth * worth * weight * weight * amount.variance());
}

void Sums::cash(Sum& sum, double weight, const Amount& amount) {
  add(sum.cash, sum.cash_terms, weight, amount, 1);
}

// `cover`: the share that the seller bears.
void Sums::hours(Sum& sum, const Amount& amount, double cover) {
  const double days = 7 * job_.shop.holding_per_day / job_.shop.hours_per_week;
  add(sum.hours, sum.hour_terms, 1 - cover, amount, job_.shop.pace.mean() * (job_.shop.hour + days));
  add(sum.borne_hours, sum.borne_terms, cover, amount, job_.shop.pace.mean() * days);
  hours_mean_ += (1 - cover) * amount.mean();
}

void Sums::days(Sum& sum, const Amount& amount) {
  add(sum.days, sum.day_terms, 1, amount, job_.shop.holding_per_day);
}

void Sums::add_part(Sum& sum, const Part& part, double cover) {
  const Source source = choose_source(part, job_.shop).source;
  const double qty = (1 - cover) * part.qty;
  cash(sum, -qty, *part.price[static_cast<std::size_t>(source)]);
  if (source != Source::salvage) return;
  hours(sum, part.pull_hours, cover);
  if (part.bad == 0 || qty == 0) return;
  const Amount& again = price_again(part);
  Coin coin{draw_of(&part.bad), of_two_to_the_32(part.bad), 0, std::nullopt};
  const double price = qty * again.mean();
  moves(&part.bad, part.bad * (1 - part.bad) * price * price);
  coin.constant = -qty * again.low;
  if (!again.is_constant())
    coin.amount = Term{table_of(again), draw_of(&again), -qty * (again.high - again.low)};
  sum.coins.push_back(coin);
}

void Sums::add_found(Sum& sum, const Cause& cause, unsigned present) {
  const double kept = 1 - job_.sale.rate;
  cash(sum, kept, cause.found);
  for (std::size_t j = 0; j < job_.troubles.size(); ++j)
    if (present >> j & 1u) cash(sum, -kept, job_.troubles[j].found_less);
}

// The sale running, and what is done to the car beside the corrections.
void Sums::add_sound(Sum& sum, unsigned present) {
  const double kept = 1 - job_.sale.rate;
  if (sound_table_) {
    sum.cash += kept * job_.keeps * sound_table_->low();
    sum.cash_terms.push_back({sound_table_, draw_of(&sound_), kept * job_.keeps * sound_table_->width()});
    const double middle = sound_.quantile(0.84) - sound_.quantile(0.16);  // about two standard deviations
    moves(&sound_, middle * middle / 4);
  } else {
    sum.cash += kept * job_.keeps * sound_.mean;
  }
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

void Sums::add_put_right(Sum& sum, std::size_t cause, unsigned present, std::size_t turn) {
  const Chain& chain = courses_.chain(cause);
  const bool cured = turn < chain.steps.size();
  const double cover = states_.cover(cause);
  for (std::size_t i = 0; i < chain.steps.size() && i <= turn; ++i) {
    const Correction& correction = job_.corrections[chain.steps[i].correction];
    for (const Operation& operation : correction.operations) hours(sum, operation.hours, cover);
    for (const Part& part : correction.parts) add_part(sum, part, cover);
    for (const Consumable& consumable : correction.consumables)
      cash(sum, -(1 - cover) * consumable.qty, consumable.price);
    for (const Sublet& sublet : correction.sublets) cash(sum, -(1 - cover), sublet.price);
    if (cured) cash(sum, -(1 - job_.sale.rate), correction.takes_off);
  }
  if (cured)
    add_sound(sum, present);
  else
    add_found(sum, job_.causes[cause], present);
}

Sum Sums::made(std::size_t c, unsigned present, Course course, std::size_t turn) {
  Sum sum;
  hours_mean_ = 0;
  hours(sum, job_.opening_up.hours);
  cash(sum, -1, job_.opening_up.cash);
  const Cause& cause = job_.causes[c];
  switch (course) {
    case Course::put_right:
      add_put_right(sum, c, present, turn);
      break;
    case Course::as_found:
      add_found(sum, cause, present);
      break;
    case Course::part_out: {
      const PartOut& pieces = *part_out_of(job_, cause);
      cash(sum, 1, pieces.proceeds);
      cash(sum, -1, pieces.costs);
      hours(sum, pieces.hours);
      break;
    }
    case Course::scrap: {
      const Scrap& scrap = *scrap_of(job_, cause);
      cash(sum, 1, scrap.value);
      cash(sum, -1, scrap.costs);
      break;
    }
  }
  if (course == Course::put_right || course == Course::as_found) {
    cash(sum, -1, job_.sale.costs);
    days(sum, job_.sale.days);
  }
  if (!job_.shop.pace.is_constant()) {
    const double worth =
        hours_mean_ * (job_.shop.hour + 7 * job_.shop.holding_per_day / job_.shop.hours_per_week);
    moves(&job_.shop.pace, worth * worth * job_.shop.pace.variance());
  }
  return sum;
}

}  // namespace nonrunner::appraisal
