#include "commands/profit_figures.h"

#include <fmt/format.h>

#include "book/settings.h"
#include "book/vehicle_money.h"

namespace nonrunner::commands {

namespace {

reports::ProfitKind kind_of(book::MoneyKind kind) {
  using From = book::MoneyKind;
  using To = reports::ProfitKind;
  switch (kind) {
    case From::purchase: return To::purchase;
    case From::fee: return To::fee;
    case From::part: return To::part;
    case From::consumable: return To::consumable;
    case From::sublet: return To::sublet;
    case From::paid_hours: return To::paid_hours;
    case From::other_cost: return To::other_cost;
    case From::recovered: return To::recovered;
    case From::selling_cost: return To::selling_cost;
    case From::commission: return To::commission;
    case From::deposit_kept: return To::deposit_kept;
    case From::sale: return To::sale;
    case From::due_back: return To::due_back;
  }
  return To::other_cost;
}

}  // namespace

reports::ProfitFigures profit_figures(const book::Book& book, const std::string& tag, Day today) {
  const book::VehicleFigures figures = book::figures_of(book, tag, today);
  reports::ProfitFigures out;
  out.tag = tag;
  out.currency = book.currency();
  out.made_on = today;
  using State = reports::ProfitFigures::State;
  switch (figures.life.state) {
    case book::State::sold: out.state = State::sold; break;
    case book::State::finished: out.state = State::finished; break;
    default: out.state = is_zero(figures.recovered_before) ? State::owned : State::in_pieces;
  }
  if (figures.life.bought) out.bought_on = figures.life.bought_day;
  if (figures.life.ended) out.sold_on = figures.life.ended_day;
  for (const book::Due& due : figures.due)
    out.open.push_back(fmt::format("{}: {} from {}", due.what, due.amount.shown(book.currency()), due.from));
  for (const book::EntryId entry : figures.waiting) out.open.push_back(fmt::format("entry {} waits to be itemised", entry));
  if (!is_zero(figures.deposit_held)) out.open.push_back("a buyer's deposit is held: " + figures.deposit_held.shown(book.currency()));
  out.advertised = book::adverts_of(book, tag);
  out.hour = book::hour(book);
  if (figures.distance > Distance{}) out.distance = figures.distance.shown() + " " + book.distance_unit();
  for (const book::MoneyLine& line : book::money_of(book, tag))
    out.lines.push_back({line.day, line.entry, line.paper, line.what, kind_of(line.kind), line.source, line.quantity, line.amount,
                         line.after_sale, ""});
  for (const book::WorkLine& work : book::work_of(book, tag))
    out.hours.push_back({work.day, work.operation, work.own, work.paid, work.after_sale, ""});
  out.cash_profit = figures.cash_profit;
  return out;
}

}  // namespace nonrunner::commands
