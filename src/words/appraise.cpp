#include "words/appraise.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "exact/grouped.h"
#include "figures/opinion.h"
#include "words/aims.h"
#include "words/offer_in_words.h"
#include "words/other_way.h"

namespace nonrunner::words {

using namespace appraisal;

std::string in_percent(double chance) {
  if (chance > 0 && chance < 0.01) return "below 1 %";
  if (chance > 0.99 && chance < 1) return "above 99 %";
  return fmt::format("{:.0f} %", 100 * chance);
}

std::string about(double amount, const Currency& currency) {
  if (std::abs(amount) < 1) return shown_units(amount, currency);
  const double step = std::pow(10.0, std::floor(std::log10(std::abs(amount))) - 2);
  const double rounded = std::round(amount / step) * step;
  if (step < 1) return shown_units(rounded, currency);
  std::string text = shown_units(rounded, currency);
  const auto point = text.find('.');
  return point == std::string::npos ? text : text.substr(0, point);
}

std::string cost_in_words(const Job& job, const Test& test) {
  const double hours = test.hours.mean() * job.shop.pace.mean(), cash = test.cash.mean();
  std::string text;
  if (hours > 0) text = fmt::format("{:.1f} own hours", hours);
  if (cash > 0) text += (text.empty() ? "" : " and ") + shown_units(cash, job.currency);
  return text.empty() ? "takes nothing" : "takes " + text;
}

std::string AppraisalInWords::money(double amount) const { return shown_units(amount, job_.currency); }
std::string AppraisalInWords::roughly(double amount) const {
  return in_full_ ? money(amount) : about(amount, job_.currency);
}
std::string AppraisalInWords::gain_or_loss(double amount) const {
  return amount < 0 ? "a loss of " + roughly(-amount) : "a profit of " + roughly(amount);
}
std::string AppraisalInWords::first_test() const { return job_.tests[a_.next_plan().steps.which].name; }

std::string AppraisalInWords::word() const {
  switch (a_.verdict) {
    case Verdict::buy:
      return "BUY";
    case Verdict::test_first:
      return "TEST FIRST";
    case Verdict::offer_less:
      return "OFFER LESS";
    case Verdict::walk_away:
      return "WALK AWAY";
  }
  return "";
}

std::string AppraisalInWords::verdict() const {
  const auto decided = a_.decided();
  const bool other = a_.verdict == Verdict::buy && decided && *decided != 0;
  return word() + (other ? ": " + a_.offers[*decided].name : "");
}

std::string AppraisalInWords::never_more() const {
  return a_.walk_away.price >= 0 ? money(a_.walk_away.price) : "";
}

std::string AppraisalInWords::before_price() const {
  const std::string as_it_stands = better_in_words(a_).empty() ? "" : "as it stands: ";
  if (a_.walk_away.price < 0) return as_it_stands + "not unseen, even as a gift";
  return as_it_stands + fmt::format("never pay more than ({}), as things are known now:", job_.currency.code);
}

std::string AppraisalInWords::aim() const {
  const std::string at = a_.walk_away.price >= 0 ? "at a higher price " : "even as a gift ";
  if (const auto binding = a_.walk_away.binding)
    return fmt::format("{} sets it: {}{}.", words_of(*binding).sets, at, words_of(*binding).at_more);
  return "The aims set it together: " + at + "no way to go holds them all at once.";
}

std::vector<std::string> AppraisalInWords::reasons() const {
  std::vector<std::string> all = {better_in_words(a_)};
  if (a_.better_from && *a_.better_from > 0 && a_.better)
    all.push_back(fmt::format("From {} on for it as it stands, {} is the better one.", money(*a_.better_from),
                              a_.offers[*a_.better].name));
  all.push_back(aim());
  all.push_back(other_way_in_words(a_));
  if (a_.walk_away.at_most)
    all.push_back(
        fmt::format("There are more ways to go than can be compared: some hold the aims up to this price, "
                    "and none above {}.",
                    money(*a_.walk_away.at_most)));
  if (a_.cliff)
    all.push_back(
        fmt::format("It hangs on the chance of a loss that you accept: a point less and it is {}, a point "
                    "more and it is {}.",
                    money(a_.cliff->a_point_less), money(a_.cliff->a_point_more)));
  for (const std::string& each : {prices(), expected(), at_hand(), fewer_points()}) all.push_back(each);
  std::erase(all, "");
  return all;
}

// What to do at whatever price the seller names.
std::string AppraisalInWords::prices() const {
  const double limit = a_.walk_away.price, most = a_.with_tests;
  if (a_.plan.tests.empty()) return "";
  if (most < 0) return "";
  if (most <= limit && !a_.test_from)
    return a_.plan.begins_with_test() || a_.plan_at_walk_away.begins_with_test()
               ? ""
               : "No test that can still be made is worth its trouble.";
  std::string text;
  if (a_.test_from && *a_.test_from > 0)
    text = fmt::format("Below {} buy it as it is; from there to {} test first; ", money(*a_.test_from),
                       money(most));
  else
    text = fmt::format("Up to {} it pays to test before you decide; ", money(most));
  text += above_all();
  if (!a_.plan.begins_with_test() && a_.verdict == Verdict::offer_less)
    text += fmt::format(" None pays at {}.", money(a_.asking));
  return text;
}

// What is left where the plain offer asks too much.
std::string AppraisalInWords::above_all() const {
  switch (a_.above.verdict) {
    case Verdict::buy:
      return fmt::format("above that take \"{}\", at {}.", a_.offers[a_.above.offer].name,
                         money(a_.offers[a_.above.offer].price));
    case Verdict::test_first: {
      std::string others;
      for (std::size_t k = 1; k < a_.offers.size(); ++k)
        others +=
            fmt::format("{}\"{}\" at {}", k == 1 ? "" : ", ", a_.offers[k].name, money(a_.offers[k].price));
      return fmt::format("above that test for the other offers alone: {}.", others);
    }
    case Verdict::offer_less:
    case Verdict::walk_away:
      break;
  }
  return "above that offer less.";
}

std::string AppraisalInWords::expected_at(const AtPrice& at) const {
  return fmt::format("{} to be expected, chance of a loss {}{}", gain_or_loss(at.expected.profit),
                     in_percent(at.risk.loss_chance), at.policy.holds ? "" : ": your aims are not held");
}

std::string AppraisalInWords::expected() const {
  const AtPrice& pay = a_.to_pay;
  std::string text =
      fmt::format("Bought at {}{}: {}.", money(pay.price),
                  pay.offer == 0 ? "" : " (" + a_.offers[pay.offer].name + ")", expected_at(pay));
  if (pay.offer == 0 && pay.price != a_.asking)
    text += fmt::format(" At {}, as asked: {}.", money(a_.asking), expected_at(a_.asked));
  return text;
}

std::string AppraisalInWords::at_hand() const {
  const CashNeeded& cash = a_.to_pay.cash_needed;
  std::string why = job_.causes[cash.worst_cause].name;
  for (std::size_t j = 0; j < job_.troubles.size(); ++j)
    if (cash.worst_troubles >> j & 1u) why += " with " + job_.troubles[j].name;
  // The dearest case is what it comes to on an average; where prices vary more than cases do, that is not enough.
  if (cash.p95 > cash.worst)
    return fmt::format("Have {} at hand (enough 19 times in 20; {}: {}); {} is to be expected.",
                       roughly(cash.p95), why, roughly(cash.worst), roughly(cash.expected));
  return fmt::format("Have {} at hand ({}); {} is to be expected.", roughly(cash.worst), why,
                     roughly(cash.expected));
}

std::string AppraisalInWords::fewer_points() const {
  const auto& fewer = a_.to_pay.risk.fewer;
  if (!fewer) return "";
  return fmt::format(
      "It can go {} ways: how the outcome spreads rests on {} points for a likely one, on {} at "
      "the least for an unlikely one.",
      grouped(std::to_string(fewer->ways)), fewer->most, fewer->least);
}

std::string AppraisalInWords::offer_less() const {
  const double limit = a_.walk_away.price;
  const std::string say =
      a_.first_figure ? fmt::format("say {} first; ", money(*a_.first_figure)) : std::string();
  if (limit < 0)
    return say + (a_.next_plan().begins_with_test()
                      ? fmt::format("not unseen at any price; up to {} after: {}", money(a_.with_tests),
                                    first_test())
                      : fmt::format("not unseen at any price; tests pay up to {}", money(a_.with_tests)));
  std::string text = say + fmt::format("go up to {} as it stands", money(limit));
  if (a_.with_tests > limit && a_.next_plan().begins_with_test())
    text += fmt::format(", and to {} only after: {}", money(a_.with_tests), first_test());
  return text;
}

std::string AppraisalInWords::next() const {
  const auto decided = a_.decided();
  switch (a_.verdict) {
    case Verdict::buy:
      return decided && *decided != 0 ? fmt::format("{}, at {} or less", a_.offers[*decided].name,
                                                    money(a_.offers[*decided].price))
                                      : fmt::format("buy it; {} is asked, and up to {} may be paid",
                                                    money(a_.asking), money(a_.walk_away.price));
    case Verdict::test_first:
      return first_test();
    case Verdict::offer_less:
      return offer_less();
    case Verdict::walk_away:
      return "leave it, even as a gift";
  }
  return "";
}

std::string AppraisalInWords::test_next() const {
  const Plan& plan = a_.next_plan();
  return fmt::format("Test next, at {}: {}; worth {}{}.", money(plan.price), first_test(),
                     plan.exact ? "" : "at least ", roughly(plan.gain()));
}

std::string AppraisalInWords::up_to(const AfterTest& after) const {
  return after.walk_away.price >= 0 ? "up to " + money(after.walk_away.price) : "walk away";
}

std::string AppraisalInWords::barred(const AfterTest& after) const {
  if (!after.barred_by) return "";
  const Plan& plan = a_.next_plan();
  const std::string says =
      fmt::format("\"{}\" would bar the purchase by {}", job_.tests[plan.steps.which].outcomes[after.outcome],
                  words_of(*after.barred_by).bars);
  if (*after.barred_by != Aim::loss_chance) return says;
  return fmt::format("{}: {} against {} unseen", says, in_percent(after.loss_chance),
                     in_percent((&plan == &a_.plan ? a_.asked : a_.to_pay).risk.loss_chance));
}

// The courses that are best in some case of the troubles, the likeliest first.
std::string AppraisalInWords::best_of(const CauseFigures& cause) const {
  const Cause& of = job_.causes[static_cast<std::size_t>(&cause - a_.causes.data())];
  std::string names = name_of(of, cause.best);
  for (std::size_t k = 0; k < all_courses.size(); ++k)
    if (all_courses[k] != cause.best && cause.taken[k] > 0)
      names += std::string(" or ") + name_of(of, all_courses[k]);
  return names;
}

std::string AppraisalInWords::troubles() const {
  std::string named;
  for (std::size_t j = 0; j < a_.troubles.size(); ++j)
    if (a_.troubles[j] > 0)
      named += fmt::format("{}{} ({})", named.empty() ? "" : ", ", job_.troubles[j].name,
                           in_percent(a_.troubles[j]));
  return named.empty() ? "" : "whatever the cause, perhaps: " + named;
}

std::string AppraisalInWords::spread() const {
  const Risk& r = a_.to_pay.risk;
  return fmt::format("One time in twenty below {}, one in twenty above {}; half the time above {}.",
                     money(r.cash_profit[0]), money(r.cash_profit[4]), money(r.cash_profit[2]));
}

std::vector<AppraisalInWords::SpreadStep> AppraisalInWords::spread_steps() const {
  const Risk& risk = a_.to_pay.risk;
  std::vector<SpreadStep> steps;
  if (risk.bars.empty()) return steps;
  const double tallest = *std::max_element(risk.bars.begin(), risk.bars.end());
  const double step = (risk.to - risk.from) / static_cast<double>(risk.bars.size());
  for (std::size_t i = 0; i < risk.bars.size(); ++i) {
    const double from = risk.from + step * static_cast<double>(i);
    steps.push_back({about(from, job_.currency), about(from + step, job_.currency), in_percent(risk.bars[i]),
                     tallest > 0 ? risk.bars[i] / tallest : 0, from + step <= 0});
  }
  return steps;
}

}  // namespace nonrunner::words
