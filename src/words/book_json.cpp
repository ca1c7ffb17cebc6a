#include "words/book_json.h"

#include <cmath>

#include "answers/budget_sums.h"
#include "words/due.h"
#include "words/in_words.h"
#include "words/json.h"
#include "words/why_not.h"

namespace nonrunner::words {

namespace {

Json money(const std::optional<Money>& amount, const Currency& currency) {
  return amount ? Json(amount->plain(currency)) : Json(nullptr);
}
Json number(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }

template <class Value>
Json or_null(const std::optional<Value>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json as_json(const book::Due& due, const Currency& currency) {
  Json json;
  json["what"] = called(due);
  json["amount"] = due.amount.plain(currency);
  json["from"] = due.from;
  json["by"] = due.by ? Json(due.by->iso()) : Json(nullptr);
  return json;
}

Json as_json(const book::VehicleFigures& f, const book::Book& book) {
  const Currency& c = book.currency();
  Json json;
  json["tag"] = f.tag;
  json["currency"] = c.code;
  json["state"] = book::shown(f.life);
  json["bought"] = f.life.bought ? Json(f.life.bought_said.iso()) : Json(nullptr);
  json["ended"] = f.life.ended ? Json(f.life.ended_said.iso()) : Json(nullptr);
  json["price_paid"] = f.life.bought ? money(f.price_paid, c) : Json(nullptr);
  json["fees"] = f.life.bought ? money(f.fees, c) : Json(nullptr);
  json["cost"] = f.cost.plain(c);
  json["recovered_before"] = f.recovered_before.plain(c);
  json["recovered_after"] = f.recovered_after.plain(c);
  json["recovered_beyond_cost"] = f.recovered_beyond_cost.plain(c);
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
  for (const book::OperationHours& each : f.hours) {
    Json& row = added(json["hours"]);
    row["operation"] = each.operation;
    row["own"] = exact(each.own.shown());
    row["paid"] = exact(each.paid.shown());
  }
  json["due"] = Json::array();
  for (const book::Due& due : f.due) json["due"].push_back(as_json(due, c));
  json["not_itemised"] = f.waiting;
  return json;
}

Json as_json(const answers::Budget& budget, const Currency& c) {
  Json json;
  json["kept_on"] = budget.kept_on.iso();
  json["cause"] = budget.cause;
  json["cause_is_noted"] = budget.cause_is_noted;
  json["cause_chance"] = budget.cause_chance;
  json["not_put_right"] = budget.not_put_right ? Json(in_words(*budget.not_put_right)) : Json(nullptr);
  json["ready"] = budget.ready;
  json["cash_to_come_by_chances"] = budget.by_chances().plain(c);
  json["cash_to_come"] = budget.cash_to_come.plain(c);
  json["hours_to_come"] = budget.hours_to_come;
  json["lines"] = Json::array();
  json["hours"] = Json::array();
  json["not_in_estimate"] = Json::array();
  for (const answers::BudgetLine& line : budget.lines) {
    Json& row = added(json["lines"]);
    row["number"] = line.number;
    row["group"] = line.estimate.group;
    row["what"] = line.estimate.what;
    row["state"] = answers::name_of(line.state);
    row["chance"] = line.chance();
    row["if_needed"] = line.if_needed.plain(c);
    row["expected"] = line.expected.plain(c);
    row["booked"] = line.booked.plain(c);
    row["to_come"] = line.to_come.plain(c);
    row["at_completion"] = (line.booked + line.to_come).plain(c);
  }
  json["only_if"] = Json::array();
  for (const answers::OtherLine& line : budget.only_if) {
    Json& row = added(json["only_if"]);
    row["number"] = line.number;
    row["what"] = line.estimate.what;
    row["chance"] = line.chance;
    row["if_needed"] = line.if_needed.plain(c);
  }
  json["if_cause"] = Json::array();
  for (const answers::IfCause& each : budget.if_cause) {
    Json& row = added(json["if_cause"]);
    row["cause"] = each.cause;
    row["chance"] = each.chance;
    row["cash_to_come"] = each.to_come.plain(c);
    row["hours_to_come"] = each.hours_to_come;
  }
  json["faults_left"] = budget.left_faults;
  json["headings"] = Json::array();
  for (const answers::HeadingSum& each : answers::by_heading(budget)) {
    Json& row = added(json["headings"]);
    row["heading"] = each.heading;
    row["expected"] = each.expected.plain(c);
    row["booked"] = each.booked.plain(c);
    row["to_come"] = each.to_come.plain(c);
  }
  for (const answers::BudgetWork& work : budget.work) {
    Json& row = added(json["hours"]);
    row["number"] = work.number;
    row["state"] = answers::name_of(work.state);
    row["chance"] = work.chance;
    row["group"] = work.estimate.group;
    row["operation"] = work.estimate.operation;
    row["expected"] = work.estimate.hours;
    row["booked"] = exact(work.booked.shown());
    row["to_come"] = work.to_come;
  }
  for (const answers::PlacedMoney* money : answers::not_in_estimate(budget)) {
    Json& row = added(json["not_in_estimate"]);
    row["what"] = money->what;
    row["amount"] = (-money->amount).plain(c);
    row["entry"] = money->entry;
  }
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
                    const book::Book& book, const answers::FirstKnown& known) {
  Json json = as_json(figures, book);
  if (!known.by_then) json["state"] = nullptr;
  json["known_from"] = known.first ? Json(known.first->iso()) : Json(nullptr);
  json["budget"] = budget ? as_json(*budget, book.currency()) : Json(nullptr);
  return text_of(json);
}

std::string board_as_json(const std::vector<book::BoardRow>& board, const Currency& c) {
  Json json;
  json["currency"] = c.code;
  json["vehicles"] = Json::array();
  for (const book::BoardRow& car : board) {
    Json& row = added(json["vehicles"]);
    row["tag"] = car.tag;
    row["state"] = car.in_pieces ? "in pieces" : book::shown(car.state);
    row["days"] = or_null(car.days);
    row["cost_less_recovered"] = car.cost.plain(c);
    row["carried"] = car.carried.plain(c);
    row["own_hours"] = exact(car.own_hours.shown());
    row["sales"] = car.state == book::State::sold ? Json(car.sales.plain(c)) : Json(nullptr);
    row["cash_profit"] = money(car.cash_profit, c);
  }
  return text_of(json);
}

std::string due_as_json(const std::vector<book::Due>& dues, const std::vector<book::MayGoBack>& may,
                        const std::vector<book::Owed>& owed, const Currency& c) {
  Money sum;
  for (const book::Due& due : dues) sum += due.amount;
  Json json;
  json["currency"] = c.code;
  json["due"] = Json::array();
  json["sum"] = sum.plain(c);
  json["may_go_back"] = Json::array();
  json["owed"] = Json::array();
  for (const book::Due& due : dues) {
    Json row = as_json(due, c);
    row["vehicles"] = due.vehicles;
    row["line"] = due.line.empty() ? Json(nullptr) : Json(due.line);
    json["due"].push_back(row);
  }
  for (const book::MayGoBack& each : may) {
    Json& row = added(json["may_go_back"]);
    row["line"] = each.line;
    row["what"] = each.what;
    row["from"] = each.supplier;
    row["by"] = each.by.iso();
    row["refund"] = each.refund.plain(c);
  }
  for (const book::Owed& each : owed) {
    Json& row = added(json["owed"]);
    row["what"] = in_words(each);
    row["amount"] = each.amount.plain(c);
  }
  return text_of(json);
}

std::string tray_as_json(const std::vector<book::Waiting>& waiting, const Currency& c) {
  Json json;
  json["currency"] = c.code;
  json["tray"] = Json::array();
  for (const book::Waiting& each : waiting) {
    Json& row = added(json["tray"]);
    row["entry"] = each.entry;
    row["date"] = each.day.iso();
    row["vehicles"] = each.vehicles;
    row["what"] = each.what;
    row["supplier"] = each.supplier;
    row["total"] = each.total.plain(c);
  }
  return text_of(json);
}

std::string purses_as_json(const std::vector<book::NamedBalance>& purses, const Currency& c) {
  Json json;
  json["currency"] = c.code;
  json["purses"] = Json::object();
  for (const book::NamedBalance& purse : purses) json["purses"][purse.name] = purse.amount.plain(c);
  return text_of(json);
}

std::string stock_as_json(const std::vector<book::NamedBalance>& stock, const Currency& c) {
  Json json;
  json["currency"] = c.code;
  json["stock"] = Json::array();
  for (const book::NamedBalance& item : stock) {
    Json& row = added(json["stock"]);
    row["item"] = item.name;
    row["qty"] = exact(item.quantity.shown());
    row["value"] = item.amount.plain(c);
  }
  return text_of(json);
}

std::string journal_as_json(const std::vector<book::JournalRow>& rows, const Currency& c) {
  Json json;
  json["currency"] = c.code;
  json["entries"] = Json::array();
  for (const book::JournalRow& each : rows) {
    Json entry;
    entry["entry"] = each.entry;
    entry["date"] = each.day.iso();
    entry["kind"] = each.kind;
    entry["what"] = each.what;
    entry["amount"] = each.amount.plain(c);
    entry["voids"] = or_null(each.voids);
    entry["voided_by"] = or_null(each.voided_by);
    entry["postings"] = Json::array();
    for (const book::Posting& posting : each.postings) {
      Json& row = added(entry["postings"]);
      row["account"] = posting.kind;
      row["name"] = posting.name;
      row["amount"] = posting.amount.plain(c);
    }
    json["entries"].push_back(std::move(entry));
  }
  return text_of(json);
}

std::string lines_as_json(const std::vector<book::Line>& lines, const Currency& c) {
  Json json;
  json["currency"] = c.code;
  json["lines"] = Json::array();
  for (const book::Line& line : lines) {
    Json& row = added(json["lines"]);
    row["id"] = line.id;
    row["entry"] = line.entry;
    row["date"] = line.day.iso();
    row["what"] = line.what;
    row["kind"] = line.kind;
    row["source"] = line.source;
    row["qty"] = exact(line.quantity.shown());
    row["amount"] = line.amount.plain(c);
    row["tax"] = line.tax.plain(c);
    row["cost"] = line.cost().plain(c);
    row["core"] = line.core.plain(c);
    row["gone_back"] = exact(line.goods_back.shown());
  }
  return text_of(json);
}

std::string comparables_as_json(const std::vector<book::KeptComparable>& all, const book::Book& book) {
  const Currency& c = book.currency();
  Json json;
  json["currency"] = c.code;
  json["distance"] = book.distance_unit();
  json["comparables"] = Json::array();
  for (const book::KeptComparable& each : all) {
    Json& row = added(json["comparables"]);
    row["number"] = each.id;
    row["model"] = each.model;
    row["price"] = each.price.plain(c);
    row["kind"] = each.sold ? "sold" : "asking";
    row["odometer"] = exact(each.odometer.shown());
    row["year"] = each.year;
    row["grade"] = exact(each.grade.shown());
    row["date"] = each.day.iso();
    row["note"] = each.note;
  }
  return text_of(json);
}

std::string clocks_as_json(const std::vector<book::Clock>& clocks, const std::string& now) {
  Json json;
  json["clocks"] = Json::array();
  for (const book::Clock& running : clocks) {
    Json& row = added(json["clocks"]);
    row["worker"] = running.worker;
    row["vehicle"] = running.vehicle;
    row["operation"] = running.operation;
    row["since"] = running.since;
    row["hours"] = exact(book::hours_of(running, now).shown());
  }
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
  json["notes"] = health.notes;
  return text_of(json);
}

}  // namespace nonrunner::words
