#include "words/appraise_json.h"

#include <cmath>

#include "figures/opinion.h"
#include "words/json.h"
#include "words/offer_in_words.h"

namespace nonrunner::words {

namespace {

using namespace appraisal;

// The same text on every machine: no more digits than the sums are sure of.
double steady(double number) { return std::round(number * 1e9) / 1e9; }

class Writer {
 public:
  explicit Writer(const Appraisal& a) : a_(a) {}

  Json all() const {
    Json json;
    json["tag"] = a_.job.vehicle.tag;
    json["currency"] = a_.job.currency.code;
    json["asking"] = money(a_.asking);
    json["verdict"] = name_of(a_.verdict);
    json["walk_away"] = walk_away(a_.walk_away);
    json["with_tests_price"] = money(a_.with_tests);
    json["test_from_price"] = money(a_.test_from);
    json["posterior"] = posterior();
    json["troubles"] = troubles();
    json["offers"] = offers();
    json["offer_limits"] = offer_limits();
    json["better_offer"] = a_.better ? Json(a_.offers[*a_.better].name) : Json(nullptr);
    json["better_from"] = money(a_.better_from);
    json["plan"] = plan(a_.plan);
    Json at_walk_away = {{"price", money(a_.plan_at_walk_away.price)}};
    at_walk_away.update(plan(a_.plan_at_walk_away));
    json["plan_at_walk_away"] = at_walk_away;
    json["next_test"] = next_test();
    json["courses"] = courses();
    json["policy"] = policy(a_.at_walk_away);
    json["policy_at_asking"] = policy(a_.asked.policy);
    json["aims_held_at_asking"] = a_.asked.policy.holds;
    json["expected"] = expected(a_.asked.expected);
    json["cash_needed"] = cash_needed(a_.to_pay);
    json["risk"] = risk(a_.asked.risk);
    json["to_pay"] = {{"offer", a_.offers[a_.to_pay.offer].name},
                      {"price", money(a_.to_pay.price)},
                      {"aims_held", a_.to_pay.policy.holds},
                      {"expected", expected(a_.to_pay.expected)},
                      {"risk", risk(a_.to_pay.risk)}};
    json["after_first_test"] = after_first_test();
    json["fixes"] = fixes();
    json["fix_choices"] = fix_choices();
    json["costs_to_name"] = costs_to_name();
    json["first_figure"] = money(a_.first_figure);
    json["moves"] = moves();
    json["sound_value"] = money(a_.sound.mean);
    json["comparables"] = comparables();
    json["cautions"] = cautions();
    json["notes"] = a_.notes;
    return json;
  }

 private:
  Json money(double amount) const { return plain_units(amount, a_.job.currency); }
  Json money(const std::optional<double>& amount) const { return amount ? money(*amount) : Json(nullptr); }

  Json walk_away(const WalkAway& w) const {
    return {{"price", money(w.price)},
            {"binding", w.binding},
            {"at_most", money(w.at_most)},
            {"limits",
             {{"profit", money(w.by_profit)},
              {"loss_chance", money(w.by_loss_chance)},
              {"per_hour", money(w.by_per_hour)}}}};
  }

  Json posterior() const {
    Json list = Json::array();
    for (std::size_t c = 0; c < a_.causes.size(); ++c)
      list.push_back({{"cause", a_.job.causes[c].name},
                      {"prior", steady(a_.causes[c].prior)},
                      {"probability", steady(a_.causes[c].probability)}});
    return list;
  }

  Json troubles() const {
    Json list = Json::array();
    for (std::size_t j = 0; j < a_.troubles.size(); ++j)
      list.push_back({{"trouble", a_.job.troubles[j].name},
                      {"prior", steady(a_.job.troubles[j].chance)},
                      {"probability", steady(a_.troubles[j])}});
    return list;
  }

  Json offers() const {
    Json list = Json::array();
    for (const OfferFigures& offer : a_.offers)
      list.push_back({{"offer", offer.name},
                      {"price", money(offer.price)},
                      {"expected_profit", money(offer.expected_profit)}});
    return list;
  }

  // In the order of the offers.
  Json offer_limits() const {
    Json list = Json::array();
    for (const OfferFigures& offer : a_.offers)
      list.push_back({{"offer", offer.name},
                      {"walk_away", walk_away(offer.walk_away)},
                      {"loss_chance", steady(offer.loss_chance)}});
    return list;
  }

