#include <nlohmann/json.hpp>

#include "book/ledger/settings.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/figures_text.h"
#include "commands/option_on.h"
#include "words/figures_json.h"

namespace nonrunner::commands {

namespace {

using Json = nlohmann::ordered_json;

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

int run_due(const Given& given, Terminal& terminal) {
  const auto on = given.day("on");
  const book::Book book = open_book(given, terminal);
  const Currency& c = book.currency();
  const auto dues = book::dues(book, on);
  Money sum;
  for (const book::Due& due : dues) sum += due.amount;
  const auto may = on ? std::vector<book::MayGoBack>{} : book::may_go_back(book, terminal.today);
  std::vector<std::pair<std::string, Money>> owed;
  for (const auto& each : book::balances(book, book::account::buyer_deposit, on))
    if (!is_zero(each.amount)) owed.emplace_back("buyer's deposit on " + each.name, -each.amount);
  for (const auto& each : book::balances(book, book::account::payable, on))
    if (!is_zero(each.amount)) owed.emplace_back("on account at " + each.name, -each.amount);
  for (const auto& each : book::balances(book, book::account::sales_tax, on))
    if (!is_zero(each.amount)) owed.emplace_back("sales tax collected", -each.amount);
  if (given.json()) {
    Json json{{"currency", c.code},
              {"due", Json::array()},
              {"sum", sum.plain(c)},
              {"may_go_back", Json::array()},
              {"owed", Json::array()}};
    for (const book::Due& due : dues) {
      Json row = words::due_as_json(due, c);
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
    for (const auto& [what, amount] : owed)
      json["owed"].push_back({{"what", what}, {"amount", amount.plain(c)}});
    terminal.out << json.dump(2) << "\n";
    return 0;
  }
  if (dues.empty()) terminal.out << "nothing is due back\n";
  if (!dues.empty()) {
    Columns columns("llrll");
    columns.row({"by", "what", "amount", "from", "line, car"});
    for (const book::Due& due : dues)
      columns.row(
          {due.by ? due.by->iso() + (*due.by < on.value_or(terminal.today) ? " late" : "") : "no day",
           due.what, due.amount.shown(c), due.from,
           due.line + (due.vehicles.empty() ? "" : (due.line.empty() ? "" : ", ") + joined(due.vehicles))});
    terminal.out << columns.text() << "sum " << sum.shown(c) << "\n";
  }
  if (!may.empty()) {
    terminal.out << "\nmay still go back\n";
    Columns columns("llrll");
    for (const book::MayGoBack& each : may)
      columns.row({each.by.iso(), each.what, each.refund.shown(c), each.supplier, each.line});
    terminal.out << columns.text();
  }
  if (!owed.empty()) {
    terminal.out << "\nowed to others\n";
    Columns columns("lr");
    for (const auto& [what, amount] : owed) columns.row({"  " + what, amount.shown(c)});
    terminal.out << columns.text();
  }
  return 0;
}

int run_tray(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  const Currency& c = book.currency();
  const auto waiting = book::tray(book);
  if (given.json()) {
    Json json{{"currency", c.code}, {"tray", Json::array()}};
    for (const book::Waiting& each : waiting)
      json["tray"].push_back({{"entry", each.entry},
                              {"date", each.day.iso()},
                              {"vehicles", each.vehicles},
                              {"what", each.what},
                              {"supplier", each.supplier},
                              {"total", each.total.plain(c)}});
    terminal.out << json.dump(2) << "\n";
    return 0;
  }
  if (waiting.empty()) {
    terminal.out << "the tray is empty: every paper is itemised\n";
    return 0;
  }
  Columns columns("rlllrl");
  columns.row({"entry", "day", "car", "what", "total", "supplier"});
  for (const book::Waiting& each : waiting)
    columns.row({std::to_string(each.entry), each.day.iso(), joined(each.vehicles), each.what,
                 each.total.shown(c), each.supplier});
  terminal.out
      << columns.text()
      << "\nthe full paper takes its place:\n  nonrunner receipt --file PAPER.toml --replaces ENTRY\n";
  return 0;
}

int run_purses(const Given& given, Terminal& terminal) {
  const auto on = given.day("on");
  const book::Book book = open_book(given, terminal);
  const Currency& c = book.currency();
  const auto purses = book::balances(book, book::account::purse, on);
  if (given.json()) {
    Json json{{"currency", c.code}, {"purses", Json::object()}};
    for (const book::NamedBalance& purse : purses) json["purses"][purse.name] = purse.amount.plain(c);
    terminal.out << json.dump(2) << "\n";
    return 0;
  }
  Columns columns("lrl");
  for (const book::NamedBalance& purse : purses)
    columns.row({purse.name, purse.amount.shown(c),
                 !is_negative(purse.amount)                          ? ""
                 : book::purse_kind(book, purse.name) == "liability" ? "owed"
                                                                     : "overdrawn"});
  terminal.out << (purses.empty() ? "no purse yet; put money in: nonrunner owner in 500 --purse cash\n"
                                  : columns.text());
  return 0;
}

int run_stock(const Given& given, Terminal& terminal) {
  const auto on = given.day("on");
  const book::Book book = open_book(given, terminal);
  const Currency& c = book.currency();
  const auto stock = book::balances(book, book::account::stock, on);
  if (given.json()) {
    Json json{{"currency", c.code}, {"stock", Json::array()}};
    for (const book::NamedBalance& item : stock)
      json["stock"].push_back({{"item", item.name},
                               {"qty", Json::parse(item.quantity.shown())},
                               {"value", item.amount.plain(c)}});
    terminal.out << json.dump(2) << "\n";
    return 0;
  }
  Columns columns("lrr");
  columns.row({"item", "on the shelf", "value"});
  for (const book::NamedBalance& item : stock)
    columns.row({item.name, item.quantity.shown(), item.amount.shown(c)});
  terminal.out << (stock.empty() ? "the shelf is empty\n" : columns.text());
  return 0;
}

}  // namespace

extern const Command due, tray, purses, stock;
const Command due{
    {"due", "", "what is to come back, of all cars, by last day", "nonrunner due", {on_option()}, true, ""},
    run_due};
const Command tray{{"tray", "", "quick lines that wait for their paper", "nonrunner tray", {}, true, ""},
                   run_tray};
const Command purses{{"purses", "", "what is in each purse", "nonrunner purses", {on_option()}, true, ""},
                     run_purses};
const Command stock{
    {"stock", "", "what lies on the shelf, and its value", "nonrunner stock", {on_option()}, true, ""},
    run_stock};

}  // namespace nonrunner::commands
