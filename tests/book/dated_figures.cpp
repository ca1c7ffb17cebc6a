#include "book/dated_figures.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/year.h"
#include "book/dated_words.h"
#include "book/questions/board.h"
#include "book/questions/figures.h"
#include "book/questions/vehicle_money.h"

namespace dated {

namespace {

void drop_zeros(Figures& figures) {
  std::erase_if(figures, [](const auto& each) { return each.second == 0; });
}

}  // namespace

nonrunner::Day calendar(int day) { return nonrunner::Day(2024, 1, 1).plus(day); }

Figures figures_of(const Bookkeeper& keeper, int day) {
  const Books books = keeper.at(day);
  Figures all;
  for (const auto& [name, amount] : books.purses) all["purse " + name] = amount;
  for (const auto& [name, amount] : books.owed) all["owed to " + name] = amount;
  for (const auto& [name, amount] : books.tool_deposits) all["deposit on " + name] = amount;
  for (const auto& [name, shelf] : books.shelves) {
    all["shelf " + name] = shelf.value;
    all["pieces of " + name] = shelf.pieces;
  }
  for (const auto& [id, line] : books.lines)
    if (line.line.core > 0) all["core of " + id] = line.due();
  all["overhead"] = books.overhead;
  all["tools"] = books.tools;
  all["tools kept"] = books.tools_kept;
  all["sales tax"] = books.sales_tax;
  all["owner"] = books.owner_in - books.owner_out;
  all["quick lines"] = static_cast<Number>(books.waiting.size());
  for (const std::string& tag : keeper.tags()) {
    const Position car = books.car(tag, keeper.hour);
    const std::string of = tag + " ";
    all[of + "is " + car.state] = 1;
    all[of + "cost"] = car.cost;
    all[of + "late cost"] = car.late;
    all[of + "recovered before"] = car.recovered_before;
    all[of + "recovered after"] = car.recovered_after;
    all[of + "sales"] = car.sales;
    all[of + "selling costs"] = car.selling;
    all[of + "deposit kept"] = car.kept;
    all[of + "deposit held"] = car.held;
    all[of + "carried"] = car.carried;
    all[of + "looking"] = car.looking;
    all[of + "own hours"] = car.own;
    all[of + "paid hours"] = car.paid_hours;
    all[of + "distance"] = car.distance;
    if (car.state == "owned" || car.state == "sold") all[of + "break-even"] = car.break_even;
    if (!car.ended) continue;
    all[of + "cash profit"] = car.cash_profit;
    all[of + "profit"] = car.profit;
    all[of + "days"] = car.ended_said - car.bought_said;
    all[of + "first result"] = keeper.first_result(tag, day);
  }
  drop_zeros(all);
  return all;
}

Figures figures_of(const nonrunner::book::Book& book, const std::vector<std::string>& tags, int day) {
  namespace shop = nonrunner::book;
  const nonrunner::Day on = calendar(day);
  Figures all;
  const auto balances = [&](const char* kind, const std::string& called, Number sign) {
    for (const shop::NamedBalance& each : shop::balances(book, kind, on)) {
      all[called + each.name] = sign * each.amount.minor();
      if (called == "shelf ") all["pieces of " + each.name] = each.quantity.thousandths();
    }
  };
  balances(shop::account::purse, "purse ", 1);
  balances(shop::account::payable, "owed to ", -1);
  balances(shop::account::tool_deposit, "deposit on ", 1);
  balances(shop::account::stock, "shelf ", 1);
  balances(shop::account::overhead, "overhead", 1);
  balances(shop::account::sales_tax, "sales tax", -1);
  balances(shop::account::owner, "owner", -1);
  for (const shop::NamedBalance& each : shop::balances(book, shop::account::tools, on))
    all[each.name == shop::account::tools_kept ? "tools kept" : "tools"] = each.amount.minor();
  for (const shop::Due& due : shop::dues(book, on))
    if (!due.line.empty()) all["core of " + due.line] += due.amount.minor();
  all["quick lines"] = static_cast<Number>(shop::tray(book, on).size());
  for (const std::string& tag : tags) {
    const shop::VehicleFigures car = shop::figures_of(book, tag, on, on);
    const std::string of = tag + " ";
    const auto money = [&](const char* name, std::optional<nonrunner::Money> amount) {
      if (amount) all[of + name] = amount->minor();
    };
    all[of + "is " + shop::shown(car.life.state)] = 1;
    money("cost", car.cost);
    money("late cost", car.late_cost);
    money("recovered before", car.recovered_before);
    money("recovered after", car.recovered_after);
    money("sales", car.sales);
    money("selling costs", car.selling_costs);
    money("deposit kept", car.deposit_kept);
    money("deposit held", car.deposit_held);
    money("carried", car.carried);
    money("looking", car.looking);
    all[of + "own hours"] = car.own_hours.thousandths();
    all[of + "paid hours"] = car.paid_hours.thousandths();
    all[of + "distance"] = car.distance.thousandths();
    if (car.life.state == shop::State::owned || car.life.state == shop::State::sold)
      money("break-even", car.break_even_price);
    if (car.life.state == shop::State::sold || car.life.state == shop::State::finished) {
      money("cash profit", car.cash_profit);
      money("profit", car.profit);
      money("first result", car.first_cash_profit);
      all[of + "days"] = car.days.value_or(-1);
    }
  }
  drop_zeros(all);
  return all;
}

Figures year_of(const Bookkeeper& keeper, int year) {
  const int last = day(fmt::format("{}-12-31", year)), before = day(fmt::format("{}-01-01", year)) - 1;
  const Books then = keeper.at(before), now = keeper.at(last);
  Figures all;
  all["result"] = now.result() - then.result();
  all["closing"] = now.inventory();
  all["opening"] = then.inventory();
  all["without a paper"] = now.without_paper - then.without_paper;
  for (const std::string& tag : keeper.tags()) {
    const Position was = then.car(tag, 0), is = now.car(tag, 0);
    all["sales"] += is.sales - was.sales;
    all["cost of sales"] += is.cost_of_sale - was.cost_of_sale;
    all["selling costs"] += is.selling - was.selling;
    all["late cost"] += is.late - was.late;
    all["other income"] += is.other_income() - was.other_income();
    all["driven"] += is.distance - was.distance;
    all["closing of " + tag] = is.carried;
  }
  drop_zeros(all);
  return all;
}

Figures year_of(const nonrunner::book::Book& book, int year) {
  const auto figures = nonrunner::answers::year_figures(book, year, nonrunner::Day(2199, 1, 1));
  Figures all;
  all["result"] = figures.result.minor();
  for (const nonrunner::figures::YearLine& line : figures.without_paper)
    all["without a paper"] += line.amount.minor();
  for (const nonrunner::figures::Trip& trip : figures.trips) all["driven"] += trip.distance.thousandths();
  for (const nonrunner::figures::YearVehicle& car : figures.vehicles) {
    all["closing"] += car.closing.minor();
    all["opening"] += car.opening.minor();
    all["sales"] += car.sales.minor();
    all["cost of sales"] += car.cost_of_sales.minor();
    all["selling costs"] += car.selling_costs.minor();
    all["late cost"] += car.late_cost.minor();
    all["other income"] += car.other_income.minor();
    all["closing of " + car.tag] = car.closing.minor();
  }
  drop_zeros(all);
  return all;
}

Figures board_of(const Bookkeeper& keeper, int last) {
  const Books books = keeper.at(last);
  Figures all;
  for (const std::string& tag : keeper.tags()) {
    const Position car = books.car(tag, 0);
    const std::string of = "board: " + tag + " ";
    if (car.bought || car.state == "passed") all[of + "is " + car.state] = 1;
    if (car.bought) all[of + "days"] = (car.ended ? car.ended_said : last) - car.bought_said;
    all[of + "cost"] = car.cost - (car.recovered_before - car.beyond_cost);
    all[of + "carried"] = car.carried;
    all[of + "sales"] = car.sales;
    all[of + "own hours"] = car.own;
    if (car.ended) all[of + "cash profit"] = car.cash_profit;
  }
  drop_zeros(all);
  return all;
}

Figures board_of(const nonrunner::book::Book& book, int last) {
  namespace shop = nonrunner::book;
  Figures all;
  for (const shop::BoardRow& car : shop::board(book, calendar(last))) {
    const std::string of = "board: " + car.tag + " ";
    if (car.state != shop::State::considered) all[of + "is " + shop::shown(car.state)] = 1;
    all[of + "days"] = car.days.value_or(0);
    all[of + "cost"] = car.cost.minor();
    all[of + "carried"] = car.carried.minor();
    all[of + "sales"] = car.sales.minor();
    all[of + "own hours"] = car.own_hours.thousandths();
    if (car.cash_profit) all[of + "cash profit"] = car.cash_profit->minor();
  }
  drop_zeros(all);
  return all;
}

std::multiset<std::string> lines_of(const nonrunner::book::Book& book, const std::vector<std::string>& tags,
                                    int day) {
  namespace shop = nonrunner::book;
  const nonrunner::Day on = calendar(day);
  const nonrunner::Currency& c = book.currency();
  std::multiset<std::string> all;
  for (const shop::NamedBalance& item : shop::balances(book, shop::account::stock, on))
    all.insert(fmt::format("stock: {} of {} at {}", item.quantity.shown(), item.name, item.amount.plain(c)));
  for (const shop::Due& due : shop::dues(book, on))
    all.insert(fmt::format("due: {} from {}, {} by {} of {}", due.what, due.from, due.amount.plain(c),
                           due.by ? due.by->iso() : "any day", fmt::join(due.vehicles, " ")));
  for (const std::string& tag : tags) {
    // What the shelf's average adds to a draw later stands on a line of its own: draws of an item together.
    std::map<std::string, nonrunner::Money> drawn;
    for (const shop::MoneyLine& line : shop::money_of(book, tag, on)) {
      const std::string told = fmt::format("{}: {} {}{}", tag, static_cast<int>(line.kind), line.what,
                                           line.after_sale ? ", after the sale" : "");
      if (line.kind == shop::MoneyKind::consumable && line.line_number == 0)
        drawn[told] += line.amount;
      else
        all.insert(fmt::format("{} {}: {} of {}, {} {} {}", line.day.iso(), told, line.amount.plain(c),
                               line.quantity ? line.quantity->shown() : "-", line.paper, line.line,
                               line.source));
    }
    for (const auto& [told, amount] : drawn)
      if (!nonrunner::is_zero(amount)) all.insert(fmt::format("{}: {}", told, amount.plain(c)));
    for (const nonrunner::figures::Work& line : shop::work_of(book, tag, on))
      all.insert(fmt::format("{}: {} {} {} {}{}", tag, line.day.iso(), line.operation, line.own.shown(),
                             line.paid.shown(), line.after_sale ? ", after the sale" : ""));
  }
  return all;
}

std::string apart(const Figures& found, const Figures& expected) {
  std::string text;
  const auto say = [&](const std::string& name, Number is, Number should) {
    if (is != should && std::count(text.begin(), text.end(), ';') < 3)
      text += fmt::format("{}: {}, expected {}; ", name, money(is), money(should));
  };
  for (const auto& [name, amount] : expected) say(name, found.contains(name) ? found.at(name) : 0, amount);
  for (const auto& [name, amount] : found)
    if (!expected.contains(name)) say(name, amount, 0);
  return text;
}

std::string identities(const Bookkeeper& keeper, int first, int last) {
  const Books then = keeper.at(first - 1), now = keeper.at(last);
  Number carried = 0;
  for (const std::string& tag : keeper.tags()) {
    const Position car = now.car(tag, 0);
    if (!car.ended && car.state != "passed") carried += car.carried;
    if (car.ended && car.carried != 0) return tag + " is gone and carries something";
  }
  if (carried != now.inventory()) return "the inventory is not what unsold cars carry";
  const Number put_in = (now.owner_in - now.owner_out) - (then.owner_in - then.owner_out);
  const Number result = now.result() - then.result();
  if (then.capital() + result + put_in != now.capital())
    return fmt::format("opening capital {} + result {} + put in {} is not the closing capital {}",
                       money(then.capital()), money(result), money(put_in), money(now.capital()));
  return "";
}

}  // namespace dated
