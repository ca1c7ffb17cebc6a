#include "appraisal/hold.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <limits>
#include <map>
#include <numeric>

namespace nonrunner::appraisal {

double priced(const Offering& o, const PricesOfAims& at) {
  return o.profit - at.loss * o.loss + at.margin * o.margin;
}

ByKept<std::optional<double>> bounds_on(const Required& required, double chance) {
  ByKept<std::optional<double>> bounds;
  auto& [loss, margin] = bounds;
  if (required.loss_most) loss = (*required.loss_most + chance_tolerance) * chance;
  if (required.margin) margin = -required.money_tolerance * chance;
  return bounds;
}

namespace {

constexpr int looks_most = 24;  // along one price; mostly few will do
// The cores that are looked through before all cases are, and how many of the sums: the most promising ones.
constexpr std::array<std::size_t, 2> core_sizes = {16, 32};
constexpr std::size_t core_width = 100;
constexpr double infinite = std::numeric_limits<double>::infinity();

struct Figures {
  double profit = 0, margin = 0, loss = 0;
};

struct Best {
  std::size_t at = 0;
  double worth = 0;
};

Best best_priced(const Menu& menu, const PricesOfAims& at) {
  Best best{0, priced(menu.front(), at)};
  for (std::size_t j = 1; j < menu.size(); ++j)
    if (const double worth = priced(menu[j], at); worth > best.worth) best = {j, worth};
  return best;
}

struct Bounds {
  double loss_cap, margin_floor, doubt;
  Bounds(const std::vector<double>& chances, const Required& required, double worth_asking) {
    const double total = std::accumulate(chances.begin(), chances.end(), 0.0);
    const auto [loss, margin] = bounds_on(required, total);
    loss_cap = loss.value_or(infinite);
    margin_floor = margin.value_or(-infinite);
    doubt = 1e-9 * std::clamp(std::abs(worth_asking), 1.0, 1e6);
  }
};

// What is free costs nothing, however wide its bound.
double left_over(const PricesOfAims& at, double loss_cap, double margin_floor) {
  return (at.loss > 0 ? at.loss * loss_cap : 0) - (at.margin > 0 ? at.margin * margin_floor : 0);
}

class Choosing {
 public:
  Choosing(const std::vector<Menu>& menus, const std::vector<double>& chances, const Required& required,
           double worth_asking)
      : menus_(menus), chances_(chances), required_(required), worth_asking_(worth_asking) {
    const Bounds bounds(chances, required, worth_asking);
    loss_cap_ = bounds.loss_cap;
    margin_floor_ = bounds.margin_floor;
    doubt_ = bounds.doubt;
    picks_.assign(menus.size(), 0);
    for (std::size_t s = 0; s < menus.size(); ++s) {
      if (chances[s] == 0) continue;
      if (menus[s].size() > 1)
        free_.push_back(s);
      else
        add(fixed_, chances[s], menus[s].front());
    }
  }

  PricesOfAims prices() {
    if (can_hold()) find_prices();
    return prices_;
  }

  Held run(std::size_t sets_most) {
    Held found = best(sets_most);
    if (found.holds && found.profit < worth_asking_ - doubt_) found.holds = false;
    return found;
  }

 private:
  Held best(std::size_t sets_most) {
    Figures first = fixed_;
    for (const std::size_t s : free_) add(first, chances_[s], menus_[s].front());
    if (first.profit < worth_asking_ - doubt_) return {};
    if (holds(first)) return {true, true, first.profit, first.profit, picks_};
    if (!can_hold()) return {};
    find_prices();
    if (bound_ < worth_asking_ - doubt_) return {};
    for (const std::size_t size : core_sizes) {
      if (free_.size() <= size || will_do()) break;
      look_through_core(size);
      raise_known();
    }
    if (!will_do()) {
      const std::size_t most =
          free_.size() > 200 ? sets_most / 4 : sets_most;  // few of the many come to an end
      if (!look_through(free_, fixed_, picks_, {most, {}}))
        return {known_ > -infinite, false, known_, std::max(bound_, known_), picks_};
      if (known_ == -infinite) return {};
    }
    return {true, true, known_, known_, picks_};
  }

