#include "appraisal/buying.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "appraisal/highest_price.h"

namespace nonrunner::appraisal {

namespace {

constexpr double any_profit = -1e15;  // less than any: not asked for

// So that the stretch of a case does not go by a single trouble: multiplicative hashing (D. E. Knuth, The Art of Computer
// Programming 3, 2nd ed. 1998, section 6.4; from memory). The cause has no part in it: their order changes nothing.
std::size_t mixed(unsigned present) { return (present * 2654435769u & 0xffffffffu) >> 16; }

// What is done where nothing cures.
Course otherwise(const Path& path) {
  return path.course == Course::put_right ? path.if_all_fail : path.course;
}

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
      points_(job, possible_, draws.points()),
      masks_(std::size_t{1} << job.troubles.size()) {}

Buying::Model& Buying::model_at(double price) {
  if (!models_.empty() && job_.shop.money_rate == 0) return *models_.front();
  Courses courses(job_, sound_.mean, {price, covers_});
  for (const auto& model : models_)
    if (same_choices(model->courses, courses)) return *model;
  models_.push_back(made_model(std::move(courses)));
  return *models_.back();
}

std::unique_ptr<Buying::Model> Buying::made_model(Courses courses) {
  auto made = std::make_unique<Model>(Model{std::move(courses), {}, {}, {}, {}, {}, {}, {}, {}, {}, {}});
  std::size_t slots = 0;
  for (std::size_t c = 0; c < job_.causes.size(); ++c) {
    const std::size_t steps = made->courses.chain(c).steps.size();
    made->slots_begin.push_back(slots);
    slots += steps + (steps + 1) * all_courses.size();
  }
  made->slots.resize(slots);
  make_room(*made);
  for (std::size_t s = 0; s < possible_.size(); ++s) {
    made->paths_begin.push_back(made->paths.size());
    if (!is_possible(s)) continue;
    for (const Path& path : made->courses.paths(s / masks_, static_cast<unsigned>(s % masks_)))
      add_path(*made, s, path);
  }
  made->paths_begin.push_back(made->paths.size());
  return made;
}

// For as many as there are at the most, so that nothing is moved while they are added: no more where a trouble is there
// than where none is.
void Buying::make_room(Model& model) const {
  std::size_t paths = 0;
  for (std::size_t c = 0; c < job_.causes.size(); ++c) {
    const auto begin = possible_.begin() + static_cast<std::ptrdiff_t>(c * masks_);
    const auto cases = std::count_if(begin, begin + static_cast<std::ptrdiff_t>(masks_),
                                     [](double chance) { return chance > 0; });
    paths += static_cast<std::size_t>(cases) * model.courses.paths(c, 0).size();
  }
  model.paths.reserve(paths);
  model.whole.reserve(paths);
}

void Buying::add_path(Model& model, std::size_t which, const Path& path) {
  const std::size_t cause = which / masks_;
  const auto present = static_cast<unsigned>(which % masks_);
  KnownPath known;
  known.turns_begin = static_cast<std::uint32_t>(model.turns.size());
  model.courses.outcomes(cause, present, path, outcomes_);
  const CourseFigures mean = model.courses.mean_of(cause, outcomes_);
  for (const PathOutcome& outcome : outcomes_)
    model.turns.push_back({outcome.chance, tallied_at(model, which, path, outcome)});
  known.turns_end = static_cast<std::uint32_t>(model.turns.size());
  known.cash = mean.cash - model.courses.opening_cash(cause);
  known.beside = mean.own_hours * job_.shop.hour + mean.days * job_.shop.bay_per_day;
  known.own_hours = mean.own_hours;
  known.days = mean.days;
  model.paths.push_back(known);
  model.whole.push_back({path, mean});
}

std::size_t Buying::slot_of(const Model& model, std::size_t cause, const Path& path,
                            const PathOutcome& outcome) {
  const std::size_t steps = model.courses.chain(cause).steps.size();
  return model.slots_begin[cause] + (outcome.cured ? outcome.made - 1
                                                   : steps + outcome.made * all_courses.size() +
                                                         static_cast<std::size_t>(otherwise(path)));
}

bool Buying::feels_troubles(std::size_t cause, const Path& path, const PathOutcome& outcome) const {
  return masks_ > 1 && (outcome.cured || (otherwise(path) == Course::as_found && job_.causes[cause].found));
}

// Ways that differ in nothing drawn are one: what follows a correction that failed does not know how far the
// path would have gone, and pieces and scrap fetch the same whatever the troubles.
std::uint32_t Buying::tallied_at(Model& model, std::size_t which, const Path& path,
                                 const PathOutcome& outcome) {
  const std::size_t cause = which / masks_;
  const auto present = static_cast<unsigned>(which % masks_);
  const std::size_t slot = slot_of(model, cause, path, outcome);
  const bool feels = feels_troubles(cause, path, outcome);
  Slot& of = model.slots[slot];
  std::uint32_t& at = of.last;
  if (at != none && (!feels || model.tallied[at].present == present)) return at;
  if (at == none) {
    of.path = path;
    of.outcome = {1, outcome.made, outcome.cured, {}};
  }
  at = static_cast<std::uint32_t>(model.tallied.size());
  model.tallied.push_back(
      {static_cast<std::uint32_t>(cause), present, static_cast<std::uint32_t>(slot), none, feels});
  model.shares.emplace_back();
  return at;
}

const Drawn& Buying::of_troubles(unsigned present, bool cured) {
  std::vector<std::optional<Drawn>>& known = of_troubles_[cured];
  known.resize(masks_);
  if (!known[present]) known[present] = drawn_troubles(draws_, job_, present, cured);
  return *known[present];
}

const Drawn& Buying::plain_of(Model& model, std::size_t at, std::size_t cause) {
  Slot& slot = model.slots[at];
  if (!slot.plain) slot.plain = drawn(draws_, sound_, model.courses, cause, slot.path, slot.outcome);
  return *slot.plain;
}

Buying::Ways Buying::ways(double price) { return Ways(*this, model_at(price)); }

Buying::Ways::Way Buying::Ways::of(std::size_t cause, unsigned present, const Path& path,
                                   const PathOutcome& outcome) {
  const Drawn& plain = buying_.plain_of(model_, slot_of(model_, cause, path, outcome), cause);
  const bool feels = present != 0 && buying_.feels_troubles(cause, path, outcome);
  return {plain, feels ? &buying_.of_troubles(present, outcome.cured) : nullptr};
}

const Tally& Buying::tally(Model& model, Tallied& of) {
  if (of.payments != none) return model.payments[of.payments];
  const Drawn& plain = plain_of(model, of.slot, of.cause);
  const bool feels = of.feels_troubles && of.present != 0;
  const Drawn* more = feels ? &of_troubles(of.present, model.slots[of.slot].outcome.cured) : nullptr;
  const Stretch points =
      feels ? points_.of(possible_[of.cause * masks_ + of.present], mixed(of.present)) : points_.of_all();
  of.payments = static_cast<std::uint32_t>(model.payments.size());
  return model.payments.emplace_back(break_even_payments(draws_, job_, plain, more, points));
}

double Buying::share_below(Model& model, std::size_t tallied, double bound) {
  Tally::Share& share = model.shares[tallied];
  if (!(bound > share.from && bound <= share.to))
    share = tally(model, model.tallied[tallied]).share_below(bound);
  return share.below;
}

double Buying::loss_of(Model& model, const KnownPath& known, double payment) {
  const double bound = payment - tolerance_at(payment);
  double loss = 0;
  for (std::size_t i = known.turns_begin; i < known.turns_end; ++i)
    loss += model.turns[i].chance * share_below(model, model.turns[i].tallied, bound);
  return loss;
}

Offering Buying::offering(const Model& model, std::size_t which, std::size_t path, double paid) const {
  const KnownPath& known = model.paths[model.paths_begin[which] + path];
  const double cash = known.cash - paid * (1 + job_.shop.money_rate * known.days / 365);
  Offering o{path, cash - known.beside, 0, 0};
  if (job_.aims[Aim::per_hour]) o.margin = cash - known.own_hours * *job_.aims[Aim::per_hour];
  return o;
}

// The most profitable first; of equal ones, but for rounding, the one that stands first.
void Buying::put_in_order(const Model& model, std::size_t which, double paid, std::uint32_t* order) const {
  const std::size_t n = model.paths_begin[which + 1] - model.paths_begin[which];
  if (n == 0) return;
  const auto profit = [&](std::size_t path) { return offering(model, which, path, paid).profit; };
  for (std::size_t k = 0; k < n; ++k) order[k] = static_cast<std::uint32_t>(k);
  double most = profit(0);
  for (std::size_t k = 1; k < n; ++k) most = std::max(most, profit(k));
  std::uint32_t* first =
      std::find_if(order, order + n, [&](std::uint32_t k) { return profit(k) >= most - tolerance_at(most); });
  std::rotate(order, first, first + 1);
  std::stable_sort(order + 1, order + n,
                   [&](std::uint32_t a, std::uint32_t b) { return profit(a) > profit(b); });
}

// Without interest a price takes the same off every path.
const std::uint32_t* Buying::ordered(Model& model, std::size_t which, double paid) {
  if (job_.shop.money_rate > 0) {
    order_.resize(model.paths_begin[which + 1] - model.paths_begin[which]);
    put_in_order(model, which, paid, order_.data());
    return order_.data();
  }
  if (model.order.empty()) {
    model.order.resize(model.paths.size());
    for (std::size_t s = 0; s < possible_.size(); ++s)
      put_in_order(model, s, paid, model.order.data() + model.paths_begin[s]);
  }
  return model.order.data() + model.paths_begin[which];
}

Buying::Priced& Buying::priced_at(double price) {
  auto& made = priced_[price];
  if (made) return *made;
  // Of many cases few prices: their menus are large.
  const std::size_t remembered = possible_.size() > many_cases ? 4 : 64;
  if (priced_.size() > remembered) {
    for (auto& each : priced_)
      if (each.second) rooms_.push_back(std::move(each.second));
    std::erase_if(priced_, [&](const auto& each) { return each.first != price; });
  }
  auto& priced = priced_[price];
  if (rooms_.empty()) {
    priced = std::make_unique<Priced>();
  } else {
    priced = std::move(rooms_.back());
    rooms_.pop_back();
  }
  priced->has_losses = false;
  priced->menus.clear();
  priced->price = price;
  priced->payment = paid_at(job_.deal, price);
  priced->paid = priced->payment + job_.deal.fees.mean();
  Model& model = model_at(price);
  priced->firsts.resize(possible_.size());
  for (std::size_t s = 0; s < possible_.size(); ++s)
    if (is_possible(s))
      priced->firsts[s] = offering(model, s, *ordered(model, s, priced->paid), priced->paid);
  return *priced;
}

const std::vector<Offering>& Buying::firsts(double price) {
  Priced& priced = priced_at(price);
  if (priced.has_losses || !job_.aims[Aim::loss_chance]) return priced.firsts;
  priced.has_losses = true;
  Model& model = model_at(price);
  for (std::size_t s = 0; s < possible_.size(); ++s)
    if (is_possible(s))
      priced.firsts[s].loss =
          loss_of(model, model.paths[model.paths_begin[s] + priced.firsts[s].path], priced.payment);
  return priced.firsts;
}

const std::vector<Menu>& Buying::menus(double price) {
  firsts(price);
  Priced& priced = priced_at(price);
  if (!priced.menus.empty()) return priced.menus;
  Model& model = model_at(price);
  priced.all.resize(model.paths.size());
  priced.menus.resize(possible_.size());
  for (std::size_t s = 0; s < possible_.size(); ++s) {
    if (!is_possible(s)) continue;
    Offering* begin = priced.all.data() + model.paths_begin[s];
    priced.menus[s] = Menu(begin, fill_menu(model, s, priced, begin));
  }
  return priced.menus;
}

// Where the most profitable path cannot lose, and no other has more margin, the others need not be drawn.
std::size_t Buying::fill_menu(Model& model, std::size_t which, const Priced& priced, Offering* into) {
  const std::size_t n = model.paths_begin[which + 1] - model.paths_begin[which];
  const std::uint32_t* order = ordered(model, which, priced.paid);
  into[0] = priced.firsts[which];
  bool is_best = into[0].loss == 0;
  for (std::size_t k = 1; k < n; ++k) {
    into[k] = offering(model, which, order[k], priced.paid);
    is_best = is_best && into[k].margin <= into[0].margin;
  }
  if (is_best) return 1;
  if (job_.aims[Aim::loss_chance])
    for (std::size_t k = 1; k < n; ++k)
      into[k].loss = loss_of(model, model.paths[model.paths_begin[which] + into[k].path], priced.payment);
  return undominated({into, n});
}

Required required_by(const Job& job, const Aims& asked) {
  return {asked[Aim::loss_chance], asked[Aim::per_hour].has_value(),
          tolerance_at(asked[Aim::per_hour].value_or(0)), false, smallest_coin(job.currency) / 2};
}

Held Buying::held(const std::vector<double>& chances, double price, double more) {
  double total = 0;
  for (const double chance : chances) total += chance;
  const double worth_asking = job_.aims.profit() * total + more;
  const Required required = required_by(job_, job_.aims);
  if (const auto first = held_by_firsts(firsts(price), chances, required, worth_asking)) return *first;
  return best_that_holds(menus(price), chances, required, worth_asking);
}

const PricesOfAims& Buying::prices_of_aims() {
  if (!prices_of_aims_)
    prices_of_aims_ = appraisal::prices_of_aims(menus(limit_.value_or(job_.deal.asking)), possible_,
                                                required_by(job_, job_.aims));
  return *prices_of_aims_;
}

std::vector<std::vector<std::uint32_t>> Buying::family(double price) {
  const PricesOfAims& at = prices_of_aims();
  return family_of(menus(price), at, required_by(job_, job_.aims));
}

bool Buying::holds(const std::vector<double>& chances, const Aims& asked, double price, bool& exact) {
  Required required = required_by(job_, asked);
  required.any = true;
  const double worth = asked[Aim::profit].value_or(any_profit);
  auto found = held_by_firsts(firsts(price), chances, required, worth);
  if (!found) found = best_that_holds(menus(price), chances, required, worth);
  exact = found->exact;
  return found->holds && found->profit >= worth - tolerance_at(worth);
}

Buying::Found Buying::highest(const std::vector<double>& chances, const Aims& asked, double at_most) {
  bool exact = true;
  const auto holds_at = [&](double price) {
    bool was_exact = true;
    const bool held = holds(chances, asked, price, was_exact);
    exact = exact && was_exact;
    return held;
  };
  Found result;
  if (holds_at(at_most)) return {at_most, std::nullopt};
  result.price = highest_price(
      job_, at_most, [&](double price) { return price < at_most && holds_at(price); }, true);
  if (exact) return result;
  Required required = required_by(job_, asked);
  required.any = true;
  const double worth = asked[Aim::profit].value_or(any_profit);
  result.at_most = highest_price(job_, result.price.value_or(at_most), [&](double price) {
    if (price > at_most) return false;
    const Held found = best_that_holds(menus(price), chances, required, worth);
    return found.holds || (!found.exact && found.profit_at_most >= worth - tolerance_at(worth));
  });
  return result;
}

// What the policy that is best for one aim of money alone comes to in what it asks.
double Buying::best_alone(const std::vector<double>& chances, double price, Aim aim) {
  const Priced& priced = priced_at(price);
  Model& model = model_at(price);
  double sum = 0;
  for (std::size_t s = 0; s < chances.size(); ++s) {
    if (chances[s] == 0) continue;
    const std::size_t begin = model.paths_begin[s], end = model.paths_begin[s + 1];
    double of_case = aim == Aim::profit ? priced.firsts[s].profit : -1e300;
    if (aim == Aim::per_hour)
      for (std::size_t k = begin; k < end; ++k)
        of_case = std::max(of_case, offering(model, s, k - begin, priced.paid).margin);
    sum += chances[s] * of_case;
  }
  return sum;
}

std::optional<double> Buying::limit_by(const std::vector<double>& chances, Aim aim, double guess) {
  const double asking = job_.deal.asking;
  const auto by_money = [&](double least, double doubt) {
    const double about = asking + (best_alone(chances, asking, aim) - least) / (1 + job_.deal.rate);
    return highest_price(job_, about,
                         [&](double price) { return best_alone(chances, price, aim) >= least - doubt; });
  };
  switch (aim) {
    case Aim::profit:
      return by_money(job_.aims.profit(), tolerance_at(job_.aims.profit()));
    case Aim::per_hour:
      return by_money(0, tolerance_at(job_.aims[Aim::per_hour].value_or(0)));
    case Aim::loss_chance:
      return limit_by_loss(chances, guess);
  }
  return std::nullopt;
}

double Buying::least_loss(Model& model, Open& of, double payment) {
  const KnownPath* paths = &model.paths[model.paths_begin[of.which]];
  const std::size_t n = model.paths_begin[of.which + 1] - model.paths_begin[of.which];
  double least = loss_of(model, paths[of.path], payment);
  for (std::size_t k = 0; k < n && least > of.low; ++k) {
    const double loss = loss_of(model, paths[k], payment);
    if (loss >= least) continue;
    least = loss;
    of.path = k;
  }
  return least;
}

// A case is known at a price, or lies between what it was at the prices looked at on either side, since its chance of a
// loss never falls with the price. The likeliest are asked first (by halves of a chance: neighbours stand together), and no
// more of them than decide whether the aim holds; where it fails first as many as where it held last, so that both sides
// close in. Of a case the path that lost least before is asked first: no other can be better than what was known below.
std::optional<double> Buying::limit_by_loss(const std::vector<double>& chances, double guess) {
  std::vector<Open> open;
  for (std::size_t s = 0; s < chances.size(); ++s)
    if (chances[s] > 0) open.push_back({s, chances[s]});
  std::ranges::stable_sort(open, std::greater{}, [](const Open& each) { return std::ilogb(each.chance); });
  // With interest a price moves where parts come from, and then the chance of a loss as well.
  const bool never_falls = job_.shop.money_rate == 0;
  const double most = *job_.aims[Aim::loss_chance] + chance_tolerance;
  double settled = 0;
  std::size_t enough = 0;
  std::vector<double> now;
  return highest_price(
      job_, guess,
      [&](double price) {
        Model& model = model_at(price);
        const double payment = paid_at(job_.deal, price);
        double at_least = settled, at_most = settled;
        for (const Open& each : open) {
          at_least += each.at_least();
          at_most += each.at_most();
        }
        now.clear();
        for (Open& each : open) {
          if (at_most <= most || (at_least > most && now.size() >= enough)) break;
          now.push_back(least_loss(model, each, payment));
          at_least += each.chance * (now.back() - each.low);
          at_most += each.chance * (now.back() - each.high);
        }
        // Where all were asked both are the same but for rounding, which is far less than the tolerance.
        const bool holds = at_most <= most;
        if (!never_falls) return holds;
        enough = holds ? now.size() : 0;
        std::size_t kept = 0;
        for (std::size_t i = 0; i < open.size(); ++i) {
          Open each = open[i];
          if (i < now.size()) (holds ? each.low : each.high) = now[i];
          if (each.low == each.high)
            settled += each.at_least();
          else
            open[kept++] = each;
        }
        open.resize(kept);
        return holds;
      },
      true);
}

// The lowest of the limits of those that are asked; absent where none of them has one.
std::optional<double> Buying::lowest_limit(const WalkAway& limits, const Aims& asked) {
  std::optional<double> lowest;
  for (const figures::AimRow& row : figures::aims) {
    const std::optional<double>& limit = limits.by[row.aim];
    if (asked[row.aim] && limit && (!lowest || *limit < *lowest)) lowest = limit;
  }
  return lowest;
}

WalkAway Buying::limits(const std::vector<double>& chances) {
  WalkAway limits;
  const Aims& aims = job_.aims;
  for (const figures::AimRow& row : figures::aims) {
    if (!aims[row.aim]) continue;
    // About as much as pays may be paid without a loss.
    limits.by[row.aim] = limit_by(chances, row.aim, limits.by[Aim::profit].value_or(job_.deal.asking));
  }
  const double at_most = lowest_limit(limits, aims).value_or(job_.deal.asking);
  const Found found = highest(chances, aims, at_most);
  limits.price = found.price.value_or(at_most);
  if (found.at_most && *found.at_most > limits.price) limits.at_most = found.at_most;
  if (!limit_) limit_ = limits.price;
  return limits;
}

double Buying::walk_away_price(const std::vector<double>& chances) { return limits(chances).price; }

WalkAway Buying::walk_away(const std::vector<double>& chances) {
  WalkAway limits = this->limits(chances);
  std::vector<Aim> asked;
  for (const figures::AimRow& row : figures::aims)
    if (job_.aims[row.aim]) asked.push_back(row.aim);
  if (asked.size() == 1) {
    limits.binding = asked.front();
    return limits;
  }
  constexpr double any = 1e300;
  double most = limits.price;
  for (const Aim aim : asked) {
    const double price = highest_without(chances, limits, aim).value_or(any);
    if (price <= most) continue;
    most = price;
    limits.binding = aim;
  }
  return limits;
}

// The highest price at which the other aims hold; no less than the walk-away price.
std::optional<double> Buying::highest_without(const std::vector<double>& chances, const WalkAway& limits,
                                              Aim aim) {
  const Aims asked = job_.aims.without(aim);
  const std::optional<double> at_most = lowest_limit(limits, asked);
  const auto many =
      std::ranges::count_if(figures::aims, [&](const auto& row) { return asked[row.aim].has_value(); });
  if (many == 1 || !at_most || *at_most <= limits.price) return at_most;
  const double coin_more = price_of_coins(job_, coins_below(job_, limits.price) + 1);
  bool exact = true;
  if (!holds(chances, asked, coin_more, exact)) return limits.price;
  return highest(chances, asked, *at_most).price;
}

double Buying::walk_away_price(const std::vector<double>& chances, double loss_most, double guess) {
  Aims asked = job_.aims;
  asked[Aim::loss_chance] = loss_most;
  bool exact = true;
  return highest_price(
             job_, guess, [&](double price) { return holds(chances, asked, price, exact); }, true)
      .value_or(guess);
}

Policy Buying::policy(const std::vector<double>& chances, double price) {
  const Held best = held(chances, price);
  const std::vector<Offering>& first = firsts(price);
  Model& model = model_at(price);
  Policy policy;
  policy.holds = best.holds;
  policy.price = price;
  policy.paths.resize(chances.size());
  policy.most_profitable.resize(chances.size());
  const double payment = paid_at(job_.deal, price);
  for (std::size_t s = 0; s < chances.size(); ++s) {
    if (!is_possible(s)) continue;
    const bool is_first = !best.holds || best.picks[s] == 0;
    const Offering& taken = is_first ? first[s] : menus(price)[s][best.picks[s]];
    const std::size_t begin = model.paths_begin[s];
    const WholePath& whole = model.whole[begin + taken.path];
    policy.paths[s] = whole.path;
    policy.most_profitable[s] = model.whole[begin + first[s].path].path;
    policy.outlook.add(chances[s], whole.mean, model.courses.opening_cash(s / masks_));
    if (chances[s] > 0)
      policy.loss_chance += chances[s] * loss_of(model, model.paths[begin + taken.path], payment);
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
  double most = -1e300;
  const Priced& priced = priced_at(job_.deal.asking);
  for (std::size_t s = 0; s < possible_.size(); ++s)
    if (is_possible(s)) most = std::max(most, priced.firsts[s].profit);
  return job_.deal.asking + std::max(0.0, (most - job_.aims.profit()) / (1 + job_.deal.rate)) + 1;
}

}  // namespace nonrunner::appraisal
