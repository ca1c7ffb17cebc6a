#include "words/away.h"

#include <fmt/format.h>

#include "words/json.h"

namespace nonrunner::words {

namespace {

Json list_of(const std::vector<BackForm>& forms) {
  Json list = Json::array();
  for (const BackForm& form : forms) {
    Json& row = added(list);
    row["says"] = form.says();
    row["cannot"] = form.cannot;
    row["fields"] = Json::object();
    for (const auto& [name, value] : form.fields) row["fields"][name] = value;
    row["asked"] = Json::array();
    for (const BackForm::Asked& each : form.asked)
      added(row["asked"]) =
          Object().with("name", each.name).with("label", each.label).with("value", each.value);
    row["purse"] = form.purse ? Json(*form.purse) : Json();
    row["button"] = form.button;
  }
  return list;
}

}  // namespace

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
  json["due"] = Json::array();  // in words, for the script of an older program
  for (const BackForm& each : lists.due) json["due"].push_back(each.says());
  json["back"] = list_of(lists.due);
  json["may_go_back"] = list_of(lists.may_go_back);
  json["work"] = Json::array();
  for (const AwayWork& each : lists.work)
    added(json["work"]) =
        Object().with("vehicle", each.vehicle).with("operation", each.operation).with("says", each.says);
  json["clock"] = Json();
  if (!lists.clock_on.empty())
    json["clock"] = Object().with("vehicle", lists.clock_on).with("since", lists.clock_since);
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