  static void add(Figures& sum, double chance, const Offering& o) {
    sum.profit += chance * o.profit;
    sum.margin += chance * o.margin;
    sum.loss += chance * o.loss;
  }
  bool holds(const Figures& f) const { return f.loss <= loss_cap_ && f.margin >= margin_floor_; }

  // Whether looking on cannot change what is asked: what is known will do, or nothing will.
  bool is_settled() const {
    return (required_.any && known_ >= worth_asking_ - doubt_) || bound_ < worth_asking_ - doubt_;
  }

  bool will_do() const {
    const bool as_good = free_.size() > many_cases && bound_ - known_ <= required_.as_good;
    return known_ >= worth_asking_ - doubt_ && (required_.any || as_good);
  }

  // Each aim looked at alone.
  bool can_hold() const {
    Figures most = fixed_;
    for (const std::size_t s : free_) {
      double loss = infinite, margin = -infinite;
      for (const Offering& o : menus_[s]) loss = std::min(loss, o.loss), margin = std::max(margin, o.margin);
      most.loss += chances_[s] * loss;
      most.margin += chances_[s] * margin;
    }
    return holds(most);
  }

  // What the policy of these prices comes to; notes it where it holds and is the best so far.
  Figures try_prices(const PricesOfAims& at) {
    Figures sum = fixed_;
    double dual = priced({0, fixed_.profit, fixed_.margin, fixed_.loss}, at);
    chosen_.resize(free_.size());
    for (std::size_t i = 0; i < free_.size(); ++i) {
      const Menu& menu = menus_[free_[i]];
      const Best best = best_priced(menu, at);
      add(sum, chances_[free_[i]], menu[best.at]);
      dual += chances_[free_[i]] * best.worth;
      chosen_[i] = static_cast<std::uint32_t>(best.at);
    }
    dual += left_over(at, loss_cap_, margin_floor_);
    dual_ = dual;
    if (dual < bound_) {
      bound_ = dual;
      prices_ = at;
    }
    if (holds(sum) && sum.profit > known_) {
      known_ = sum.profit;
      for (std::size_t i = 0; i < free_.size(); ++i) picks_[free_[i]] = chosen_[i];
    }
    return sum;
  }

  // The bound at some prices and how it changes with each of them. It lies nowhere below such a plane, nor below a mean of two.
  struct Plane {
    double value = 0, by_loss = 0, by_margin = 0;
  };
  Plane look(const PricesOfAims& at) {
    const Figures sum = try_prices(at);
    return {dual_, loss_cap_ - sum.loss, sum.margin - margin_floor_};
  }

  struct Tangent {
    double price = 0, value = 0, slope = 0;
    double at(double other) const { return value + slope * (other - price); }
  };
  // Where two tangents meet the bound is lowest if it lies on them there; else it is looked at there. `low` falls and
  // `high` does not. It is in straight pieces, so that few looks will do.
  template <class Look>
  void find_lowest(Tangent& low, Tangent& high, Look look) const {
    for (int i = 0; i < looks_most && !is_settled(); ++i) {
      const double met = (high.at(0) - low.at(0)) / (low.slope - high.slope);
      if (!(met > low.price && met < high.price)) return;
      const double value = low.at(met);
      const Tangent there = look(met);
      if (there.value <= value + 1e-12 * std::max(1.0, std::abs(value))) return;
      (there.slope < 0 ? low : high) = there;
    }
  }
  // From a tangent that falls to where the bound is lowest, between the two that are left then; `first` is where to look for
  // one that does not fall. False: there is none.
  template <class Look>
  bool find_lowest_from(Tangent& low, Tangent& high, double first, Look look) const {
    high = look(first);
    for (int i = 0; i < 40 && high.slope < 0 && !is_settled(); ++i) {
      low = high;
      high = look(4 * low.price);
    }
    if (high.slope < 0) return false;
    find_lowest(low, high, look);
    return true;
  }

