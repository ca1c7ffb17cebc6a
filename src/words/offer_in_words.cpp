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

std::string then_in_words(const Appraisal& a, const AfterTest& after) {
  const Plan& plan = a.next_plan();
  for (const PlanStep::Branch& branch : plan.steps.branches) {
    if (branch.outcome != after.outcome || branch.step.empty()) continue;
    const PlanStep& step = branch.step.front();
    if (step.act == Do::test) return "then: " + a.job.tests[step.which].name;
    if (step.act == Do::buy)
      return step.which == 0 ? "then buy"
                             : fmt::format("then buy: {}, up to {}", a.offers[step.which].name,
                                           shown_units(after.of_taken, a.job.currency));
    return after.walk_away.price > 0 ? "then offer less" : "then walk away";
  }
  return "";
}

std::string path_in_words(const Job& job, std::size_t cause, const Path& path) {
  if (path.course != Course::put_right) return name_of(job.causes[cause], path.course);
  const Chain chain = chain_of(job, job.causes[cause]);
  std::string text = name_of(path.course);
  for (std::size_t i = 0; i < path.tried; ++i)
    text += (i == 0 ? ": " : ", then ") + job.corrections[chain.steps[i].correction].name;
  const bool can_fail = path.tried < chain.steps.size() || chain.fails > 0;
  return can_fail ? text + ", else " + name_of(job.causes[cause], path.if_all_fail) : text;
}

}  // namespace nonrunner::words
