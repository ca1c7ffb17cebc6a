#include "words/book_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "answers/budget_sums.h"
#include "words/in_words.h"

namespace nonrunner::words {

using Json = nlohmann::ordered_json;

namespace {

Json money(const std::optional<Money>& amount, const Currency& currency) {
  return amount ? Json(amount->plain(currency)) : Json(nullptr);
}
Json number(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }
// Three decimals at most, so the nearest double prints as the decimal it stands for.
Json exact(const std::string& decimal) { return Json::parse(decimal); }

template <class Value>
Json or_null(const std::optional<Value>& value) {
  return value ? Json(*value) : Json(nullptr);
}
// As it is printed: two blanks deep, a line at the end.
std::string text_of(const Json& json) { return json.dump(2) + "\n"; }

Json as_json(const book::Due& due, const Currency& currency) {
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
  for (const book::Due& due : f.due) json["due"].push_back(as_json(due, c));
  json["not_itemised"] = f.waiting;
  return json;
}

Json as_json(const answers::Budget& budget, const Currency& c) {
  Json json{{"kept_on", budget.kept_on.iso()},
            {"cause", budget.cause},
            {"cause_is_noted", budget.cause_is_noted},
            {"cause_chance", budget.cause_chance},
            {"ready", budget.ready},
            {"cash_to_come_by_chances",
             Money::of_minor(static_cast<std::int64_t>(std::llround(budget.by_chances()))).plain(c)},
            {"cash_to_come", budget.cash_to_come.plain(c)},
            {"hours_to_come", budget.hours_to_come},
            {"lines", Json::array()},
            {"hours", Json::array()},
            {"not_in_estimate", Json::array()}};
  for (const answers::BudgetLine& line : budget.lines)
    json["lines"].push_back({{"number", line.number},
                             {"group", line.estimate.group},
                             {"what", line.estimate.what},
                             {"state", answers::name_of(line.state)},
                             {"chance", line.chance()},
                             {"if_needed", line.if_needed.plain(c)},
                             {"expected", line.expected.plain(c)},
                             {"booked", line.booked.plain(c)},
                             {"to_come", line.to_come.plain(c)},
                             {"at_completion", (line.booked + line.to_come).plain(c)}});
  json["only_if"] = Json::array();
  for (const answers::OtherLine& line : budget.only_if)
    json["only_if"].push_back({{"number", line.number},
                               {"what", line.estimate.what},
                               {"chance", line.chance},
                               {"if_needed", line.if_needed.plain(c)}});
  json["if_cause"] = Json::array();
  for (const answers::IfCause& each : budget.if_cause)
    json["if_cause"].push_back({{"cause", each.cause},
                                {"chance", each.chance},
                                {"cash_to_come", each.to_come.plain(c)},
                                {"hours_to_come", each.hours_to_come}});
  json["faults_left"] = budget.left_faults;
  json["headings"] = Json::array();
  for (const answers::HeadingSum& each : answers::by_heading(budget))
    json["headings"].push_back({{"heading", each.heading},
                                {"expected", each.expected.plain(c)},
                                {"booked", each.booked.plain(c)},
                                {"to_come", each.to_come.plain(c)}});
  for (const answers::BudgetWork& work : budget.work)
    json["hours"].push_back({{"number", work.number},
                             {"state", answers::name_of(work.state)},
                             {"chance", work.chance},
                             {"group", work.estimate.group},
                             {"operation", work.estimate.operation},
                             {"expected", work.estimate.hours},
                             {"booked", Json::parse(work.booked.shown())},
                             {"to_come", work.to_come}});
  for (const std::size_t i : answers::not_in_estimate(budget))
    json["not_in_estimate"].push_back({{"what", budget.money[i].what},
                                       {"amount", (-budget.money[i].amount).plain(c)},
                                       {"entry", budget.money[i].entry}});
  return json;
}

}  // namespace

std::string facts_as_json(const std::vector<std::pair<std::string, Fact>>& facts) {
  Json json = Json::object();
  for (const auto& [key, fact] : facts)
    std::visit([&, &name = key](const auto& value) { json[name] = value; }, fact);
  return text_of(json);
}

std::string recorded_as_json(book::EntryId entry, const std::vector<std::string>& remarks) {
  Json json;
  if (entry != 0) json["entry"] = entry;
  json["remarks"] = remarks;
  return text_of(json);
}

std::string to_json(const book::VehicleFigures& figures, const std::optional<answers::Budget>& budget,
                    const book::Book& book) {
  Json json = as_json(figures, book);
  json["budget"] = budget ? as_json(*budget, book.currency()) : Json(nullptr);
  return text_of(json);
}

std::string board_as_json(const std::vector<book::BoardRow>& board, const Currency& c) {
  Json json{{"currency", c.code}, {"vehicles", Json::array()}};
  for (const book::BoardRow& row : board)
    json["vehicles"].push_back({{"tag", row.tag},
                                {"state", row.in_pieces ? "in pieces" : book::shown(row.state)},
                                {"days", or_null(row.days)},
                                {"cost_less_recovered", row.cost.plain(c)},
                                {"carried", row.carried.plain(c)},
                                {"own_hours", exact(row.own_hours.shown())},
                                {"sales", row.sold ? Json(row.sales.plain(c)) : Json(nullptr)},
                                {"cash_profit", money(row.cash_profit, c)}});
  return text_of(json);
}

std::string due_as_json(const std::vector<book::Due>& dues, const std::vector<book::MayGoBack>& may,
                        const std::vector<book::Owed>& owed, const Currency& c) {
  Money sum;
  for (const book::Due& due : dues) sum += due.amount;
  Json json{{"currency", c.code},
            {"due", Json::array()},
            {"sum", sum.plain(c)},
            {"may_go_back", Json::array()},
            {"owed", Json::array()}};
  for (const book::Due& due : dues) {
    Json row = as_json(due, c);
    row["vehicles"] = due.vehicles;
    row["line"] = due.line.empty() ? Json(nullptr) : Json(due.line);
    json["due"].push_back(row);
  }
  for (const book::MayGoBack& each : may)
    json["may_go_back"].push_back({{"line", each.line},
                                   {"what", each.what},
                                   {"from", each.supplier},
                                   {"by", each.by.iso()},
                                   {"refund", each.refund.plain(c)}});
  for (const book::Owed& each : owed)
    json["owed"].push_back({{"what", in_words(each)}, {"amount", each.amount.plain(c)}});
  return text_of(json);
}

std::string tray_as_json(const std::vector<book::Waiting>& waiting, const Currency& c) {
  Json json{{"currency", c.code}, {"tray", Json::array()}};
  for (const book::Waiting& each : waiting)
    json["tray"].push_back({{"entry", each.entry},
                            {"date", each.day.iso()},
                            {"vehicles", each.vehicles},
                            {"what", each.what},
                            {"supplier", each.supplier},
                            {"total", each.total.plain(c)}});
  return text_of(json);
}

std::string purses_as_json(const std::vector<book::NamedBalance>& purses, const Currency& c) {
  Json json{{"currency", c.code}, {"purses", Json::object()}};
  for (const book::NamedBalance& purse : purses) json["purses"][purse.name] = purse.amount.plain(c);
  return text_of(json);
}

std::string stock_as_json(const std::vector<book::NamedBalance>& stock, const Currency& c) {
  Json json{{"currency", c.code}, {"stock", Json::array()}};
  for (const book::NamedBalance& item : stock)
    json["stock"].push_back(
        {{"item", item.name}, {"qty", exact(item.quantity.shown())}, {"value", item.amount.plain(c)}});
  return text_of(json);
}

std::string journal_as_json(const std::vector<book::JournalRow>& rows, const Currency& c) {
  Json json{{"currency", c.code}, {"entries", Json::array()}};
  for (const book::JournalRow& row : rows) {
    Json entry{{"entry", row.entry},
               {"date", row.day.iso()},
               {"kind", row.kind},
               {"what", row.what},
               {"amount", row.amount.plain(c)}};
    entry["voids"] = or_null(row.voids);
    entry["voided_by"] = or_null(row.voided_by);
    entry["postings"] = Json::array();
    for (const book::Posting& posting : row.postings)
      entry["postings"].push_back(
          {{"account", posting.kind}, {"name", posting.name}, {"amount", posting.amount.plain(c)}});
    json["entries"].push_back(std::move(entry));
  }
  return text_of(json);
}

std::string lines_as_json(const std::vector<book::Line>& lines, const Currency& c) {
  Json json{{"currency", c.code}, {"lines", Json::array()}};
  for (const book::Line& line : lines)
    json["lines"].push_back({{"id", line.id},
                             {"entry", line.entry},
                             {"date", line.day.iso()},
                             {"what", line.what},
                             {"kind", line.kind},
                             {"source", line.source},
                             {"qty", exact(line.quantity.shown())},
                             {"amount", line.amount.plain(c)},
                             {"tax", line.tax.plain(c)},
                             {"cost", line.cost().plain(c)},
                             {"core", line.core.plain(c)},
                             {"gone_back", exact(line.goods_back.shown())}});
  return text_of(json);
}

std::string comparables_as_json(const std::vector<book::KeptComparable>& all, const book::Book& book) {
  const Currency& c = book.currency();
  Json json{{"currency", c.code}, {"distance", book.distance_unit()}, {"comparables", Json::array()}};
  for (const book::KeptComparable& each : all)
    json["comparables"].push_back({{"number", each.id},
                                   {"model", each.model},
                                   {"price", each.price.plain(c)},
                                   {"kind", each.sold ? "sold" : "asking"},
                                   {"odometer", exact(each.odometer.shown())},
                                   {"year", each.year},
                                   {"grade", exact(each.grade.shown())},
                                   {"date", each.day.iso()},
                                   {"note", each.note}});
  return text_of(json);
}

std::string clocks_as_json(const std::vector<book::Clock>& clocks, const std::string& now) {
  Json json{{"clocks", Json::array()}};
  for (const book::Clock& running : clocks)
    json["clocks"].push_back({{"worker", running.worker},
                              {"vehicle", running.vehicle},
                              {"operation", running.operation},
                              {"since", running.since},
                              {"hours", exact(book::hours_of(running, now).shown())}});
  return text_of(json);
}

std::string to_json(const book::Health& health, const Currency& c) {
  Json json;
  json["sound"] = health.sound;
  json["trial_balance"] = health.trial_balance.plain(c);
  json["entries"] = health.entries;
  json["postings"] = health.postings;
  json["attachments"] = health.attachments;
  json["head"] = health.head;
  json["findings"] = health.findings;
  return text_of(json);
}

}  // namespace nonrunner::words