  // The bound at a price of loss where the price of margin beside it makes it lowest.
  Tangent with_margin(double loss_price) {
    Plane of_low, of_high, last;
    const auto along = [&](double price) {
      last = look({loss_price, price});
      (last.by_margin < 0 ? of_low : of_high) = last;
      return Tangent{price, last.value, last.by_margin};
    };
    Tangent low = along(0), high;
    if (!required_.margin || low.slope >= 0) return {loss_price, last.value, last.by_loss};
    const bool met = find_lowest_from(low, high, margin_first_, along);
    if (!met) return {loss_price, last.value, last.by_loss};
    margin_first_ = high.price;
    // Of the two planes that meet there the mean that does not change with the price of margin.
    const double share = high.slope / (high.slope - low.slope);
    return {loss_price, share * low.at(0) + (1 - share) * high.at(0),
            share * of_low.by_loss + (1 - share) * of_high.by_loss};
  }

  void find_prices() {
    Tangent low = with_margin(0), high;
    if (required_.loss_most && low.slope < 0)
      find_lowest_from(low, high, 64, [&](double price) { return with_margin(price); });
  }

  struct Partial {
    Figures sum;
    std::uint32_t before = 0, choice = 0;
    double at_most = 0;  // no policy that begins so brings more
  };

  // The most profitable first; keeps what no earlier one beats.
  std::vector<Partial> unbeaten(std::vector<Partial>& all) const {
    std::sort(all.begin(), all.end(), [](const Partial& a, const Partial& b) {
      if (a.sum.profit != b.sum.profit) return a.sum.profit > b.sum.profit;
      if (a.sum.loss != b.sum.loss) return a.sum.loss < b.sum.loss;
      return a.sum.margin > b.sum.margin;
    });
    std::vector<Partial> kept;
    std::map<double, double> best;  // loss -> the most margin with at most so much loss; both rise
    for (const Partial& each : all) {
      const double margin = required_.margin ? each.sum.margin : 0;
      auto above = best.upper_bound(each.sum.loss);
      if (above != best.begin() && std::prev(above)->second >= margin) continue;
      while (above != best.end() && above->second <= margin) above = best.erase(above);
      best.insert_or_assign(each.sum.loss, margin);
      kept.push_back(each);
    }
    return kept;
  }

