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
    : job_(courses.job()), sound_(sound), courses_(courses) {
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
    const std::size_t cause = state / states.masks;
    if (state % states.masks == 0) own_.clear();
    if (!(chances[state] > 0)) continue;
    const Course course = states.best[state].course;
    const Chain& chain = courses.chain(cause);
    const std::size_t turns =
        course == Course::put_right ? chain.steps.size() + (chain.fails > 0 ? 1 : 0) : 1;
    for (std::size_t turn = 0; turn < turns; ++turn) {
      sum_of_[state * turns_ + turn] = sums_.size();
      sums_.push_back(made(cause, static_cast<unsigned>(state % states.masks), course, turn));
    }
  }
  if (coordinates_ > SobolStream::dimensions_max)
    throw Refusal(fmt::format(
        "{}: the job has {} uncertain amounts for one cause, expected at most {}; give the smaller ones as "
        "plain numbers",
        job_.vehicle.tag, coordinates_, SobolStream::dimensions_max));
}

void Sums::place(const Amount& amount) {
  if (!amount.is_constant()) common_.emplace(&amount, coordinates_++);
}

void Sums::place_common() {
  place(job_.shop.pace);
  if (sound_table_) common_.emplace(&sound_, coordinates_++);
  place(job_.sale.days);
  place(job_.opening_up.hours);
  for (std::size_t i = 0; i < job_.faults.size(); ++i) {
    const auto fix = courses_.fixes().choices[i].fix;
    if (!fix || job_.faults[i].fixes[*fix].restores < 1) place(job_.faults[i].takes_off);
    if (!fix) continue;
    place(job_.faults[i].fixes[*fix].hours);
    place(job_.faults[i].fixes[*fix].cash);
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

std::size_t Sums::coordinate_of(const void* what) {
  const auto common = common_.find(what);
  if (common != common_.end()) return common->second;
  const std::size_t next = common_end_ + own_.size();
  const auto [own, fresh] = own_.try_emplace(what, next);
  if (fresh) coordinates_ = std::max(coordinates_, next + 1);
  return own->second;
}

const QuantileTable* Sums::table_of(const Amount& amount) {
  auto& made = table_of_[&amount];
  if (!made) {
    tables_.push_back(std::make_unique<QuantileTable>(amount));
    made = tables_.back().get();
  }
  return made;
}

std::optional<Term> Sums::term_of(const Amount& amount) {
  if (amount.is_constant()) return std::nullopt;
  return Term{table_of(amount), coordinate_of(&amount), 1};
}

void Sums::add(double& constant, std::vector<Term>& terms, double weight, const Amount& amount) {
  if (weight == 0) return;
  if (amount.is_constant())
    constant += weight * amount.low;
  else
    terms.push_back({table_of(amount), coordinate_of(&amount), weight});
}

void Sums::add_part(Sum& sum, const Part& part) {
  const Source source = choose_source(part, job_.shop).source;
  cash(sum, -part.qty, *part.price[static_cast<std::size_t>(source)]);
  if (source != Source::salvage) return;
  hours(sum, part.pull_hours);
  if (part.bad == 0) return;
  const Amount& again = price_again(part);
  Coin coin{coordinate_of(&part.bad), of_two_to_the_32(part.bad), 0, std::nullopt};
  if (again.is_constant())
    coin.constant = -part.qty * again.low;
  else
    coin.amount = Term{table_of(again), coordinate_of(&again), -part.qty};
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
  if (sound_table_)
    sum.cash_terms.push_back({sound_table_, coordinate_of(&sound_), kept * job_.keeps});
  else
    sum.cash += kept * job_.keeps * sound_.mean;
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
  for (std::size_t i = 0; i < chain.steps.size() && i <= turn; ++i) {
    const Correction& correction = job_.corrections[chain.steps[i].correction];
    for (const Operation& operation : correction.operations) hours(sum, operation.hours);
    for (const Part& part : correction.parts) add_part(sum, part);
    for (const Consumable& consumable : correction.consumables) cash(sum, -consumable.qty, consumable.price);
    for (const Sublet& sublet : correction.sublets) cash(sum, -1, sublet.price);
    if (cured) cash(sum, -(1 - job_.sale.rate), correction.takes_off);
  }
  if (cured)
    add_sound(sum, present);
  else
    add_found(sum, job_.causes[cause], present);
}

Sum Sums::made(std::size_t c, unsigned present, Course course, std::size_t turn) {
  Sum sum;
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
      return sum;
    }
    case Course::scrap: {
      const Scrap& scrap = *scrap_of(job_, cause);
      cash(sum, 1, scrap.value);
      cash(sum, -1, scrap.costs);
      return sum;
    }
  }
  cash(sum, -1, job_.sale.costs);
  days(sum, job_.sale.days);
  return sum;
}

}  // namespace nonrunner::appraisal
