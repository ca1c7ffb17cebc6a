#include "appraisal/appraise.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "appraisal/highest_price.h"
#include "appraisal/with_tests.h"

namespace nonrunner::appraisal {

const char* name_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::buy:
      return "buy";
    case Verdict::test_first:
      return "test first";
    case Verdict::offer_less:
      return "offer less";
    case Verdict::walk_away:
      return "walk away";
  }
  return "";
}

namespace {

constexpr double much_taken_off = 1.0 / 3;

std::vector<CauseFigures> causes_of(const Courses& courses, const Beliefs& before, const Beliefs& now) {
  const Job& job = courses.job();
  std::vector<CauseFigures> all;
  for (std::size_t c = 0; c < job.causes.size(); ++c) {
    CauseFigures figures{before.cause[c], now.cause[c], Course::as_found, {}, {}, 0};
    std::array<double, 4> on_offer{}, sum{};
    for (unsigned present = 0; present < 1u << job.troubles.size(); ++present) {
      const double chance = chance_of_troubles(now, present);
      if (chance == 0) continue;
      const Courses::ByCourse by_course = courses.by_course(c, present);
      const Courses::Best& best = Courses::best_of(by_course);
      figures.taken[static_cast<std::size_t>(best.course)] += chance;
      figures.counted += chance * best.profit;
      for (std::size_t k = 0; k < all_courses.size(); ++k)
        if (by_course[k]) {
          on_offer[k] += chance;
          sum[k] += chance * by_course[k]->profit;
        }
    }
    for (std::size_t k = 0; k < all_courses.size(); ++k)
      if (on_offer[k] > 0) figures.profit[k] = sum[k] / on_offer[k];
    figures.best = all_courses[static_cast<std::size_t>(
        std::max_element(figures.taken.begin(), figures.taken.end()) - figures.taken.begin())];
    all.push_back(figures);
  }
  return all;
}

Expected expected_of(const Policy& policy, double cash_needed) {
  Expected e;
  e.cash_profit = policy.cash_profit;
  e.profit = policy.profit;
  e.own_hours = policy.outlook.own_hours;
  e.days = policy.outlook.days;
  e.sale_price = policy.outlook.brings;
  e.cash_needed = cash_needed;
  if (e.own_hours > 0) e.per_hour = e.cash_profit / e.own_hours;
  return e;
}

std::vector<std::string> notes_of(const Job& job, const Courses& courses) {
  std::vector<std::string> notes;
  double off = 0;
  for (const Fault& fault : job.faults) off += fault.takes_off.mean();
  for (const Cause& cause : job.causes)
    if (courses.sound() > 0 && cause.found && cause.found->mean() > courses.sound())
      notes.push_back(
          fmt::format("cause \"{}\": as it stands it would fetch more than a sound one sells for; look at "
                      "\"found\" again",
                      cause.name));
  for (const Correction& correction : job.corrections) {
    if (correction.otherwise && correction.works == 1)
      notes.push_back(fmt::format(
          "correction \"{}\": \"otherwise\" never comes into play, since \"works\" is 1", correction.name));
    if (!correction.otherwise && correction.works < 1)
      notes.push_back(
          fmt::format("correction \"{}\": where it does not cure, nothing follows: the best of "
                      "the other courses is then taken, after its costs",
                      correction.name));
  }
  if (courses.sound() > 0 && off > much_taken_off * courses.sound())
    notes.push_back(
        fmt::format("the faults together take off {:.0f} % of what a sound one sells for: small deductions "
                    "add up to less "
                    "than their sum in a buyer's eye, compare with what rough ones really sell for",
                    100 * off / courses.sound()));
  if (job.road_barred)
    notes.push_back(
        "the paper is lost: the car cannot be sold running, so nothing is reckoned with putting it right; "
        "where another can be had, add a [[trouble]] with bars_road = true, the chance that there will be "
        "none, and \"title\" or \"paper\" in its name");
  if (job.paper_trouble)
    notes.push_back(
        fmt::format("the paper is lost: the trouble \"{}\" says how likely that is to bar the road",
                    job.troubles[*job.paper_trouble].name));
  for (const Test& test : job.tests)
    if (test.spoiled)
      notes.push_back(fmt::format("test \"{}\" is spoiled and left out of everything", test.name));
  return notes;
}

}  // namespace

std::optional<std::size_t> Appraisal::decided() const {
  // Where a test comes first the plan's steps say nothing of deciding now.
  std::optional<std::size_t> best;
  for (std::size_t k = 0; k < offers.size(); ++k)
    if (offers[k].all_aims_hold() && (!best || offers[k].expected_profit > offers[*best].expected_profit))
      best = k;
  return best;
}