  struct Room {
    std::size_t sets_most;
    std::optional<std::size_t> width;  // so many sums of each case, those that promise most
  };
  // The sums over these cases beside what the others come to with their picks; notes the best that holds. False: they were
  // too many.
  bool look_through(std::vector<std::size_t> cases, const Figures& others,
                    const std::vector<std::uint32_t>& picks, const Room& room) {
    order_by_weight(cases);
    const std::size_t n = cases.size();
    std::vector<Figures> rest(n + 1);
    std::vector<double> rest_priced(n + 1, 0.0);
    for (std::size_t i = n; i-- > 0;) {
      double loss = infinite, margin = -infinite, worth = -infinite;
      for (const Offering& o : menus_[cases[i]]) {
        loss = std::min(loss, o.loss);
        margin = std::max(margin, o.margin);
        worth = std::max(worth, priced(o, prices_));
      }
      const double chance = chances_[cases[i]];
      rest[i] = {0, rest[i + 1].margin + chance * margin, rest[i + 1].loss + chance * loss};
      rest_priced[i] = rest_priced[i + 1] + chance * worth;
    }
    const double slack = left_over(prices_, loss_cap_, margin_floor_);
    const double needed = std::max(known_, worth_asking_) - doubt_;
    std::vector<std::vector<Partial>> lists = {{{others, 0, 0, 0}}};
    std::size_t kept = 0;
    for (std::size_t i = 0; i < n; ++i) {
      std::vector<Partial> grown;
      const Menu& menu = menus_[cases[i]];
      for (std::size_t k = 0; k < lists[i].size(); ++k)
        for (std::size_t j = 0; j < menu.size(); ++j) {
          Partial next{lists[i][k].sum, static_cast<std::uint32_t>(k), static_cast<std::uint32_t>(j), 0};
          add(next.sum, chances_[cases[i]], menu[j]);
          if (next.sum.loss + rest[i + 1].loss > loss_cap_ ||
              next.sum.margin + rest[i + 1].margin < margin_floor_)
            continue;
          next.at_most = priced({0, next.sum.profit, next.sum.margin, next.sum.loss}, prices_) +
                         rest_priced[i + 1] + slack;
          if (next.at_most >= needed) grown.push_back(next);
        }
      if (room.width && grown.size() > *room.width) {
        const auto end = grown.begin() + static_cast<std::ptrdiff_t>(*room.width);
        std::ranges::nth_element(grown, end, std::greater(), &Partial::at_most);
        grown.erase(end, grown.end());
      }
      lists.push_back(unbeaten(grown));
      kept += lists.back().size();
      if (kept > room.sets_most) return false;
    }
    if (lists.back().empty() || lists.back().front().sum.profit < known_ - doubt_) return true;
    const Partial* at = &lists.back().front();
    known_ = at->sum.profit;
    picks_ = picks;
    for (std::size_t i = n; i-- > 0; at = &lists[i][at->before]) picks_[cases[i]] = at->choice;
    return true;
  }

  // At the prices that make the bound lowest nearly every case is settled: only where two paths are worth nearly the same
  // there is something to look through (the core of a knapsack: E. Balas and E. Zemel, Operations Research 28 (1980)
  // 1130-1154, from memory).
  void look_through_core(std::size_t size) {
    std::vector<std::uint32_t> picks(menus_.size(), 0);
    std::vector<double> ahead(menus_.size(), 0.0);
    for (const std::size_t s : free_) {
      const Best best = best_priced(menus_[s], prices_);
      double next = -infinite;
      for (std::size_t j = 0; j < menus_[s].size(); ++j)
        if (j != best.at) next = std::max(next, priced(menus_[s][j], prices_));
      picks[s] = static_cast<std::uint32_t>(best.at);
      ahead[s] = best.worth - next;
    }
    std::vector<std::size_t> core = free_;
    std::ranges::stable_sort(core, {}, [&](std::size_t s) { return ahead[s]; });
    Figures others = fixed_;
    for (std::size_t i = size; i < core.size(); ++i)
      add(others, chances_[core[i]], menus_[core[i]][picks[core[i]]]);
    core.resize(size);
    look_through(std::move(core), others, picks, {size * core_width, core_width});
  }

  // Case by case from the best policy known to what brings more and still holds.
  void raise_known() {
    if (known_ == -infinite) return;
    const auto sum_of = [&](const std::vector<std::uint32_t>& picks) {
      Figures sum = fixed_;
      for (const std::size_t s : free_) add(sum, chances_[s], menus_[s][picks[s]]);
      return sum;
    };
    std::vector<std::uint32_t> picks = picks_;
    Figures sum = sum_of(picks);
    for (const std::size_t s : free_) {
      Figures others = sum;
      add(others, -chances_[s], menus_[s][picks[s]]);
      for (std::uint32_t j = 0; j < picks[s]; ++j) {
        Figures with = others;
        add(with, chances_[s], menus_[s][j]);
        if (!holds(with)) continue;
        picks[s] = j;
        sum = with;
      }
    }
    sum = sum_of(picks);
    if (!holds(sum) || sum.profit <= known_) return;
    known_ = sum.profit;
    picks_ = std::move(picks);
  }

