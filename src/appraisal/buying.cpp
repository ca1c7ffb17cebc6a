#include "appraisal/buying.h"

#include <algorithm>
#include <cmath>

#include "appraisal/highest_price.h"

namespace nonrunner::appraisal {

namespace {

constexpr double any_profit = -1e15;  // less than any: not asked for

double tolerance_at(double amount) { return 1e-9 * std::max(1.0, std::abs(amount)); }

bool same_choices(const Courses& a, const Courses& b) {
  const Job& job = a.job();
  for (std::size_t i = 0; i < job.faults.size(); ++i)
    if (a.fixes().choices[i].fix != b.fixes().choices[i].fix) return false;
  for (std::size_t c = 0; c < job.causes.size(); ++c)
    for (const Step& step : a.chain(c).steps)
      if (a.correction(c, step.correction).sources != b.correction(c, step.correction).sources) return false;
  return true;
}

}  // namespace

Buying::Buying(const Job& job, const SoundValue& sound, Draws& draws, std::vector<double> covers,
               std::vector<double> possible)
    : job_(job),
      sound_(sound),
      draws_(draws),
      covers_(std::move(covers)),
      possible_(std::move(possible)),
      masks_(std::size_t{1} << job.troubles.size()) {}

Buying::Model& Buying::model_at(double price) {
  if (!models_.empty() && job_.shop.money_rate == 0) return *models_.front();
  Courses courses(job_, sound_.mean, {price, covers_});
  for (const auto& model : models_)
    if (same_choices(model->courses, courses)) return *model;
  auto made = std::make_unique<Model>(Model{std::move(courses), {}});
  made->paths.resize(possible_.size());
  for (std::size_t s = 0; s < possible_.size(); ++s) {
    if (!(possible_[s] > 0)) continue;
    const std::size_t cause = s / masks_;
    const auto present = static_cast<unsigned>(s % masks_);
    for (const Path& path : made->courses.paths(cause, present)) {
      KnownPath known{path, made->courses.outcomes(cause, present, path),
                      made->courses.figures(cause, present, path)};
      known.cash = known.mean.cash - made->courses.opening_cash(cause);
      known.beside = known.mean.own_hours * job_.shop.hour + known.mean.days * job_.shop.bay_per_day;
      made->paths[s].push_back(std::move(known));
    }
  }
  models_.push_back(std::move(made));
  return *models_.back();
}

double Buying::loss_of(Model& model, std::size_t which, KnownPath& known, double payment) {
  if (known.tallies.empty()) tally(model, which, known);
  const double bound = payment - tolerance_at(payment);
  if (bound <= known.none_below) return 0;
  double loss = 0;
  for (std::size_t i = 0; i < known.outcomes.size(); ++i)
    loss += known.outcomes[i].chance * (bound > known.all_below ? 1 : known.tallies[i].share_below(bound));
  return loss;
}

void Buying::tally(Model& model, std::size_t which, KnownPath& known) {
  for (const PathOutcome& outcome : known.outcomes) {
    known.tallies.emplace_back(break_even_payments(
        draws_, job_,
        drawn(draws_, sound_, model.courses, {which / masks_, static_cast<unsigned>(which % masks_)},
              known.path, outcome)));
    const Tally& made = known.tallies.back();
    const bool first = known.tallies.size() == 1;
    known.none_below = first ? made.lowest() : std::min(known.none_below, made.lowest());
    known.all_below = first ? made.highest() : std::max(known.all_below, made.highest());
  }
}

// Where the most profitable path cannot lose, and no other has more margin, the others need not be drawn.
Menu Buying::with_losses(Model& model, std::size_t which, Menu menu, double payment) {
  if (!job_.aims[Aim::loss_chance]) return menu;
  menu[0].loss = loss_of(model, which, model.paths[which][menu[0].path], payment);
  const bool is_best = menu[0].loss == 0 && std::all_of(menu.begin(), menu.end(), [&](const Offering& o) {
                         return o.margin <= menu[0].margin;
                       });
  if (is_best) return {menu[0]};
  for (std::size_t i = 1; i < menu.size(); ++i)
    menu[i].loss = loss_of(model, which, model.paths[which][menu[i].path], payment);
  return menu;
}

// What every path of one case brings, nothing of it that another beats; `paid`: with all fees.
Menu Buying::menu_at(Model& model, std::size_t which, double payment, double paid) {
  std::vector<KnownPath>& paths = model.paths[which];
  Menu menu(paths.size());
  for (std::size_t k = 0; k < paths.size(); ++k) {
    const CourseFigures& f = paths[k].mean;
    const double cash = paths[k].cash - paid * (1 + job_.shop.money_rate * f.days / 365);
    menu[k] = {k, cash - paths[k].beside, 0, 0};
    if (job_.aims[Aim::per_hour]) menu[k].margin = cash - f.own_hours * *job_.aims[Aim::per_hour];
  }
  if (menu.empty()) return menu;
  // The most profitable first; of equal ones, but for rounding, the one that stands first.
  double most = menu.front().profit;
  for (const Offering& o : menu) most = std::max(most, o.profit);
  const auto first = std::find_if(menu.begin(), menu.end(),
                                  [&](const Offering& o) { return o.profit >= most - tolerance_at(most); });
  std::rotate(menu.begin(), first, first + 1);
  std::stable_sort(menu.begin() + 1, menu.end(),
                   [](const Offering& a, const Offering& b) { return a.profit > b.profit; });
  return undominated_menu(with_losses(model, which, std::move(menu), payment));
}

const Buying::Priced& Buying::at(double price) {
  auto& made = priced_[price];
  if (made) return *made;
  // Of many cases few prices: their menus are large.
  const std::size_t remembered = possible_.size() > many_cases ? 4 : 64;
  if (priced_.size() > remembered)
    std::erase_if(priced_, [&](const auto& each) { return each.first != price; });
  auto& priced = priced_[price];
  priced = std::make_unique<Priced>();
  priced->price = price;
  Model& model = model_at(price);
  const double payment = paid_at(job_.deal, price), paid = payment + job_.deal.fees.mean();
  priced->menus.reserve(possible_.size());
  for (std::size_t s = 0; s < possible_.size(); ++s)
    priced->menus.push_back(menu_at(model, s, payment, paid));
  priced->list.reserve(possible_.size());
  for (const Menu& menu : priced->menus) priced->list.push_back(&menu);
  return *priced;
}

Required Buying::required_by(const Aims& asked) const {
  return {asked[Aim::loss_chance], asked[Aim::per_hour].has_value(),
          tolerance_at(asked[Aim::per_hour].value_or(0)), false, smallest_coin(job_.currency) / 2};
}

Held Buying::held(const std::vector<double>& chances, double price, std::size_t sets_most) {
  double total = 0;
  for (const double chance : chances) total += chance;
  return best_that_holds(at(price).list, chances, required_by(job_.aims), job_.aims.profit() * total,
                         sets_most);
}

std::vector<std::vector<std::uint32_t>> Buying::family(const std::vector<double>& chances, double price) {
  return family_of(at(price).list, chances, required_by(job_.aims));
}

Buying::Found Buying::highest(const std::vector<double>& chances, const Aims& asked, double guess, bool far) {
  bool exact = true;
  Required required = required_by(asked);
  required.any = true;
  const double worth = asked[Aim::profit].value_or(any_profit);
  const auto holds = [&](double price) {
    const Held found = best_that_holds(at(price).list, chances, required, worth);
    exact = exact && found.exact;
    return found.holds && found.profit >= worth - tolerance_at(worth);
  };
  Found result{highest_price(job_, guess, holds, far), std::nullopt};
  if (!exact)
    result.at_most = highest_price(job_, result.price.value_or(guess), [&](double price) {
      const Held found = best_that_holds(at(price).list, chances, required, worth);
      return found.holds || (!found.exact && found.profit_at_most >= worth - tolerance_at(worth));
    });
  return result;
}

// What the policy that is best for one figure alone comes to in it.
double Buying::best_alone(const std::vector<double>& chances, double price, double Offering::*figure,
                          bool least) {
  double sum = 0;
  const Priced& priced = at(price);
  for (std::size_t s = 0; s < chances.size(); ++s) {
    if (chances[s] == 0) continue;
    double of_case = least ? 1 : -1e300;
    for (const Offering& o : priced.menus[s])
      of_case = least ? std::min(of_case, o.*figure) : std::max(of_case, o.*figure);
    sum += chances[s] * of_case;
  }
  return sum;
}

std::optional<double> Buying::limit_by(const std::vector<double>& chances, Aim aim) {
  const double asking = job_.deal.asking;
  const auto by_money = [&](double Offering::*figure, double least) {
    const auto best = [&](double price) { return best_alone(chances, price, figure, false); };
    const double guess = asking + (best(asking) - least) / (1 + job_.deal.rate);
    return highest_price(job_, guess,
                         [&](double price) { return best(price) >= least - tolerance_at(least); });
  };
  switch (aim) {
    case Aim::profit:
      return by_money(&Offering::profit, job_.aims.profit());
    case Aim::per_hour:
      return by_money(&Offering::margin, 0);
    case Aim::loss_chance:
      return highest_price(
          job_, asking,
          [&](double price) {
            return best_alone(chances, price, &Offering::loss, true) <=
                   *job_.aims[Aim::loss_chance] + chance_tolerance;
          },
          true);
  }
  return std::nullopt;
}

WalkAway Buying::walk_away(const std::vector<double>& chances) {
  WalkAway limits;
  const Aims& aims = job_.aims;
  double guess = 1e300;
  std::vector<const figures::AimRow*> asked;
  for (const figures::AimRow& row : figures::aims) {
    if (!aims[row.aim]) continue;
    asked.push_back(&row);
    limits.by[row.aim] = limit_by(chances, row.aim);
    guess = std::min(guess, limits.by[row.aim].value_or(row.aim == Aim::profit ? job_.deal.asking : guess));
  }
  const Found found = highest(chances, aims, guess, false);
  limits.price = found.price.value_or(guess);
  if (found.at_most && *found.at_most > limits.price) limits.at_most = found.at_most;
  if (asked.size() == 1) return limits;

  constexpr double any = 1e300;
  double most = limits.price;
  limits.binding = "together";
  for (const figures::AimRow* row : asked) {
    const double price = highest(chances, aims.without(row->aim), limits.price, true).price.value_or(any);
    if (price <= most) continue;
    most = price;
    limits.binding = row->key;
  }
  return limits;
}

double Buying::walk_away_price(const std::vector<double>& chances, double loss_most, double guess) {
  Aims asked = job_.aims;
  asked[Aim::loss_chance] = loss_most;
  return highest(chances, asked, guess, true).price.value_or(guess);
}

Policy Buying::policy(const std::vector<double>& chances, double price) {
  const Priced& priced = at(price);
  Model& model = model_at(price);
  const Held best = held(chances, price);
  Policy policy;
  policy.holds = best.holds;
  policy.price = price;
  policy.paths.resize(chances.size());
  for (std::size_t s = 0; s < chances.size(); ++s) {
    if (priced.menus[s].empty()) continue;
    const Offering& taken = priced.menus[s][best.holds ? best.picks[s] : 0];
    KnownPath& known = model.paths[s][taken.path];
    policy.paths[s] = known.path;
    policy.outlook.add(chances[s], known.mean, model.courses.opening_cash(s / masks_));
    if (chances[s] > 0)
      policy.loss_chance += chances[s] * loss_of(model, s, known, paid_at(job_.deal, price));
  }
  policy.cash_profit = cash_profit(job_, policy.outlook, price);
  policy.profit = profit(job_, policy.outlook, price);
  return policy;
}

Aim broken_by(const Job& job, const Policy& policy) {
  const auto breaks = [&](Aim aim, double asked) {
    switch (aim) {
      case Aim::profit:
        return policy.profit < asked;
      case Aim::loss_chance:
        return policy.loss_chance > asked;
      case Aim::per_hour:
        return policy.cash_profit < asked * policy.outlook.own_hours;
    }
    return false;
  };
  for (const figures::AimRow& row : figures::aims)
    if (job.aims[row.aim] && breaks(row.aim, *job.aims[row.aim])) return row.aim;
  return figures::aims.back().aim;
}

const Courses& Buying::courses(double price) { return model_at(price).courses; }

double Buying::hopeless_above() {
  std::vector<double> one(possible_.size(), 0.0);
  const Priced& priced = at(job_.deal.asking);
  double most = -1e300;
  for (const Menu& menu : priced.menus)
    if (!menu.empty()) most = std::max(most, menu.front().profit);
  return job_.deal.asking + std::max(0.0, (most - job_.aims.profit()) / (1 + job_.deal.rate)) + 1;
}

}  // namespace nonrunner::appraisal
