#include "words/year_sums.h"

#include "words/json.h"

namespace nonrunner::words {

namespace {
Json plain_or_null(const std::optional<Money>& amount, const Currency& c) {
  return amount ? Json(amount->plain(c)) : Json(nullptr);
}
}  // namespace

std::string to_json(const answers::YearSums& sums, const Currency& c) {
  Json json;
  json["currency"] = c.code;
  json["year"] = sums.year;
  const std::pair<const char*, Money> amounts[] = {{"sales", sums.sales},
                                                   {"cost_of_sales", sums.cost_of_sales},
                                                   {"selling_costs", sums.selling_costs},
                                                   {"other_income", sums.other_income},
                                                   {"late_cost", sums.late_cost},
                                                   {"overhead", sums.overhead},
                                                   {"tools", sums.tools},
                                                   {"looking", sums.looking},
                                                   {"result", sums.result},
                                                   {"in_cars", sums.in_cars},
                                                   {"on_the_shelf", sums.on_the_shelf},
                                                   {"in_purses", sums.in_purses},
                                                   {"due_back", sums.due_back},
                                                   {"owed", sums.owed}};
  for (const auto& [key, amount] : amounts) json[key] = amount.plain(c);
  json["own_hours"] = exact(sums.own_hours.shown());
  json["result_per_own_hour"] = plain_or_null(sums.per_own_hour, c);
  json["without_paper"] = sums.without_paper;
  json["vehicles"] = Json::array();
  for (const answers::YearCar& car : sums.cars) {
    Json& row = added(json["vehicles"]);
    row["vehicle"] = car.tag;
    row["state"] = car.state;
    row["result"] = car.result.plain(c);
    row["own_hours"] = exact(car.own_hours.shown());
    row["result_per_own_hour"] = plain_or_null(car.per_own_hour, c);
  }
  return text_of(json);
}

}  // namespace nonrunner::words