  // What moves most first, so that hopeless sums are dropped early; equal ones as they stand.
  void order_by_weight(std::vector<std::size_t>& cases) const {
    std::vector<double> weight(menus_.size(), 0.0);
    for (const std::size_t s : cases) {
      double low = infinite;
      for (const Offering& o : menus_[s]) low = std::min(low, o.profit);
      weight[s] = chances_[s] * (menus_[s].front().profit - low);
    }
    std::ranges::stable_sort(cases, std::greater(), [&](std::size_t s) { return weight[s]; });
  }

  const std::vector<Menu>& menus_;
  const std::vector<double>& chances_;
  const Required& required_;
  double worth_asking_, loss_cap_, margin_floor_, doubt_;
  std::vector<std::size_t> free_;  // the cases in which there is something to choose
  Figures fixed_;                  // what the others come to
  PricesOfAims prices_;
  double bound_ = infinite, known_ = -infinite, dual_ = 0;  // dual: the bound by the prices tried last
  double margin_first_ = 1;                                 // a price of margin at which to begin to look
  std::vector<std::uint32_t> picks_, chosen_;
};

}  // namespace

double left_by_bounds(const PricesOfAims& at, const Required& required, double chance) {
  const auto [loss, margin] = bounds_on(required, chance);
  return left_over(at, loss.value_or(0), margin.value_or(0));
}

std::size_t undominated(std::span<Offering> menu) {
  std::size_t kept = 0;
  for (std::size_t i = 0; i < menu.size(); ++i) {
    const Offering o = menu[i];
    const bool beaten = std::any_of(
        menu.begin(), menu.begin() + static_cast<std::ptrdiff_t>(kept),
        [&](const Offering& k) { return k.profit >= o.profit && k.margin >= o.margin && k.loss <= o.loss; });
    if (!beaten) menu[kept++] = o;
  }
  return kept;
}

std::optional<Held> held_by_firsts(const std::vector<Offering>& firsts, const std::vector<double>& chances,
                                   const Required& required, double worth_asking) {
  const Bounds bounds(chances, required, worth_asking);
  Figures sum;
  for (std::size_t s = 0; s < chances.size(); ++s) {
    if (chances[s] == 0) continue;
    sum.profit += chances[s] * firsts[s].profit;
    sum.margin += chances[s] * firsts[s].margin;
    sum.loss += chances[s] * firsts[s].loss;
  }
  if (sum.profit < worth_asking - bounds.doubt) return Held{};
  if (sum.loss > bounds.loss_cap || sum.margin < bounds.margin_floor) return std::nullopt;
  return Held{true, true, sum.profit, sum.profit, std::vector<std::uint32_t>(chances.size(), 0)};
}

Held best_that_holds(const std::vector<Menu>& menus, const std::vector<double>& chances,
                     const Required& required, double worth_asking, std::size_t sets_most) {
  return Choosing(menus, chances, required, worth_asking).run(sets_most);
}

PricesOfAims prices_of_aims(const std::vector<Menu>& menus, const std::vector<double>& chances,
                            const Required& required) {
  return Choosing(menus, chances, required, -1e15).prices();
}

std::vector<std::vector<std::uint32_t>> family_of(const std::vector<Menu>& menus, const PricesOfAims& found,
                                                  const Required& required) {
  const PricesOfAims at{found.loss > 0 ? found.loss : 1000, found.margin > 0 ? found.margin : 1};
  std::vector<std::vector<std::uint32_t>> all;
  for (const double times : {0.0, 0.1, 0.3, 0.6, 1.0, 1.6, 3.0, 10.0, 1e6})
    for (const bool both : {false, true}) {
      if (both && (!required.margin || times == 0)) continue;
      const PricesOfAims prices{required.loss_most ? at.loss * times : 0, both ? at.margin * times : 0};
      std::vector<std::uint32_t> picks;
      for (const Menu& menu : menus)
        picks.push_back(static_cast<std::uint32_t>(best_priced(menu, prices).at));
      all.push_back(std::move(picks));
    }
  return all;
}

}  // namespace nonrunner::appraisal