namespace {

class Appraising {
 public:
  Appraising(const Job& job, const SoundValue& sound, std::size_t points)
      : job_(job),
        sound_(sound),
        now_(posterior(job)),
        chances_(state_chances(job, now_)),
        draws_(job, sound, points_in_a_case(job, now_, points)) {
    buyings_.push_back(std::make_unique<Buying>(job, sound, draws_, std::vector<double>{}, chances_));
    offers_.push_back({buyings_.back().get(), job.deal.asking});
    for (const Offer& offer : job.deal.others) {
      buyings_.push_back(std::make_unique<Buying>(job, sound, draws_, offer.covers, chances_));
      offers_.push_back({buyings_.back().get(), offer.price});
    }
    planning_.emplace(job, offers_, now_);
  }

  Appraisal run(Extent extent) {
    Appraisal a;
    a.job = job_;
    a.asking = job_.deal.asking;
    a.sound = sound_;
    for (std::size_t k = 0; k < offers_.size(); ++k) a.offers.push_back(offer_figures(k));
    a.walk_away = a.offers[0].walk_away;
    a.better = better_of(a);
    a.better_from = better_from(a);
    a.cliff = cliff_at(a.walk_away.price);
    plans(a);
    a.verdict = verdict_of(a);
    if (a.next_plan().begins_with_test()) after_first_test(a);
    prices(a, extent);
    a.causes = causes(buyings_[0]->courses(a.asking));
    a.troubles = now_.trouble;
    a.fixes = buyings_[0]->courses(a.asking).fixes();
    haggling(a);
    if (extent == Extent::along) a.at_prices = at_prices(a);
    if (extent == Extent::whole) a.moves = moves_of(job_, sound_, now_, a.asking);
    a.cautions = cautions_of(job_);
    a.notes = notes_of(job_, buyings_[0]->courses(a.asking));
    if (sound_.fit)
      for (const std::string& each : resale::pointed_out(*sound_.fit)) a.notes.push_back(each);
    return a;
  }

 private:
  OfferFigures offer_figures(std::size_t k) {
    const Policy policy = buyings_[k]->policy(chances_, offers_[k].price);
    return {k == 0 ? plain_offer : job_.deal.others[k - 1].name, offers_[k].price, policy.profit,
            buyings_[k]->walk_away(chances_), policy.loss_chance};
  }

  static std::optional<std::size_t> better_of(const Appraisal& a) {
    const auto rank = [](const OfferFigures& offer) {
      return std::pair(offer.all_aims_hold(), offer.expected_profit);
    };
    std::size_t best = 0;
    for (std::size_t k = 1; k < a.offers.size(); ++k)
      if (rank(a.offers[k]) > rank(a.offers[best])) best = k;
    const OfferFigures& offer = a.offers[best];
    if (best == 0 || offer.expected_profit < a.job.aims.profit() || !(offer.walk_away.price > 0))
      return std::nullopt;
    return best;
  }

  std::optional<double> better_from(const Appraisal& a) {
    std::optional<double> most;
    for (std::size_t k = 1; k < a.offers.size(); ++k)
      if (a.offers[k].all_aims_hold()) most = std::max(most.value_or(-1e300), a.offers[k].expected_profit);
    if (!most) return std::nullopt;
    const auto as_good = highest_price(job_, a.asking, [&](double price) {
      const Held held = buyings_[0]->held(chances_, price);
      return held.holds && held.profit >= *most;
    });
    if (!as_good) return std::nullopt;
    return std::max(0.0, price_of_coins(job_, coins_below(job_, *as_good) + 1));
  }

  std::optional<Cliff> cliff_at(double walk_away) {
    if (!job_.aims[Aim::loss_chance] || chances_.size() > many_cases) return std::nullopt;
    constexpr double point = 0.01, tenth = 0.1;
    const double less = std::max(0.0, *job_.aims[Aim::loss_chance] - point);
    const double more = std::min(1.0, *job_.aims[Aim::loss_chance] + point);
    const Cliff cliff{buyings_[0]->walk_away_price(chances_, less, walk_away),
                      buyings_[0]->walk_away_price(chances_, more, walk_away)};
    const double larger = std::max(std::abs(cliff.a_point_less), std::abs(cliff.a_point_more));
    if (cliff.a_point_more - cliff.a_point_less <= tenth * larger) return std::nullopt;
    return cliff;
  }

