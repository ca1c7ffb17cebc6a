#include "words/away.h"

#include <fmt/format.h>

#include "words/json.h"

namespace nonrunner::words {

std::string to_json(const AwayLists& lists) {
  Json json;
  json["as_of"] = lists.as_of;
  json["digits"] = lists.currency.digits;
  json["cars"] = lists.cars;
  json["car"] = lists.car;
  json["purses"] = lists.purses;
  json["purse"] = lists.purse;
  json["words"] = lists.words;
  json["suppliers"] = lists.suppliers;
  json["due"] = lists.due;
  json["looked_at"] = lists.looked_at;
  json["shopping"] = Json::array();
  for (const figures::ShoppingLine& line : lists.shopping) {
    const Money price = line.price.times(line.quantity);
    const Money core = line.core.times(line.quantity);
    const std::string pieces = line.quantity == Quantity::of(1000) ? "" : line.quantity.shown() + " ";
    Json& row = added(json["shopping"]);
    row["vehicle"] = line.vehicle;
    row["what"] = line.what;
    row["amount"] = price.plain(lists.currency);
    row["core"] = is_zero(core) ? "" : core.plain(lists.currency);  // paid on top of the amount
    row["says"] = fmt::format("{}{}, {}: {}{}", pieces, line.what, line.vehicle, price.shown(lists.currency),
                              line.certain ? "" : ", if it is needed");
  }
  return text_of(json);
}

}  // namespace nonrunner::words
