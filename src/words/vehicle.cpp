#include "words/vehicle.h"

#include <fmt/format.h>

#include "book/ledger/settings.h"
#include "text/counted.h"

namespace nonrunner::words {

namespace {

std::string money_or_blank(const std::optional<Money>& amount, const Currency& currency) {
  return amount ? amount->shown(currency) : "";
}

std::string share(const std::optional<double>& ratio) {
  return ratio ? fmt::format("{:.1f} %", *ratio * 100) : "";
}

// The purchase, and on a row of its own all that was spent beside it, so that it adds up.
template <class Line>
void cost_lines(const book::VehicleFigures& f, const char* name, const Currency& c, const Line& line) {
  if (!f.life.bought) return line(name, f.cost.shown(c), "");
  line(name, f.cost.shown(c), fmt::format("price {}, fees {}", f.price_paid.shown(c), f.fees.shown(c)));
  const Money rest = f.cost - f.price_paid - f.fees;
  line("of which all else", is_zero(rest) ? "" : rest.shown(c), "parts, work sent out, late fees");
}

std::string beyond_cost(const book::VehicleFigures& f, const Currency& c) {
  return is_zero(f.recovered_beyond_cost)
             ? ""
             : fmt::format("{} of it beyond its cost, which is income", f.recovered_beyond_cost.shown(c));
}

std::string open_things(const book::VehicleFigures& f) {
  const std::size_t open = f.due.size() + f.waiting.size() + (is_zero(f.deposit_held) ? 0 : 1);
  return open == 0 ? "final" : counted(open, "thing") + " open";
}

}  // namespace

Headline headline(const book::VehicleFigures& f) {
  using book::State;
  switch (f.life.state) {
    case State::sold:
    case State::finished: {
      const bool loss = is_negative(*f.cash_profit);
      return {fmt::format("{} {} on {}, {} after the purchase: {}", f.tag, book::shown(f.life.state),
                          f.life.ended_said.iso(), counted(f.days.value_or(0), "day"), open_things(f)),
              loss ? "CASH LOSS" : "CASH PROFIT", loss ? -*f.cash_profit : *f.cash_profit, loss};
    }
    case State::owned:
      if (f.still_brings)
        return {fmt::format("{} in pieces since {}, bought {} ago", f.tag, f.life.in_pieces_since->iso(),
                            counted(f.days_held, "day")),
                "NOT YET RECOVERED", f.carried};
      return {fmt::format("{} owned for {}, since {}", f.tag, counted(f.days_held, "day"),
                          f.life.bought_said.iso()),
              "BREAK-EVEN PRICE", *f.break_even_price};
    case State::considered:
      return {fmt::format("{} considered, not bought in this book", f.tag), "", {}};
    case State::passed:
      return {fmt::format("{} looked at and left on {}", f.tag, f.life.passed_day.iso()), "", {}};
  }
  return {};
}

std::string hour_not_set(const book::VehicleFigures& f, const book::Book& book) {
  if (f.own_hours == Hours{} || book.setting("hour")) return "";
  return "nobody said what an own hour must earn: it counts as " + f.hour.shown(book.currency());
}

std::vector<FigureRow> main_figures(const book::VehicleFigures& f, const book::Book& book) {
  std::vector<FigureRow> rows;
  const Currency& c = book.currency();
  const auto line = [&](const std::string& what, const std::string& value, const std::string& remark = "") {
    if (!value.empty()) rows.push_back({what, value, remark});
  };
  if (f.cash_profit) {
    line("profit after own hours", f.profit->shown(c),
         fmt::format("{} h at {}{}", f.own_hours.shown(), f.hour.shown(c),
                     is_negative(*f.profit) ? ", a loss" : ""));
    line("margin", share(f.margin), "cash profit / sale price");
    line("margin after own hours", share(f.margin_after_own_hours), "profit / sale price");
    line("cash profit per own hour", money_or_blank(f.per_own_hour, c));
    if (f.life.state == book::State::sold) line("break-even price", money_or_blank(f.break_even_price, c));
    if (f.first_cash_profit != f.cash_profit)
      line("cash profit at the sale", money_or_blank(f.first_cash_profit, c), "before what came after");
    return rows;
  }
  cost_lines(f, "cost so far", c, line);
  if (f.still_brings)
    line("still expected for its parts", f.still_brings->shown(c),
         f.carried > *f.still_brings
             ? fmt::format("{} LESS than is not yet recovered", (f.carried - *f.still_brings).shown(c))
             : fmt::format("{} more than is not yet recovered", (*f.still_brings - f.carried).shown(c)));
  line("recovered", is_zero(f.recovered_before) ? "" : f.recovered_before.shown(c), beyond_cost(f, c));
  line("own hours", f.own_hours == Hours{} ? "" : f.own_hours.shown());
  Money due;
  for (const book::Due& each : f.due) due += each.amount;
  line("due back", is_zero(due) ? "" : due.shown(c), counted(f.due.size(), "thing"));
  return rows;
}

std::vector<FigureRow> other_figures(const book::VehicleFigures& f, const book::Book& book) {
  std::vector<FigureRow> rows;
  const Currency& c = book.currency();
  const auto line = [&](const std::string& what, const std::string& value, const std::string& remark = "") {
    if (!value.empty()) rows.push_back({what, value, remark});
  };
  const auto unless_zero = [&](Money amount) { return is_zero(amount) ? std::string() : amount.shown(c); };
  line("sale price", unless_zero(f.sales));
  cost_lines(f, "cost before the sale", c, line);
  line("recovered before the sale", unless_zero(f.recovered_before), beyond_cost(f, c));
  line("in it now", unless_zero(f.carried));
  line("selling costs", unless_zero(f.selling_costs));
  line("late cost", unless_zero(f.late_cost), "after the sale");
  line("recovered after the sale", unless_zero(f.recovered_after));
  line("deposit kept", unless_zero(f.deposit_kept), "income, not sale price");
  line("deposit held", unless_zero(f.deposit_held), "a buyer's");
  if (f.advertised_last)
    line("advertised at", f.advertised_last->shown(c),
         *f.advertised_first == *f.advertised_last ? "" : "first at " + f.advertised_first->shown(c));
  line("own hours", f.own_hours == Hours{} ? "" : f.own_hours.shown());
  line("paid hours", f.paid_hours == Hours{} ? "" : f.paid_hours.shown());
  line("distance", f.distance == Distance{} ? "" : f.distance.shown(), book.distance_unit());
  return rows;
}

}  // namespace nonrunner::words