  Json step(const PlanStep& step) const {
    Json json;
    json["do"] = step.act == Do::walk_away ? "walk away" : step.act == Do::buy ? "buy" : "test";
    if (step.act == Do::buy) json["offer"] = a_.offers[step.which].name;
    if (step.act == Do::test) json["test"] = a_.job.tests[step.which].name;
    json["worth"] = money(step.worth);
    if (step.act != Do::test) return json;
    json["outcomes"] = Json::array();
    for (const PlanStep::Branch& branch : step.branches) {
      Json outcome = {{"outcome", a_.job.tests[step.which].outcomes[branch.outcome]},
                      {"chance", steady(branch.chance)}};
      outcome["then"] = branch.step.empty() ? Json(nullptr) : this->step(branch.step.front());
      json["outcomes"].push_back(outcome);
    }
    return json;
  }

  Json plan(const Plan& plan) const {
    Json tests = Json::array();
    for (const TestWorth& test : plan.tests)
      tests.push_back({{"test", a_.job.tests[test.test].name},
                       {"cost", money(test.cost)},
                       {"gross", money(test.gross)},
                       {"net", money(test.net)}});
    const PlanStep& first = plan.steps;
    return {{"decide_now", money(plan.decide_now)},
            {"best", money(plan.best)},
            {"perfect_information", money(plan.perfect_information)},
            {"first", first.act == Do::test ? Json(a_.job.tests[first.which].name) : Json(nullptr)},
            {"tests", tests},
            {"steps", step(first)}};
  }

  // Null where none is to be made.
  Json next_test() const {
    const Plan& plan = a_.next_plan();
    if (!plan.begins_with_test()) return nullptr;
    return {{"test", a_.job.tests[plan.steps.which].name},
            {"price", money(plan.price)},
            {"worth", money(plan.gain())}};
  }

  Json policy(const Policy& policy) const {
    Json list = Json::array();
    const std::size_t masks = std::size_t{1} << a_.job.troubles.size();
    for (std::size_t s = 0; s < policy.paths.size(); ++s) {
      double chance = a_.causes[s / masks].probability;
      Json troubles = Json::array();
      for (std::size_t j = 0; j < a_.troubles.size(); ++j) {
        const bool present = s % masks >> j & 1u;
        chance *= present ? a_.troubles[j] : 1 - a_.troubles[j];
        if (present) troubles.push_back(a_.job.troubles[j].name);
      }
      if (!(chance > 0)) continue;
      const Path& path = policy.paths[s];
      Json corrections = Json::array();
      const Chain chain = chain_of(a_.job, a_.job.causes[s / masks]);
      for (std::size_t i = 0; i < path.tried; ++i)
        corrections.push_back(a_.job.corrections[chain.steps[i].correction].name);
      const bool can_fail = path.tried > 0 && (path.tried < chain.steps.size() || chain.fails > 0);
      list.push_back({{"cause", a_.job.causes[s / masks].name},
                      {"troubles", troubles},
                      {"chance", steady(chance)},
                      {"course", name_of(path.course)},
                      {"corrections", corrections},
                      {"if_all_fail", can_fail ? Json(name_of(path.if_all_fail)) : Json(nullptr)}});
    }
    return list;
  }

  Json cash_needed(const AtPrice& at) const {
    Json troubles = Json::array();
    for (std::size_t j = 0; j < a_.troubles.size(); ++j)
      if (at.cash_needed.worst_troubles >> j & 1u) troubles.push_back(a_.job.troubles[j].name);
    return {
        {"price", money(at.price)},
        {"expected", money(at.cash_needed.expected)},
        {"worst", money(at.cash_needed.worst)},
        {"p95", money(at.cash_needed.p95)},
        {"worst_case", {{"cause", a_.job.causes[at.cash_needed.worst_cause].name}, {"troubles", troubles}}}};
  }

  Json courses() const {
    Json list = Json::array();
    for (std::size_t c = 0; c < a_.causes.size(); ++c) {
      Json profits;
      for (std::size_t k = 0; k < all_courses.size(); ++k)
        profits[name_of(all_courses[k])] = money(a_.causes[c].profit[k]);
      list.push_back({{"cause", a_.job.causes[c].name},
                      {"best", name_of(a_.causes[c].best)},
                      {"expected_profit", profits}});
    }
    return list;
  }

  Json expected(const Expected& e) const {
    return {{"cash_profit", money(e.cash_profit)}, {"profit", money(e.profit)},
            {"own_hours", steady(e.own_hours)},    {"days", steady(e.days)},
            {"sale_price", money(e.sale_price)},   {"cash_needed", money(e.cash_needed)},
            {"per_hour", money(e.per_hour)}};
  }