  void plans(Appraisal& a) {
    a.plan = planning_->plan(a.asking);
    a.with_tests = with_tests_price(*planning_, a.walk_away.price);
    a.test_from = test_from_price(*planning_, a.walk_away.price, a.with_tests);
    const double limit = a.walk_away.price;
    a.above = {std::nullopt, Verdict::offer_less, 0};
    if (a.offers.size() > 1)
      a.above = verdict_at(a, price_of_coins(job_, coins_below(job_, std::max(limit, a.with_tests)) + 1));
    a.plan_at_walk_away = planning_->plan(std::max(limit, 0.0));
    if (limit >= 0 && !a.plan_at_walk_away.begins_with_test() && a.with_tests > limit)
      a.plan_at_walk_away = planning_->plan(price_of_coins(job_, coins_below(job_, limit) + 1));
  }

  Verdict verdict_of(const Appraisal& a) const {
    if (a.plan.begins_with_test()) return Verdict::test_first;
    if (a.decided()) return Verdict::buy;
    if (a.walk_away.price < 0 && a.with_tests < 0) return Verdict::walk_away;
    return Verdict::offer_less;
  }

  // The verdict if this were the price asked; what is decided is what `decided` would say then.
  UpTo verdict_at(const Appraisal& a, double price) {
    const bool may_test = std::ranges::any_of(job_.tests, still_to_make);
    if (may_test && planning_->gains_enough(price)) return {price, Verdict::test_first, 0};
    Appraisal then;
    then.offers = a.offers;
    then.offers.front().price = price;
    if (a.offers.size() > 1)
      then.offers.front().expected_profit = buyings_[0]->policy(chances_, price).profit;
    if (const auto decided = then.decided()) return {price, Verdict::buy, *decided};
    if (a.walk_away.price < 0 && a.with_tests < 0) return {price, Verdict::walk_away, 0};
    return {price, Verdict::offer_less, 0};
  }

  // Between two of the prices that the answer names the verdict stays. Where an aim may forbid after a look what it
  // allows unseen, prices are tried in equal steps too, and where two differ the last coin of the first is looked for.
  std::vector<UpTo> at_prices(const Appraisal& a) {
    std::vector<std::int64_t> ends{coins_below(job_, a.walk_away.price), coins_below(job_, a.with_tests)};
    if (a.test_from) ends.push_back(coins_below(job_, *a.test_from) - 1);
    if (a.better_from) ends.push_back(coins_below(job_, *a.better_from) - 1);
    const std::int64_t last = *std::ranges::max_element(ends);
    constexpr std::int64_t tried = 16;
    const bool may_be_broken = !a.test_from && !job_.aims.is_profit_alone() && last > 0;
    for (std::int64_t i = 1; may_be_broken && i < tried; ++i) ends.push_back(last / tried * i);
    std::ranges::sort(ends);
    std::vector<UpTo> all;
    std::int64_t below = -1;
    for (const std::int64_t end : ends) {
      if (end <= below) continue;
      if (may_be_broken) find_change(a, below + 1, end, all);
      add(all, verdict_at(a, price_of_coins(job_, end)));
      below = end;
    }
    UpTo above = verdict_at(a, price_of_coins(job_, below + 1));
    above.price.reset();
    add(all, above);
    return all;
  }

  static bool same(const UpTo& one, const UpTo& other) {
    return one.verdict == other.verdict && one.offer == other.offer;
  }
  static void add(std::vector<UpTo>& all, const UpTo& next) {
    if (!all.empty() && same(all.back(), next))
      all.back().price = next.price;
    else
      all.push_back(next);
  }
  // The last coin from `first` on that has another verdict than `last`, where `first` has another one.
  void find_change(const Appraisal& a, std::int64_t first, std::int64_t last, std::vector<UpTo>& all) {
    const UpTo at_first = verdict_at(a, price_of_coins(job_, first));
    const UpTo at_last = verdict_at(a, price_of_coins(job_, last));
    if (same(at_first, at_last)) return;
    while (last - first > 1) {
      const std::int64_t middle = first + (last - first) / 2;
      (same(at_first, verdict_at(a, price_of_coins(job_, middle))) ? first : last) = middle;
    }
    UpTo changed = at_first;
    changed.price = price_of_coins(job_, first);
    add(all, changed);
  }

