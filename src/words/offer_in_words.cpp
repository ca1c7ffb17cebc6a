#include "words/offer_in_words.h"

#include <fmt/format.h>

#include "figures/opinion.h"

namespace nonrunner::words {

using namespace appraisal;

std::string better_in_words(const Appraisal& a) {
  if (!a.better) return "";
  const OfferFigures& offer = a.offers[*a.better];
  const auto money = [&](double amount) { return shown_units(amount, a.job.currency); };
  const std::string expected = fmt::format("{}, at {}: a profit of {} is to be expected", offer.name,
                                           money(offer.price), money(offer.expected_profit));
  const std::string limit = money(offer.walk_away.price);
  return offer.all_aims_hold()
             ? fmt::format("BETTER: {}; with it never pay more than {}.", expected, limit)
             : fmt::format("BETTER FOR LESS: {}, but not all aims hold; with it never pay more than {}.",
                           expected, limit);
}

std::string better_in_short(const Appraisal& a) {
  if (!a.better) return "";
  const OfferFigures& offer = a.offers[*a.better];
  const auto money = [&](double amount) { return shown_units(amount, a.job.currency); };
  return offer.all_aims_hold() ? fmt::format("better: {}, at {}", offer.name, money(offer.price))
                               : fmt::format("better: {}, for {} in place of {}", offer.name,
                                             money(offer.walk_away.price), money(offer.price));
}

std::string then_in_words(const Appraisal& a, const AfterTest& after) {
  for (const PlanStep::Branch& branch : a.plan.steps.branches) {
    if (branch.outcome != after.outcome || branch.step.empty()) continue;
    const Do act = branch.step.front().act;
    if (act == Do::test) return "then test on";
    if (act == Do::walk_away || !after.takes) return "at the price asked: walk away";
    // The plan goes by the profit alone: the other aims may forbid the price at which it would buy.
    const OfferFigures& offer = a.offers[*after.takes];
    const std::string named = *after.takes == 0 ? "" : ": " + offer.name;
    if (offer.price <= after.of_taken.price) return "then buy" + named;
    if (!(after.of_taken.price > 0)) return "then walk away";
    return "then offer less" + named +
           (named.empty() ? "" : ", up to " + shown_units(after.of_taken.price, a.job.currency));
  }
  return "";
}

}  // namespace nonrunner::words
