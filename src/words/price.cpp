#include "words/price.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "figures/opinion.h"
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
