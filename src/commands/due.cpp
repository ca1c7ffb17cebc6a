#include "words/due.h"

#include <filesystem>
#include <fstream>

#include "book/ledger/settings.h"
#include "book/questions/figures.h"
#include "book/questions/owed.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/option_on.h"
#include "exact/ends.h"
#include "text/counted.h"
#include "words/book_json.h"
#include "words/calendar.h"
#include "words/days.h"
#include "words/in_words.h"

namespace nonrunner::commands {

namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

// The last days for a phone's own calendar: written beside the place, then put there, whole or not at all.
int write_calendar(const Given& given, Terminal& terminal, const book::Book& book, const std::string& out) {
  if (!out.ends_with(".ics"))
    given.wrong("--calendar: found \"" + out + "\", expected a name that ends in .ics");
  const auto reminders = words::reminders(book, terminal.today);
  const std::string arriving = out + ".arriving";
  std::ofstream file(arriving, std::ios::binary | std::ios::trunc);
  file << words::calendar(reminders, terminal.now);
  file.close();
  std::error_code error;
  if (file) std::filesystem::rename(arriving, out, error);
  if (!file || error) {
    std::filesystem::remove(arriving, error);
    throw MachineFailure(out + ": the calendar cannot be written there; choose another place");
  }
  if (given.json())
    terminal.out << words::facts_as_json(
        {{"written", out}, {"last_days", static_cast<std::int64_t>(reminders.size())}});
  else
    terminal.out << fmt::format("{}: {}, each with an alarm two days before\n", out,
                                counted(reminders.size(), "last day"));
  return 0;
}

int run_due(const Given& given, Terminal& terminal) {
  const auto on = given.day("on", Looks::forward);
  const book::Book book = open_book(given, terminal);
  if (const auto out = given.text("calendar")) return write_calendar(given, terminal, book, *out);
  const Currency& c = book.currency();
  const auto dues = book::dues(book, on);
  const auto may = book::may_go_back(book, on.value_or(terminal.today));
  const auto owed = book::owed(book, on);
  if (given.json()) {
    terminal.out << words::due_as_json(dues, may, owed, c);
    return 0;
  }
  Money sum;
  for (const book::Due& due : dues) sum += due.amount;
  if (dues.empty()) terminal.out << "nothing is due back\n";
  if (!dues.empty()) {
    Columns columns("kklrll");
    columns.row({"by", "", "what", "amount", "from", "line, car"});
    for (const book::Due& due : dues)
      columns.row(
          {due.by ? words::shown_day(*due.by) : "no day",
           due.by ? words::days_left(*due.by, on.value_or(terminal.today)) : "", words::called(due),
           due.amount.shown(c), due.from,
           due.line + (due.vehicles.empty() ? "" : (due.line.empty() ? "" : ", ") + joined(due.vehicles))});
    terminal.out << columns.text() << "sum " << sum.shown(c) << "\n";
  }
  if (!may.empty()) {
    terminal.out << "\nmay still go back\n";
    Columns columns("kklrll");
    for (const book::MayGoBack& each : may)
      columns.row({words::shown_day(each.by), words::days_left(each.by, on.value_or(terminal.today)),
                   each.what, each.refund.shown(c), each.supplier, each.line});
    terminal.out << columns.text();
  }
  if (!owed.empty()) {
    terminal.out << "\nowed to others\n";
    Columns columns("lr");
    for (const book::Owed& each : owed) columns.row({"  " + words::in_words(each), each.amount.shown(c)});
    terminal.out << columns.text();
  }
  return 0;
}

int run_tray(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  const Currency& c = book.currency();
  const auto waiting = book::tray(book);
  if (given.json()) {
    terminal.out << words::tray_as_json(waiting, c);
    return 0;
  }
  if (waiting.empty()) {
    terminal.out << "the tray is empty: every paper is in the book\n";
    return 0;
  }
  Columns columns("rlllrl");
  columns.row({"entry", "day", "car", "what", "total", "supplier"});
  for (const book::Waiting& each : waiting)
    columns.row({std::to_string(each.entry), each.day.iso(), joined(each.vehicles), each.what,
                 each.total.shown(c), each.supplier});
  terminal.out << columns.text()
               << "\nthe full paper takes its place: nonrunner receipt asks for it, or\n  nonrunner receipt "
                  "--file PAPER.toml "
                  "--replaces ENTRY\n";
  return 0;
}

int run_purses(const Given& given, Terminal& terminal) {
  const auto on = day_on(given, terminal.today);
  const book::Book book = open_book(given, terminal);
  const Currency& c = book.currency();
  const auto purses = book::balances(book, book::account::purse, on);
  if (given.json()) {
    terminal.out << words::purses_as_json(purses, c);
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
  const auto on = day_on(given, terminal.today);
  const book::Book book = open_book(given, terminal);
  const Currency& c = book.currency();
  const auto stock = book::balances(book, book::account::stock, on);
  if (given.json()) {
    terminal.out << words::stock_as_json(stock, c);
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
    {"due",
     "",
     "what is to come back, of all cars, by last day",
     "nonrunner due",
     {{"on", "DAY", "as it stands at the end of that day, a coming one too: fri (else now)"},
      {"calendar", "OUT.ics", "writes the last days for a phone's calendar, each with an alarm"}},
     true,
     "The calendar (RFC 5545) may be taken in again later: what is there already is changed, not doubled."},
    run_due};
const Command tray{{"tray", "", "quick lines that wait for their paper", "nonrunner tray", {}, true, ""},
                   run_tray};
const Command purses{{"purses", "", "what is in each purse", "nonrunner purses", {on_option()}, true, ""},
                     run_purses};
const Command stock{
    {"stock", "", "what lies on the shelf, and its value", "nonrunner stock", {on_option()}, true, ""},
    run_stock};

}  // namespace nonrunner::commands
