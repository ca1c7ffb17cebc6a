#include "appraisal/appraise.h"

#include <fmt/format.h>

#include <algorithm>

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

constexpr double worth_a_test =
    0.01;  // of the asking price: what a plan must gain before it is worth the trouble
constexpr double much_taken_off = 1.0 / 3;
constexpr std::size_t bar_count = 30;

std::vector<CauseFigures> causes_of(const Courses& courses, const States& states, const Beliefs& before,
                                    const Beliefs& now) {
  const Job& job = courses.job();
  std::vector<CauseFigures> all;
  for (std::size_t c = 0; c < job.causes.size(); ++c) {
    CauseFigures figures{before.cause[c], now.cause[c], Course::as_found, {}, {}, 0};
    std::array<double, 4> on_offer{}, sum{};
    for (unsigned present = 0; present < states.masks; ++present) {
      const double chance = chance_of_troubles(now, present);
      if (chance == 0) continue;
      figures.taken[static_cast<std::size_t>(states.at(c, present).course)] += chance;
      figures.counted += chance * states.at(c, present).profit;
      for (std::size_t k = 0; k < all_courses.size(); ++k)
        if (const auto f = courses.figures(c, present, all_courses[k])) {
          on_offer[k] += chance;
          sum[k] += chance * courses.profit(*f);
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

Expected expected_of(const Job& job, const Outlook& outlook) {
  Expected e;
  e.cash_profit = cash_profit(job, outlook, job.deal.asking);
  e.profit = profit(job, outlook, job.deal.asking);
  e.own_hours = outlook.own_hours;
  e.days = outlook.days;
  e.sale_price = outlook.brings;
  e.cash_needed = job.deal.asking * (1 + job.deal.rate) + job.deal.fees.mean() + outlook.outlay;
  if (e.own_hours > 0) e.per_hour = e.cash_profit / e.own_hours;
  return e;
}

Risk risk_of(const Job& job, const Drawn& drawn, const WeightedSample& break_even,
             const std::vector<double>& weights) {
  Risk risk;
  risk.points = drawn.cash.size();
  const std::vector<double> shares = {0.05, 0.25, 0.50, 0.75, 0.95};
  const WeightedSample cash = cash_profits(job, drawn, job.deal.asking, break_even);
  const WeightedSample after_hours = profits(job, drawn, job.deal.asking);
  std::ranges::copy(cash.quantiles(shares, weights), risk.cash_profit.begin());
  std::ranges::copy(after_hours.quantiles(shares, weights), risk.profit.begin());
  risk.loss_chance = cash.share_below(0, weights);
  risk.sampled_cash_profit = cash.mean(weights);
  risk.sampled_profit = after_hours.mean(weights);
  const std::vector<double> ends = cash.quantiles({0.005, 0.995}, weights);
  risk.from = ends[0];
  risk.to = ends[1] > ends[0] ? ends[1] : ends[0] + 1;
  const double step = (risk.to - risk.from) / bar_count;
  std::vector<double> edges;
  for (std::size_t i = 1; i < bar_count; ++i) edges.push_back(risk.from + step * static_cast<double>(i));
  double before = 0;
  for (const double below : cash.shares_below(edges, weights)) {
    risk.bars.push_back(below - before);
    before = below;
  }
  risk.bars.push_back(1 - before);
  return risk;
}

// What all aims allow under another offer, now and where the plan takes it after the first test.
void add_limits(Appraisal& a, const SoundValue& sound, const Courses& courses, const States& states,
                std::size_t which, const Beliefs& now, std::size_t points) {
  const Job& job = courses.job();
  const bool evenly = a.plan.steps.act == Do::test;
  const Drawn drawn = draw(job, sound, courses, states, now, points, evenly);
  const WeightedSample break_even = break_even_prices(job, drawn);
  const std::vector<double> weights_now = weights(job, drawn, now);
  OfferFigures& offer = a.offers[which];
  offer.walk_away = walk_away(job, outlook_of(job, states, now), break_even, weights_now);
  offer.loss_chance = break_even.share_below(offer.price, weights_now);
  for (AfterTest& then : a.after_first_test) {
    if (then.takes != which) continue;
    const auto beliefs = after(now, job.tests[a.plan.steps.which], then.outcome);
    then.of_taken =
        walk_away(job, outlook_of(job, states, *beliefs), break_even, weights(job, drawn, *beliefs));
  }
}

std::optional<std::size_t> better_of(const Appraisal& a) {
  const auto rank = [](const OfferFigures& offer) {
    return std::pair(offer.all_aims_hold(), offer.expected_profit);
  };
  std::size_t best = 0;
  for (std::size_t k = 1; k < a.offers.size(); ++k)
    if (rank(a.offers[k]) > rank(a.offers[best])) best = k;
  const OfferFigures& offer = a.offers[best];
  if (best == 0 || offer.expected_profit < a.job.aims.profit || !(offer.walk_away.price > 0))
    return std::nullopt;
  return best;
}

Verdict verdict_of(const Appraisal& a) {
  if (!(a.walk_away.price > 0)) return Verdict::walk_away;
  if (a.plan.steps.act == Do::test && a.plan.best - a.plan.decide_now >= worth_a_test * a.asking)
    return Verdict::test_first;
  return a.asking <= a.walk_away.price ? Verdict::buy : Verdict::offer_less;
}

std::vector<std::string> notes_of(const Job& job, const Courses& courses) {
  std::vector<std::string> notes;
  double off = 0;
  for (const Fault& fault : job.faults) off += fault.takes_off.mean();
  for (const Cause& cause : job.causes)
    if (courses.sound() > 0 && cause.found.mean() > courses.sound())
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
          fmt::format("correction \"{}\": where it does not cure, nothing follows: the car is then "
                      "reckoned sold as found, after its costs",
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

Appraisal appraise(const Job& job, const SoundValue& sound, std::size_t points) {
  Appraisal a;
  a.job = job;
  a.asking = job.deal.asking;
  a.sound = sound;
  const Courses courses(job, sound.mean);
  const Beliefs now = posterior(job);
  const States plain(courses, {});
  const Outlook outlook = outlook_of(job, plain, now);

  std::vector<States> under;  // the other offers
  under.reserve(job.deal.others.size());
  std::vector<OfferStates> offers = {{job.deal.asking, &plain}};
  a.offers.push_back({plain_offer, job.deal.asking, profit(job, outlook, job.deal.asking), {}, 0});
  for (const Offer& offer : job.deal.others) {
    under.emplace_back(courses, offer.covers);
    offers.push_back({offer.price, &under.back()});
    a.offers.push_back(
        {offer.name, offer.price, profit(job, outlook_of(job, under.back(), now), offer.price), {}, 0});
  }
  a.plan = plan_of(job, offers, now);
  const bool begins_with_test = a.plan.steps.act == Do::test;

  const Drawn drawn = draw(job, sound, courses, plain, now, points, begins_with_test);
  const WeightedSample break_even = break_even_prices(job, drawn);
  const std::vector<double> weights_now = weights(job, drawn, now);
  a.walk_away = walk_away(job, outlook, break_even, weights_now);
  a.risk = risk_of(job, drawn, break_even, weights_now);
  if (begins_with_test)
    for (const PlanStep::Branch& branch : a.plan.steps.branches) {
      const auto beliefs = after(now, job.tests[a.plan.steps.which], branch.outcome);
      if (!beliefs) continue;
      const Outlook then = outlook_of(job, plain, *beliefs);
      AfterTest figures{branch.outcome,
                        branch.chance,
                        walk_away(job, then, break_even, weights(job, drawn, *beliefs)),
                        profit(job, then, job.deal.asking),
                        std::nullopt,
                        {}};
      if (!branch.step.empty() && branch.step.front().act == Do::buy) {
        figures.takes = branch.step.front().which;
        if (figures.takes == 0u) figures.of_taken = figures.walk_away;
      }
      a.after_first_test.push_back(std::move(figures));
    }
  a.offers[0].walk_away = a.walk_away;
  a.offers[0].loss_chance = a.risk.loss_chance;
  for (std::size_t k = 1; k < offers.size(); ++k)
    add_limits(a, sound, courses, *offers[k].states, k, now, points);
  a.better = better_of(a);

  a.causes = causes_of(courses, plain, prior(job), now);
  a.troubles = now.trouble;
  a.expected = expected_of(job, outlook);
  a.fixes = courses.fixes();
  a.costs_to_name = costs_to_name(
      courses, now, outlook, std::ranges::any_of(a.causes, [](const CauseFigures& cause) {
        return cause.probability > 0 && cause.taken[static_cast<std::size_t>(Course::put_right)] > 0;
      }));
  a.moves = moves_of(job, sound, now, job.deal.asking);
  a.cautions = cautions_of(job);
  a.notes = notes_of(job, courses);
  if (sound.fit)
    for (const std::string& each : resale::pointed_out(*sound.fit)) a.notes.push_back(each);
  a.verdict = verdict_of(a);
  return a;
}

}  // namespace nonrunner::appraisal
