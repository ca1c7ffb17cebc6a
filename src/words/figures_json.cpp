#include "words/figures_json.h"

#include <nlohmann/json.hpp>

namespace nonrunner::words {

using Json = nlohmann::ordered_json;

namespace {

Json money(const std::optional<Money>& amount, const Currency& currency) {
  return amount ? Json(amount->plain(currency)) : Json(nullptr);
}
Json number(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }
// Three decimals at most, so the nearest double prints as the decimal it stands for.
Json exact(const std::string& decimal) { return Json::parse(decimal); }

}  // namespace

Json due_as_json(const book::Due& due, const Currency& currency) {
  return {{"what", due.what},
          {"amount", due.amount.plain(currency)},
          {"from", due.from},
          {"by", due.by ? Json(due.by->iso()) : Json(nullptr)}};
}

Json as_json(const book::VehicleFigures& f, const book::Book& book) {
  const Currency& c = book.currency();
  Json json;
  json["tag"] = f.tag;
  json["currency"] = c.code;
  json["state"] = book::shown(f.life);
  json["bought"] = f.life.bought ? Json(f.life.bought_day.iso()) : Json(nullptr);
  json["ended"] = f.life.ended ? Json(f.life.ended_day.iso()) : Json(nullptr);
  json["price_paid"] = f.life.bought ? money(f.price_paid, c) : Json(nullptr);
  json["fees"] = f.life.bought ? money(f.fees, c) : Json(nullptr);
  json["cost"] = f.cost.plain(c);
  json["recovered_before"] = f.recovered_before.plain(c);
  json["recovered_after"] = f.recovered_after.plain(c);
  json["sales"] = f.sales.plain(c);
  json["selling_costs"] = f.selling_costs.plain(c);
  json["deposit_kept"] = f.deposit_kept.plain(c);
  json["deposit_held"] = f.deposit_held.plain(c);
  json["late_cost"] = f.late_cost.plain(c);
  json["still_brings"] = money(f.still_brings, c);
  json["carried"] = f.carried.plain(c);
  json["cash_profit"] = money(f.cash_profit, c);
  json["first_cash_profit"] = money(f.first_cash_profit, c);
  json["profit"] = money(f.profit, c);
  json["margin"] = number(f.margin);
  json["margin_after_own_hours"] = number(f.margin_after_own_hours);
  json["per_own_hour"] = money(f.per_own_hour, c);
  json["own_hours"] = exact(f.own_hours.shown());
  json["paid_hours"] = exact(f.paid_hours.shown());
  json["distance"] = exact(f.distance.shown());
  json["distance_unit"] = book.distance_unit();
  json["days"] = f.days ? Json(*f.days) : Json(nullptr);
  json["days_held"] = f.life.state == book::State::owned ? Json(f.days_held) : Json(nullptr);
  json["break_even_price"] = money(f.break_even_price, c);
  json["advertised_first"] = money(f.advertised_first, c);
  json["advertised_last"] = money(f.advertised_last, c);
  json["final"] = f.final;
  json["hours"] = Json::array();
  for (const book::OperationHours& each : f.hours)
    json["hours"].push_back({{"operation", each.operation},
                             {"own", exact(each.own.shown())},
                             {"paid", exact(each.paid.shown())}});
  json["due"] = Json::array();
  for (const book::Due& due : f.due) json["due"].push_back(due_as_json(due, c));
  json["not_itemised"] = f.waiting;
  return json;
}

}  // namespace nonrunner::words