  Json quantiles(const std::array<double, 5>& of) const {
    return {{"p05", money(of[0])},
            {"p25", money(of[1])},
            {"p50", money(of[2])},
            {"p75", money(of[3])},
            {"p95", money(of[4])}};
  }

  Json risk(const Risk& r) const {
    Json bars = Json::array();
    for (const double bar : r.bars) bars.push_back(steady(bar));
    return {{"loss_chance", steady(r.loss_chance)},
            {"quantiles", quantiles(r.cash_profit)},
            {"profit_quantiles", quantiles(r.profit)},
            {"points", r.points},
            {"sampled_mean",
             {{"cash_profit", money(r.sampled_cash_profit)}, {"profit", money(r.sampled_profit)}}},
            {"spread", {{"from", money(r.from)}, {"to", money(r.to)}, {"chances", bars}}}};
  }

  Json after_first_test() const {
    Json list = Json::array();
    for (const AfterTest& after : a_.after_first_test)
      list.push_back({{"outcome", a_.job.tests[a_.next_plan().steps.which].outcomes[after.outcome]},
                      {"chance", steady(after.chance)},
                      {"walk_away_price", money(after.walk_away.price)},
                      {"binding", after.walk_away.binding},
                      {"expected_profit", money(after.expected_profit)},
                      {"barred_by", after.barred_by.empty() ? Json(nullptr) : Json(after.barred_by)},
                      {"then", then_in_words(a_, after)}});
    return list;
  }

  Json fixes() const {
    Json list = Json::array();
    for (std::size_t i = 0; i < a_.job.faults.size(); ++i)
      if (const auto fix = a_.fixes.choices[i].fix)
        list.push_back({{"fault", a_.job.faults[i].name},
                        {"fix", a_.job.faults[i].fixes[*fix].name},
                        {"gain", money(a_.fixes.choices[i].gain)}});
    return list;
  }

  Json fix_choices() const {
    Json list = Json::array();
    for (std::size_t i = 0; i < a_.job.faults.size(); ++i)
      for (std::size_t k = 0; k < a_.job.faults[i].fixes.size(); ++k)
        list.push_back({{"fault", a_.job.faults[i].name},
                        {"fix", a_.job.faults[i].fixes[k].name},
                        {"gain", money(a_.fixes.choices[i].gains[k])},
                        {"chosen", a_.fixes.choices[i].fix == k},
                        {"must", a_.job.faults[i].must}});
    return list;
  }

  Json costs_to_name() const {
    Json list = Json::array();
    for (const CostToName& cost : a_.costs_to_name)
      list.push_back({{"what", cost.what}, {"amount", money(cost.amount)}, {"chance", steady(cost.chance)}});
    return list;
  }

  Json moves() const {
    Json list = Json::array();
    for (const Move& move : a_.moves)
      list.push_back(
          {{"amount", move.amount}, {"low", money(move.profit_at_10)}, {"high", money(move.profit_at_90)}});
    return list;
  }

  // Null where the sound value was given.
  Json comparables() const {
    if (!a_.sound.fit) return nullptr;
    const resale::SoundValue& fit = *a_.sound.fit;
    const auto slope = [&](const resale::Slope& of) {
      return Json{{"likely", steady(of.likely)}, {"give_or_take", steady(of.give_or_take)}};
    };
    Json rows = Json::array();
    for (const resale::Placed& row : fit.rows)
      rows.push_back({{"comparable", row.name},
                      {"sold_basis", money(row.sold_basis)},
                      {"on_the_line", money(row.fitted)},
                      {"decides", steady(row.leverage)},
                      {"far_off", row.far_off},
                      {"pulls", row.pulls}});
    return {{"sound_value",
             {{"mean", money(a_.sound.mean)},
              {"p05", money(a_.sound.quantile(0.05))},
              {"p50", money(a_.sound.quantile(0.50))},
              {"p95", money(a_.sound.quantile(0.95))}}},
            {"slopes",
             {{"odometer", slope(fit.odometer)}, {"year", slope(fit.year)}, {"grade", slope(fit.grade)}}},
            {"realised", steady(fit.realised)},
            {"scatter", money(fit.residual_sd)},
            {"rows", rows}};
  }

  Json cautions() const {
    Json list = Json::array();
    for (const Caution& caution : a_.cautions)
      list.push_back({{"about", caution.about}, {"text", caution.text}, {"operations", caution.operations}});
    return list;
  }

  const Appraisal& a_;
};

}  // namespace

std::string to_json(const Appraisal& a) { return text_of(Writer(a).all()); }
std::string kept_json(const Appraisal& a) { return Writer(a).all().dump(); }

}  // namespace nonrunner::words
