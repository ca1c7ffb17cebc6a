#include "words/price.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "figures/opinion.h"
#include "text/counted.h"
#include "words/json.h"

namespace nonrunner::words {

std::string in_words(const answers::Doubt& doubt) {
  if (doubt.kind == answers::Doubt::Kind::bars_road)
    return fmt::format(
        "by the appraisal of {} \"{}\" {}bars the road: then it may not be sold running",
        doubt.appraised.iso(), doubt.name,
        doubt.chance == 1 ? "" : fmt::format("with a chance of {:.0f} % ", 100 * doubt.chance));
  return fmt::format(
      "the appraisal of {} means to {} and not to put it right; this is for selling it running all the same",
      doubt.appraised.iso(), doubt.name);
}

std::string shown_round(double units, const Currency& currency) {
  const std::string text = in_money(std::round(units), currency).shown(currency);
  return currency.digits == 0 ? text
                              : text.substr(0, text.size() - static_cast<std::size_t>(currency.digits) - 1);
}

std::string advertise_at(const answers::AskingPrice& answer) {
  const auto& stages = answer.plan.stages;
  const Currency& c = answer.currency;
  if (answer.is_best_offer())
    return fmt::format("{}: no single price: ask {} to draw offers, and take the best by {}", answer.tag,
                       shown_round(stages[0].ask, c), answer.best_offer_by().iso());
  return fmt::format("{}: advertise at {}", answer.tag, shown_round(stages[0].ask, c));
}

std::string drops(const answers::AskingPrice& answer) {
  const auto& stages = answer.plan.stages;
  std::string text;
  if (answer.is_best_offer()) return text;
  for (std::size_t i = 1; i < stages.size(); ++i)
    text +=
        fmt::format("{} {} on {}", i == 1 ? "unsold, drop to" : ", to",
                    shown_round(stages[i].ask, answer.currency), answer.first.plus(stages[i].from_day).iso());
  return text;
}

std::string take_from(const answers::AskingPrice& answer) {
  return fmt::format("take from {} on: below it {} is better from here",
                     shown_round(answer.take_from, answer.currency),
                     answer.better_below ? std::string("to ") + name_of(*answer.better_below)
                                         : std::string("to wait for another buyer"));
}

std::string floor_of(const answers::AskingPrice& answer) {
  return fmt::format("floor {}: brings back all that went in, and {} still to come",
                     answer.floor.shown(answer.currency), answer.to_come.shown(answer.currency));
}

std::vector<std::string> where_it_stands(const answers::AskingPrice& answer) {
  if (!answer.advertised) return {};
  const Currency& c = answer.currency;
  const double first = answer.plan.stages[0].ask;
  int days = 0;
  for (const auto& each : answer.stood) days += each.days;
  const double now = in_units(*answer.advertised, c);
  std::vector<std::string> all = {fmt::format("it has stood {}, {} now, and did not sell: that is counted in",
                                              counted(days, "day"), shown_round(now, c))};
  if (answer.loss_at(now) > 0)
    all.push_back(fmt::format("{} is BELOW THE FLOOR: sold there it LOSES {}; raise it to {} at least",
                              shown_round(now, c), shown_units(answer.loss_at(now), c),
                              answer.floor.shown(c)));
  else if (first > now && !answer.is_best_offer())
    all.push_back(fmt::format(
        "{} is MORE than it stands at: by the appraisal {} is low yet; leave it there, or raise it",
        shown_round(first, c), shown_round(now, c)));
  return all;
}

std::string expected(const answers::AskingPrice& answer) {
  return fmt::format("expected: {} after {:.0f} days", shown_round(answer.plan.expected_got, answer.currency),
                     answer.plan.expected_days);
}

std::vector<std::string> warnings(const answers::AskingPrice& answer, const std::string& say_cause) {
  std::vector<std::string> all;
  if (answer.hours_to_come > 0.05)
    all.push_back(fmt::format("as if it were ready today: {:.1f} own hours of work are still to come",
                              answer.hours_to_come));
  if (!answer.likeliest.empty())
    all.push_back(fmt::format(
        "no cause is noted, so the likeliest ({:.0f} %) is taken: {}{}{}", 100 * answer.likeliest_chance,
        answer.likeliest,
        answer.dearest.empty()
            ? std::string()
            : fmt::format("; if it is {} ({:.0f} %) the floor is {}", answer.dearest,
                          100 * answer.dearest_chance, answer.dearest_floor.shown(answer.currency)),
        say_cause));
  if (answer.part_out && answer.part_out_day)
    all.push_back(
        *answer.part_out_day == 0
            ? "PARTING OUT would leave more than selling it whole, today already"
            : fmt::format("from {} on parting out would leave more than what is left of selling it whole",
                          answer.first.plus(*answer.part_out_day).iso()));
  if (answer.is_best_offer()) {
    if (answer.plan.expected_got < answer.floor_units())
      all.emplace_back("the best offer is expected below the floor: a LOSS");
  } else if (answer.floor_units() > answer.plan.stages.back().got) {
    all.emplace_back("the last price lies below the floor: a LOSS, if it comes to that");
  }
  return all;
}

std::vector<StageRow> stages(const answers::AskingPrice& answer) {
  const Currency& c = answer.currency;
  std::vector<StageRow> rows;
  for (const resale::PriceStage& stage : answer.plan.stages) {
    const double over = stage.got - answer.floor_units();
    rows.push_back(
        {answer.first.plus(stage.from_day).iso(), shown_round(stage.ask, c),
         fmt::format("{:.0f} %", stage.chance * 100), shown_round(stage.got, c),
         shown_round(stage.take_from, c),
         fmt::format("{} {}", shown_round(std::abs(over), c), over < 0 ? "below: a loss" : "above")});
  }
  return rows;
}

std::vector<std::string> after_the_plan(const answers::AskingPrice& answer) {
  const Currency& c = answer.currency;
  std::vector<std::string> all = {
      fmt::format("unsold on {} (chance {:.0f} %): take the best offer",
                  answer.first.plus(answer.plan.stages.back().until_day).iso(),
                  answer.plan.best_offer_chance * 100),
      fmt::format("of the {} expected, commission and days leave {}",
                  shown_round(answer.plan.expected_got, c), shown_round(answer.plan.expected_net, c))};
  if (answer.part_out)
    all.push_back(
        fmt::format("parting out would leave {}{}", shown_round(*answer.part_out, c),
                    answer.part_out_day ? "" : ": less than selling it whole, to the end of this plan"));
  all.push_back(fmt::format("an own hour counts as {}, as {} says", shown_units(answer.hour, c),
                            answer.hour_is_shops ? "this book" : "its appraisal"));
  all.push_back(fmt::format("brings: price x {:.3f}, as buyers haggle; take from: better than going on",
                            answer.realised));
  return all;
}

std::string to_json(const answers::AskingPrice& answer) {
  const Currency& c = answer.currency;
  Json json;
  json["tag"] = answer.tag;
  json["currency"] = c.code;
  json["floor"] = answer.floor.plain(c);
  json["take_from"] = plain_units(answer.take_from, c);
  json["better_below"] = answer.better_below ? Json(name_of(*answer.better_below)) : Json("wait");
  json["to_come"] = answer.to_come.plain(c);
  json["advertised"] = answer.advertised ? Json(answer.advertised->plain(c)) : Json(nullptr);
  json["plan"] = Json::array();
  for (const resale::PriceStage& stage : answer.plan.stages) {
    Json& row = added(json["plan"]);
    row["from"] = answer.first.plus(stage.from_day).iso();
    row["until"] = answer.first.plus(stage.until_day).iso();
    row["price"] = plain_units(stage.ask, c);
    row["chance"] = stage.chance;
    row["brings"] = plain_units(stage.got, c);
    row["take_from"] = plain_units(stage.take_from, c);
    row["above_floor"] = plain_units(stage.got - answer.floor_units(), c);
  }
  json["loss_at_advertised"] =
      answer.advertised ? Json(plain_units(std::max(0.0, answer.loss_at(in_units(*answer.advertised, c))), c))
                        : Json(nullptr);
  json["best_offer_by"] = answer.is_best_offer() ? Json(answer.best_offer_by().iso()) : Json(nullptr);
  json["doubts"] = Json::array();
  for (const answers::Doubt& doubt : answer.doubts) json["doubts"].push_back(in_words(doubt));
  json["hours_to_come"] = answer.hours_to_come;
  json["dearest"] = answer.dearest.empty() ? Json(nullptr)
                                           : Object()
                                                 .with("cause", answer.dearest)
                                                 .with("chance", answer.dearest_chance)
                                                 .with("floor", answer.dearest_floor.plain(c));
  json["best_offer_chance"] = answer.plan.best_offer_chance;
  Json& expected = json["expected"];
  expected["sale_price"] = plain_units(answer.plan.expected_got, c);
  expected["days"] = answer.plan.expected_days;
  expected["after_commission_and_days"] = plain_units(answer.plan.expected_net, c);
  json["part_out"] = nullptr;
  if (answer.part_out) {
    Json& part_out = json["part_out"] = Json::object();
    part_out["leaves"] = plain_units(*answer.part_out, c);
    part_out["better_from"] =
        answer.part_out_day ? Json(answer.first.plus(*answer.part_out_day).iso()) : Json(nullptr);
  }
  return text_of(json);
}

}  // namespace nonrunner::words
