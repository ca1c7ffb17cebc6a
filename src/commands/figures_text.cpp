#include "commands/figures_text.h"

#include <fmt/format.h>

#include "commands/desk.h"
#include "words/due.h"
#include "words/vehicle.h"

namespace nonrunner::commands {

std::string money_or_blank(const std::optional<Money>& amount, const Currency& currency) {
  return amount ? amount->shown(currency) : "";
}

namespace {

std::string lists(const book::VehicleFigures& f, const Currency& c) {
  std::string text;
  if (!f.due.empty()) {
    text += "\ndue back\n";
    Columns due("lrl");
    for (const book::Due& each : f.due)
      due.row({"  " + words::called(each), each.amount.shown(c),
               each.from + (each.by ? ", by " + each.by->iso() : "")});
    text += due.text();
  }
  if (!f.hours.empty()) {
    text += "\nhours\n";
    Columns hours("lrl");
    for (const book::OperationHours& each : f.hours)
      hours.row(
          {"  " + each.operation, each.own.shown(), each.paid > Hours{} ? each.paid.shown() + " paid" : ""});
    text += hours.text();
  }
  return text;
}

}  // namespace

std::string figures_as_text(const book::VehicleFigures& f, const book::Book& book, bool detail) {
  const words::Headline head = words::headline(f);
  std::string text = head.about + "\n\n";
  if (!head.label.empty())
    text += fmt::format("    {}  {}\n\n", head.label, head.amount.shown(book.currency()));
  Columns columns("lrl");
  for (const words::FigureRow& row : words::main_figures(f, book))
    columns.row({"  " + row.what, row.value, row.remark});
  if (detail) {
    columns.row({"", "", ""});
    for (const words::FigureRow& row : words::other_figures(f, book))
      columns.row({"  " + row.what, row.value, row.remark});
  }
  text += columns.text();
  if (const std::string said = words::hour_not_set(f, book); !said.empty())
    text += in_80("  " + said + "; say it: nonrunner set hour 20", 4);
  for (const book::EntryId entry : f.waiting) text += fmt::format("  entry {} waits for its paper\n", entry);
  if (detail) text += lists(f, book.currency());
  return text;
}

}  // namespace nonrunner::commands
