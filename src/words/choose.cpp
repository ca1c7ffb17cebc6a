#include "words/choose.h"

#include <cmath>

#include "figures/opinion.h"
#include "words/json.h"

namespace nonrunner::words {

namespace {

using answers::ChooseAnswer;

double millionths(double number) { return std::round(number * 1e6) / 1e6; }

Json set_as_json(const ChooseAnswer& answer, const answers::ChosenSet& set) {
  Json cars = Json::array();
  for (const std::size_t car : set.cars) cars.push_back(answer.cars[car].tag);
  return Object()
      .with("cars", cars)
      .with("expected_profit", plain_units(set.profit, answer.currency))
      .with("cash_needed", plain_units(set.cash, answer.currency))
      .with("own_hours", std::round(set.hours * 1000) / 1000)
      .with("over_cash", millionths(set.over_cash))
      .with("over_hours", millionths(set.over_hours));
}

}  // namespace

std::string to_json(const ChooseAnswer& answer) {
  const auto money = [&](const std::optional<double>& amount) {
    return amount ? Json(plain_units(*amount, answer.currency)) : Json(nullptr);
  };
  Json json;
  json["currency"] = answer.currency.code;
  json["cash"] = money(answer.limits.cash);
  json["own_hours"] = answer.limits.hours ? Json(*answer.limits.hours) : Json(nullptr);
  json["cars"] = Json::array();
  for (const ChooseAnswer::Car& car : answer.cars) {
    Json line = Object()
                    .with("tag", car.tag)
                    .with("price", money(car.price))
                    .with("verdict", appraisal::name_of(car.verdict))
                    .with("walk_away_price", money(car.walk_away))
                    .with("first_test", car.first_test.empty() ? Json(nullptr) : Json(car.first_test))
                    .with("in_question", car.is_in_question());
    line["expected_profit"] = car.takes ? money(car.takes->profit) : Json(nullptr);
    line["cash_needed"] = car.takes ? money(car.takes->cash) : Json(nullptr);
    line["own_hours"] = car.takes ? Json(std::round(car.takes->hours * 1000) / 1000) : Json(nullptr);
    json["cars"].push_back(line);
  }
  json["best"] = set_as_json(answer, answer.best);
  json["next_best"] = answer.next_best ? set_as_json(answer, *answer.next_best) : Json(nullptr);
  json["with_100_more_cash"] = money(answer.with_more_cash);
  json["with_5_more_hours"] = money(answer.with_more_hours);
  json["safer"] = answer.safer ? set_as_json(answer, *answer.safer) : Json(nullptr);
  return text_of(json);
}

}  // namespace nonrunner::words
