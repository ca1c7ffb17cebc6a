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
    Json at_walk_away = Object().with("price", money(a_.plan_at_walk_away.price));
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
    json["to_pay"] = Object()
                         .with("offer", a_.offers[a_.to_pay.offer].name)
                         .with("price", money(a_.to_pay.price))
                         .with("aims_held", a_.to_pay.policy.holds)
                         .with("expected", expected(a_.to_pay.expected))
                         .with("risk", risk(a_.to_pay.risk));
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

  // The key of the aim that sets the price.
  static const char* binding(const WalkAway& w) { return w.binding ? row_of(*w.binding).key : "together"; }
  Json walk_away(const WalkAway& w) const {
    Json limits;
    for (const figures::AimRow& row : figures::aims) limits[row.key] = money(w.by[row.aim]);
    return Object()
        .with("price", money(w.price))
        .with("binding", binding(w))
        .with("at_most", money(w.at_most))
        .with("limits", limits);
  }

  Json posterior() const {
    Json list = Json::array();
    for (std::size_t c = 0; c < a_.causes.size(); ++c)
      list.push_back(Object()
                         .with("cause", a_.job.causes[c].name)
                         .with("prior", steady(a_.causes[c].prior))
                         .with("probability", steady(a_.causes[c].probability)));
    return list;
  }

  Json troubles() const {
    Json list = Json::array();
    for (std::size_t j = 0; j < a_.troubles.size(); ++j)
      list.push_back(Object()
                         .with("trouble", a_.job.troubles[j].name)
                         .with("prior", steady(a_.job.troubles[j].chance))
                         .with("probability", steady(a_.troubles[j])));
    return list;
  }

  Json offers() const {
    Json list = Json::array();
    for (const OfferFigures& offer : a_.offers)
      list.push_back(Object()
                         .with("offer", offer.name)
                         .with("price", money(offer.price))
                         .with("expected_profit", money(offer.expected_profit)));
    return list;
  }

  // In the order of the offers.
  Json offer_limits() const {
    Json list = Json::array();
    for (const OfferFigures& offer : a_.offers)
      list.push_back(Object()
                         .with("offer", offer.name)
                         .with("walk_away", walk_away(offer.walk_away))
                         .with("loss_chance", steady(offer.loss_chance)));
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
      Json outcome = Object()
                         .with("outcome", a_.job.tests[step.which].outcomes[branch.outcome])
                         .with("chance", steady(branch.chance));
      outcome["then"] = branch.step.empty() ? Json(nullptr) : this->step(branch.step.front());
      json["outcomes"].push_back(outcome);
    }
    return json;
  }

  Json plan(const Plan& plan) const {
    Json tests = Json::array();
    for (const TestWorth& test : plan.tests)
      tests.push_back(Object()
                          .with("test", a_.job.tests[test.test].name)
                          .with("cost", money(test.cost))
                          .with("gross", money(test.gross))
                          .with("net", money(test.net)));
    const PlanStep& first = plan.steps;
    return Object()
        .with("decide_now", money(plan.decide_now))
        .with("best", money(plan.best))
        .with("exact", plan.exact)
        .with("perfect_information", money(plan.perfect_information))
        .with("first", first.act == Do::test ? Json(a_.job.tests[first.which].name) : Json(nullptr))
        .with("tests", tests)
        .with("steps", step(first));
  }

  // Null where none is to be made.
  Json next_test() const {
    const Plan& plan = a_.next_plan();
    if (!plan.begins_with_test()) return nullptr;
    return Object()
        .with("test", a_.job.tests[plan.steps.which].name)
        .with("price", money(plan.price))
        .with("worth", money(plan.gain()));
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
      const Cause& cause = a_.job.causes[s / masks];
      Json corrections = Json::array();
      const Chain chain = chain_of(a_.job, cause);
      for (std::size_t i = 0; i < path.tried; ++i)
        corrections.push_back(a_.job.corrections[chain.steps[i].correction].name);
      const bool can_fail = path.tried > 0 && (path.tried < chain.steps.size() || chain.fails > 0);
      list.push_back(
          Object()
              .with("cause", cause.name)
              .with("troubles", troubles)
              .with("chance", steady(chance))
              .with("course", name_of(cause, path.course))
              .with("corrections", corrections)
              .with("if_all_fail", can_fail ? Json(name_of(cause, path.if_all_fail)) : Json(nullptr)));
    }
    return list;
  }

  Json cash_needed(const AtPrice& at) const {
    Json troubles = Json::array();
    for (std::size_t j = 0; j < a_.troubles.size(); ++j)
      if (at.cash_needed.worst_troubles >> j & 1u) troubles.push_back(a_.job.troubles[j].name);
    return Object()
        .with("price", money(at.price))
        .with("expected", money(at.cash_needed.expected))
        .with("worst", money(at.cash_needed.worst))
        .with("p95", money(at.cash_needed.p95))
        .with("worst_case", Object()
                                .with("cause", a_.job.causes[at.cash_needed.worst_cause].name)
                                .with("troubles", troubles));
  }

  Json courses() const {
    Json list = Json::array();
    for (std::size_t c = 0; c < a_.causes.size(); ++c) {
      const Cause& cause = a_.job.causes[c];
      Json profits;
      for (std::size_t k = 0; k < all_courses.size(); ++k)
        profits[name_of(all_courses[k])] =
            is_nothing(cause, all_courses[k]) ? Json(nullptr) : money(a_.causes[c].profit[k]);
      list.push_back(Object()
                         .with("cause", cause.name)
                         .with("best", name_of(cause, a_.causes[c].best))
                         .with("expected_profit", profits));
    }
    return list;
  }

  Json expected(const Expected& e) const {
    return Object()
        .with("cash_profit", money(e.cash_profit))
        .with("profit", money(e.profit))
        .with("own_hours", steady(e.own_hours))
        .with("days", steady(e.days))
        .with("sale_price", money(e.sale_price))
        .with("cash_needed", money(e.cash_needed))
        .with("per_hour", money(e.per_hour));
  }

  Json quantiles(const std::array<double, 5>& of) const {
    return Object()
        .with("p05", money(of[0]))
        .with("p25", money(of[1]))
        .with("p50", money(of[2]))
        .with("p75", money(of[3]))
        .with("p95", money(of[4]));
  }

  Json risk(const Risk& r) const {
    Json bars = Json::array();
    for (const double bar : r.bars) bars.push_back(steady(bar));
    Json json = Object()
                    .with("loss_chance", steady(r.loss_chance))
                    .with("quantiles", quantiles(r.cash_profit))
                    .with("profit_quantiles", quantiles(r.profit))
                    .with("points", r.points)
                    .with("sampled_mean", Object()
                                              .with("cash_profit", money(r.sampled_cash_profit))
                                              .with("profit", money(r.sampled_profit)))
                    .with("spread",
                          Object().with("from", money(r.from)).with("to", money(r.to)).with("chances", bars));
    // Only then: most jobs are drawn in full.
    if (r.fewer)
      json["fewer_points"] = Object()
                                 .with("ways", r.fewer->ways)
                                 .with("least_of_a_way", r.fewer->least)
                                 .with("most_of_a_way", r.fewer->most);
    return json;
  }

  Json after_first_test() const {
    Json list = Json::array();
    for (const AfterTest& after : a_.after_first_test)
      list.push_back(
          Object()
              .with("outcome", a_.job.tests[a_.next_plan().steps.which].outcomes[after.outcome])
              .with("chance", steady(after.chance))
              .with("walk_away_price", money(after.walk_away.price))
              .with("binding", binding(after.walk_away))
              .with("expected_profit", money(after.expected_profit))
              .with("barred_by", after.barred_by ? Json(row_of(*after.barred_by).key) : Json(nullptr))
              .with("then", then_in_words(a_, after)));
    return list;
  }

  Json fixes() const {
    Json list = Json::array();
    for (std::size_t i = 0; i < a_.job.faults.size(); ++i)
      if (const auto fix = a_.fixes.choices[i].fix)
        list.push_back(Object()
                           .with("fault", a_.job.faults[i].name)
                           .with("fix", a_.job.faults[i].fixes[*fix].name)
                           .with("gain", money(a_.fixes.choices[i].gain)));
    return list;
  }

  Json fix_choices() const {
    Json list = Json::array();
    for (std::size_t i = 0; i < a_.job.faults.size(); ++i)
      for (std::size_t k = 0; k < a_.job.faults[i].fixes.size(); ++k)
        list.push_back(Object()
                           .with("fault", a_.job.faults[i].name)
                           .with("fix", a_.job.faults[i].fixes[k].name)
                           .with("gain", money(a_.fixes.choices[i].gains[k]))
                           .with("chosen", a_.fixes.choices[i].fix == k)
                           .with("must", a_.job.faults[i].must));
    return list;
  }

  Json costs_to_name() const {
    Json list = Json::array();
    for (const CostToName& cost : a_.costs_to_name)
      list.push_back(Object()
                         .with("what", cost.what)
                         .with("amount", money(cost.amount))
                         .with("chance", steady(cost.chance)));
    return list;
  }

  Json moves() const {
    Json list = Json::array();
    for (const Move& move : a_.moves)
      list.push_back(Object()
                         .with("amount", move.amount)
                         .with("low", money(move.profit_at_10))
                         .with("high", money(move.profit_at_90)));
    return list;
  }

  // Null where the sound value was given.
  Json comparables() const {
    if (!a_.sound.fit) return nullptr;
    const resale::SoundValue& fit = *a_.sound.fit;
    const auto slope = [&](const resale::Slope& of) {
      return Object().with("likely", steady(of.likely)).with("give_or_take", steady(of.give_or_take));
    };
    Json rows = Json::array();
    for (const resale::Placed& row : fit.rows)
      rows.push_back(Object()
                         .with("comparable", row.name)
                         .with("sold_basis", money(row.sold_basis))
                         .with("on_the_line", money(row.fitted))
                         .with("decides", steady(row.leverage))
                         .with("far_off", row.far_off)
                         .with("pulls", row.pulls));
    return Object()
        .with("sound_value", Object()
                                 .with("mean", money(a_.sound.mean))
                                 .with("p05", money(a_.sound.quantile(0.05)))
                                 .with("p50", money(a_.sound.quantile(0.50)))
                                 .with("p95", money(a_.sound.quantile(0.95))))
        .with("slopes", Object()
                            .with("odometer", slope(fit.odometer))
                            .with("year", slope(fit.year))
                            .with("grade", slope(fit.grade)))
        .with("realised", steady(fit.realised))
        .with("scatter", money(fit.residual_sd))
        .with("rows", rows);
  }

  Json cautions() const {
    Json list = Json::array();
    for (const Caution& caution : a_.cautions)
      list.push_back(Object()
                         .with("about", caution.about)
                         .with("text", caution.text)
                         .with("operations", caution.operations));
    return list;
  }

  const Appraisal& a_;
};

}  // namespace

std::string to_json(const Appraisal& a) { return text_of(Writer(a).all()); }
std::string kept_json(const Appraisal& a) { return Writer(a).all().dump(); }

}  // namespace nonrunner::words