  void after_first_test(Appraisal& a) {
    const Plan& plan = a.next_plan();
    const Test& test = job_.tests[plan.steps.which];
    const bool unseen = buyings_[0]->is_allowed(chances_, plan.price);
    for (const PlanStep::Branch& branch : plan.steps.branches) {
      const auto beliefs = after(now_, test, branch.outcome);
      if (!beliefs) continue;
      const std::vector<double> chances = state_chances(job_, *beliefs);
      AfterTest then;
      then.outcome = branch.outcome;
      then.chance = branch.chance;
      then.walk_away = buyings_[0]->walk_away(chances);
      const Policy policy = buyings_[0]->policy(chances, plan.price);
      then.expected_profit = policy.profit;
      then.loss_chance = policy.loss_chance;
      if (unseen && !policy.holds && policy.profit >= job_.aims.profit())
        then.barred_by = broken_by(job_, policy);
      if (!branch.step.empty() && branch.step.front().act == Do::buy) {
        then.takes = branch.step.front().which;
        then.of_taken =
            *then.takes == 0 ? then.walk_away.price : buyings_[*then.takes]->walk_away_price(chances);
      }
      a.after_first_test.push_back(std::move(then));
    }
  }

  AtPrice at_price(std::size_t offer, double price, bool with_steps = false) {
    AtPrice at;
    at.offer = offer;
    at.price = price;
    at.policy = buyings_[offer]->policy(chances_, price);
    const Spread spread = spread_of(*buyings_[offer], draws_, at.policy, chances_, with_steps);
    at.risk = spread.risk;
    at.cash_needed = spread.cash_needed;
    at.expected = expected_of(at.policy, at.cash_needed.expected);
    return at;
  }

  // The same at another price of the same offer. Where each case goes the same way and money costs nothing, all
  // that differs is what is paid: nothing is drawn anew.
  AtPrice at_price_beside(const AtPrice& known, double price) {
    const Policy policy = buyings_[known.offer]->policy(chances_, price);
    if (job_.shop.money_rate > 0 || policy.paths != known.policy.paths) return at_price(known.offer, price);
    const double more = paid_at(job_.deal, price) - paid_at(job_.deal, known.price);
    AtPrice at = known;
    at.price = price;
    at.policy = policy;
    Risk& risk = at.risk;
    risk.loss_chance = policy.loss_chance;
    for (auto* quantiles : {&risk.cash_profit, &risk.profit})
      for (double& each : *quantiles) each -= more;
    for (double* each : {&risk.sampled_cash_profit, &risk.sampled_profit, &risk.from, &risk.to})
      *each -= more;
    for (double& each : risk.steps) each -= more;
    for (double* each : {&at.cash_needed.expected, &at.cash_needed.p95, &at.cash_needed.worst}) *each += more;
    at.expected = expected_of(at.policy, at.cash_needed.expected);
    return at;
  }

  void prices(Appraisal& a, Extent extent) {
    a.asked = at_price(0, a.asking, extent == Extent::whole);
    a.at_walk_away = buyings_[0]->policy(chances_, a.walk_away.price);
    const auto decided = a.decided();
    const double most = std::max(a.walk_away.price, 0.0);
    if (decided && *decided != 0)
      a.to_pay = at_price(*decided, offers_[*decided].price);
    else
      a.to_pay = most < a.asking ? at_price_beside(a.asked, most) : a.asked;
  }

  std::vector<CauseFigures> causes(const Courses& courses) const {
    return causes_of(courses, prior(job_), now_);
  }

  void haggling(Appraisal& a) {
    const bool put_right = std::ranges::any_of(a.causes, [](const CauseFigures& cause) {
      return cause.probability > 0 && cause.taken[static_cast<std::size_t>(Course::put_right)] > 0;
    });
    a.costs_to_name = costs_to_name(buyings_[0]->courses(a.asking), now_, a.asked.policy.outlook, put_right);
    const double unseen = a.walk_away.price;
    if (unseen <= 0) return;
    a.first_figure = first_figure(a.asking, std::max(unseen, a.with_tests));
    // What only tests would pay for is not said first: the seller may say yes.
    if (a.first_figure && *a.first_figure > unseen) a.first_figure = first_figure(a.asking, unseen);
  }

  const Job& job_;
  const SoundValue& sound_;
  Beliefs now_;
  std::vector<double> chances_;
  Draws draws_;
  std::vector<std::unique_ptr<Buying>> buyings_;
  std::vector<OfferAt> offers_;
  std::optional<Planning> planning_;
};

}  // namespace

Appraisal appraise(const Job& job, const SoundValue& sound, std::size_t points, Extent extent) {
  return Appraising(job, sound, points).run(extent);
}

}  // namespace nonrunner::appraisal
