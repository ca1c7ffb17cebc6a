#include "words/year_sums.h"

#include <fmt/format.h>

#include "words/json.h"

namespace nonrunner::words {

namespace {
Json plain_or_null(const std::optional<Money>& amount, const Currency& c) {
  return amount ? Json(amount->plain(c)) : Json(nullptr);
}
}  // namespace

std::vector<YearRow> how_it_comes_about(const answers::YearSums& sums) {
  std::vector<YearRow> rows = {YearRow{"sales", sums.sales + sums.sales_returned, ""},
                               {"sales returned", -sums.sales_returned, "that fell through"},
                               {"cost of what was sold", -sums.cost_of_sales, ""},
                               {"selling costs", -sums.selling_costs, ""},
                               {"other income", sums.other_income, "deposits kept, parts sold after the car"},
                               {"late cost", -sums.late_cost, "paid after the sale"},
                               {"overhead", -sums.overhead, ""},
                               {"tools", -sums.tools, ""},
                               {"looking", -sums.looking, "at cars that were left"}};
  std::erase_if(rows, [](const YearRow& row) { return is_zero(row.amount); });
  return rows;
}

std::string end_of(const answers::YearSums& sums, Day today) {
  return sums.year < today.year() ? "at the end of the year" : "as it stands today";
}

std::vector<YearRow> there_at_the_end(const answers::YearSums& sums, const Currency& c) {
  const std::string cards = is_zero(sums.owed_on_cards) ? ""
                                                        : fmt::format("of it {} on cards, in purses too",
                                                                      sums.owed_on_cards.shown(c));
  std::vector<YearRow> rows = {YearRow{"in cars", sums.in_cars, ""},
                               {"on the shelf", sums.on_the_shelf, ""},
                               {"in tools", sums.in_tools, "kept as an asset"},
                               {"in purses", sums.in_purses, ""},
                               {"due back", sums.due_back, ""},
                               {"owed", sums.owed, cards}};
  std::erase_if(rows, [](const YearRow& row) { return is_zero(row.amount); });
  return rows;
}

std::string hours_before(const answers::YearSums& sums) {
  std::string all;
  for (const answers::YearCar& car : sums.cars)
    if (car.hours_before > Hours{})
      all += fmt::format("{}{} of {}", all.empty() ? "" : ", ", car.hours_before.shown(), car.tag);
  return all.empty() ? all : "an hour: with the own hours of the years before, " + all;
}

std::string to_json(const answers::YearSums& sums, const Currency& c) {
  Json json;
  json["currency"] = c.code;
  json["year"] = sums.year;
  const auto amount = [&](const char* key, Money value) { json[key] = value.plain(c); };
  amount("sales", sums.sales);
  amount("sales_returned", sums.sales_returned);
  amount("cost_of_sales", sums.cost_of_sales);
  amount("selling_costs", sums.selling_costs);
  amount("other_income", sums.other_income);
  amount("late_cost", sums.late_cost);
  amount("overhead", sums.overhead);
  amount("tools", sums.tools);
  amount("looking", sums.looking);
  amount("result", sums.result);
  amount("in_cars", sums.in_cars);
  amount("on_the_shelf", sums.on_the_shelf);
  amount("in_tools", sums.in_tools);
  amount("in_purses", sums.in_purses);
  amount("due_back", sums.due_back);
  amount("owed", sums.owed);
  amount("owed_on_cards", sums.owed_on_cards);
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
    row["own_hours_before"] = exact(car.hours_before.shown());
    row["result_per_own_hour"] = plain_or_null(car.per_own_hour, c);
  }
  return text_of(json);
}

}  // namespace nonrunner::words
