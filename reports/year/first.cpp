// The first page of the year: the result, the figures that matter, month by month as a picture, the checks;
// and the sheet Account: how it adds up.
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "reports/cautions.h"
#include "reports/formula.h"
#include "reports/head.h"
#include "reports/year/parts.h"

namespace nonrunner::reports::year_sheets {

namespace {

struct Totals {
  YearMonth months;
  Money result, opening, added, recovered, closing, purses, shelf, due, owed, without, tools_kept, parts_sold;
  Hours own_hours;
  Distance distance;
};

Totals totals_of(const YearFigures& f) {
  Totals t;
  for (const YearMonth& m : f.months) {
    t.months.sales += m.sales, t.months.cost_of_sales += m.cost_of_sales,
        t.months.selling_costs += m.selling_costs, t.months.other_income += m.other_income;
    t.months.late_cost += m.late_cost, t.months.overhead += m.overhead, t.months.tools += m.tools,
        t.months.looking += m.looking;
    t.result += result_of(m);
  }
  Money vehicles;
  for (const YearVehicle& v : f.vehicles) {
    t.opening += v.opening, t.added += v.added, t.recovered += v.recovered, t.closing += v.closing,
        t.own_hours += v.own_hours;
    vehicles += result_of(v);
  }
  for (const YearPurse& purse : f.purses) t.purses += purse.closing;
  for (const YearStock& stock : f.stock) t.shelf += stock.closing;
  for (const Due& due : f.due) t.due += due.amount;
  for (const YearOwed& owed : f.owed) t.owed += owed.amount;
  for (const YearLine& line : f.tools_kept) t.tools_kept += line.amount;
  for (const YearLine& line : f.parts_sold) t.parts_sold += line.amount;
  for (const YearLine& line : f.without_paper) t.without += line.amount;
  for (const Trip& trip : f.trips) t.distance += trip.distance;
  const auto must = [&](const char* what, Money ours, Money theirs) {
    if (ours != theirs)
      throw std::logic_error(fmt::format("year workbook of {}: {}: {} against {}", f.year, what,
                                         ours.plain(f.currency), theirs.plain(f.currency)));
  };
  must("the months add up to another result than the book's", t.result, f.result);
  must("the vehicles add up to another result than the months, overhead, tools and looking aside", vehicles,
       t.result + t.months.overhead + t.months.tools + t.months.looking);
  return t;
}

}  // namespace

namespace {

// Rows of Account that the first page asks for.
struct Account {
  std::uint32_t opening = 0, before = 0, sales = 0, added = 0, cost = 0, closing = 0, result = 0;
};

Account write_account(Parts& parts, const Totals& t) {
  const YearFigures& f = parts.figures;
  Sheet& sheet = *parts.account;
  sheet.widths({44, 20, 14, 50});
  sheet.text({0, 0}, fmt::format("How the year {} adds up", f.year), look::title);
  sheet.text({1, 0}, "All amounts in " + f.currency.code + ". A list with nothing on it is not shown.",
             look::note);
  constexpr std::uint32_t table = 2;
  std::uint32_t at = table;
  sheet.headings({at, 0}, {"How it adds up", "", "", ""}, 1);
  const auto line = [&](const char* name, const std::string& formula, Money amount, const std::string& says,
                        bool total = false) {
    ++at;
    sheet.text({at, 0}, name, total ? look::total : look::text);
    sheet.formula({at, 1}, formula, amount, total ? look::money_total : look::money);
    sheet.wrapped({at, 3}, says, look::note_apart);
    return at;
  };
  const auto b = [](std::uint32_t row_number) { return "$B$" + std::to_string(row_number + 1); };
  const std::uint32_t sales =
      line("Sales", parts.month_sum.sales, t.months.sales, "what was sold less what fell through");
  // A sale of the year before that falls through takes its price off this year: shown apart.
  const std::uint32_t returned = ++at;
  sheet.text({at, 0}, "Sales returned");
  sheet.money({at, 1}, f.sales_returned);
  sheet.wrapped({at, 3}, "sales that fell through in the year, at their prices", look::note_apart);
  line("Sales before returns", formula::rounded(b(sales) + "+" + b(returned), f.currency),
       t.months.sales + f.sales_returned, "Sales + Sales returned");
  const std::uint32_t opening = line("Opening inventory, at cost", parts.vehicle_sum.opening, t.opening,
                                     "vehicles that stood there on the first day");
  const std::uint32_t added = line("Purchases and costs added", parts.vehicle_sum.added, t.added, "");
  const std::uint32_t recovered = line("Recovered from vehicles", parts.vehicle_sum.recovered, t.recovered,
                                       "parts sold off before the sale");
  line("Parts and scrap sold off cars, gross", parts.parts_sold->at(parts.parts_sold_total), t.parts_sold,
       "all that was got for them: off a car's cost first, beyond it income; counted in the lines above and "
       "below");
  const std::uint32_t closing = line("Closing inventory, at cost", parts.vehicle_sum.closing, t.closing,
                                     "owned, in pieces (not yet recovered), looked at and open");
  const std::uint32_t cost =
      line("Cost of sales",
           formula::rounded(b(opening) + "+" + b(added) + "-" + b(recovered) + "-" + b(closing), f.currency),
           t.months.cost_of_sales, "opening + added - recovered - closing", true);
  const std::uint32_t selling = line("Selling costs", parts.month_sum.selling, t.months.selling_costs, "");
  const std::uint32_t other = line("Other income of vehicles", parts.month_sum.other, t.months.other_income,
                                   "deposits kept, parts sold off after a sale");
  const std::uint32_t late = line("Cost after the sale", parts.month_sum.late, t.months.late_cost, "");
  const std::uint32_t overhead = line("Overhead", parts.month_sum.overhead, t.months.overhead, "");
  const std::uint32_t tools = line("Tools", parts.month_sum.tools, t.months.tools, "");
  const std::uint32_t looking =
      line("Looking at cars that were left", parts.month_sum.looking, t.months.looking, "");
  const std::uint32_t result =
      line("Result before own hours",
           formula::rounded(b(sales) + "-" + b(cost) + "-" + b(selling) + "+" + b(other) + "-" + b(late) +
                                "-" + b(overhead) + "-" + b(tools) + "-" + b(looking),
                            f.currency),
           t.result, "", true);
  ++at;
  sheet.headings({++at, 0}, {"At the end, and beside the books", "", "", ""}, 1);
  sheet.text({++at, 0}, "Carried by cars before the first day");
  sheet.money({at, 1}, f.carried_before);
  sheet.wrapped({at, 3}, "as the year before ended", look::note_apart);
  const std::uint32_t before = at;
  line("In all purses", parts.purses->at(parts.purse_total), t.purses, "");
  line("On the shelf", parts.shelf->at(parts.shelf_total), t.shelf, "");
  line("Tools kept as an asset", parts.tools_kept->at(parts.tools_kept_total), t.tools_kept,
       "at cost; no part of the result");
  line("Due to the shop", parts.due->at(parts.due_total), t.due,
       is_zero(f.credit_due) ? ""
                             : fmt::format("of it {}, a shop's credit, stands in the purses too",
                                           f.credit_due.shown(f.currency)));
  line("Owed by the shop", parts.owed->at(parts.owed_total), t.owed,
       is_zero(f.card_owed) ? ""
                            : fmt::format("of it {}, owed on cards, stands in the purses too, below zero",
                                          f.card_owed.shown(f.currency)));
  const std::size_t missing = bought_without_paper(f);
  line("Without a receipt", parts.without->at(parts.without_total), t.without,
       fmt::format("{} {} to look for", missing, missing == 1 ? "paper" : "papers"));
  ++at;
  sheet.text({at, 0}, "Own hours");
  sheet.formula({at, 1}, parts.vehicle_sum.hours, t.own_hours.approximately(), look::decimal);
  sheet.wrapped({at, 3}, "no cost in the books", look::note_apart);
  ++at;
  sheet.text({at, 0}, "Driven, " + f.distance_unit);
  sheet.formula({at, 1}, parts.trips->at(parts.trip_total), t.distance.approximately(), look::decimal);
  ++at;
  sheet.wrapped({at, 0}, "Most sales in any twelve months that end in the year");
  sheet.formula({at, 1}, parts.limits->at(parts.most_sales), static_cast<double>(parts.most_in_twelve),
                look::whole);
  parts.book.name("most_sales_in_twelve_months", sheet, {at, 1});
  const std::string limit = parts.limits->at(parts.limit), most = b(at);
  std::string words = "no limit set";
  if (f.sales_limit)
    words = fmt::format("limit set: {}, {}", *f.sales_limit,
                        parts.most_in_twelve > *f.sales_limit    ? "over it"
                        : parts.most_in_twelve == *f.sales_limit ? "reaches it"
                                                                 : "below it");
  sheet.formula_text({at, 3},
                     "IF(ISNUMBER(" + limit + "),\"limit set: \"&" + limit + "&IF(" + most + ">" + limit +
                         ",\", over it\",IF(" + most + "=" + limit +
                         ",\", reaches it\",\", below it\")),\"no limit set\")",
                     words, look::note_apart);
  for (const auto& [name, row_number] :
       std::vector<std::pair<const char*, std::uint32_t>>{{"sales", sales},
                                                          {"opening_inventory", opening},
                                                          {"added", added},
                                                          {"recovered", recovered},
                                                          {"closing_inventory", closing},
                                                          {"cost_of_sales", cost},
                                                          {"result", result}})
    parts.book.name(name, sheet, {row_number, 1});
  return {opening, before, sales, added, cost, closing, result};
}

// The lists against what the accounts moved: each entry of a list is looked up by itself.
void check_lists(Parts& parts, const Account& rows, const Totals& t, Checks& all) {
  const YearFigures& f = parts.figures;
  const auto account = [&](std::uint32_t at) { return parts.account->at({at, 1}); };
  const auto line = [&](const std::string& what, const std::string& list, const std::string& moved,
                        const std::string& of, Money now) {
    all.line(what, formula::rounded(list + "-" + moved, f.currency), of, now);
  };
  const auto sum = [](const std::vector<YearLine>& lines) {
    Money all_of_them;
    for (const YearLine& each : lines) all_of_them += each.amount;
    return all_of_them;
  };
  Money bought;
  for (const YearBought& each : f.bought) bought += each.amount;
  line("put into cars, by purpose and by car", parts.bought->at(parts.bought_total), account(rows.added),
       "Bought less Vehicles", bought - t.added);
  line("tools, one by one and by months", parts.tools->at(parts.tools_total), parts.month_sum.tools,
       "Tools less Months", sum(f.tools) - t.months.tools);
  line("overhead, one by one and by months", parts.overhead->at(parts.overhead_total),
       parts.month_sum.overhead, "Overhead less Months", sum(f.overhead) - t.months.overhead);
  Money on_cards;
  for (const YearPurse& each : f.purses)
    if (each.kind == "liability" && is_negative(each.closing)) on_cards -= each.closing;
  line("owed on cards, as a debt and in the purses", parts.owed_on_cards,
       "(0-" + parts.cards_below_zero + ")", "Owed less Purses", f.card_owed - on_cards);
}

// What was made of months, of cars and of the ledger's accounts, held against each other.
void write_checks(Parts& parts, Head& page, const Account& rows, const Totals& t) {
  const YearFigures& f = parts.figures;
  const auto account = [&](std::uint32_t at) { return parts.account->at({at, 1}); };
  const auto rounded = [&](const std::string& formula) { return formula::rounded(formula, f.currency); };
  const auto in_trial = [&](const std::string& kind) {
    const auto range = [&](std::uint16_t col) {
      return parts.trial->at({parts.trial_first.row, col}, {parts.trial_last.row, col});
    };
    const std::string of = range(1) + ",\"" + kind + "\")";
    return "SUMIFS(" + range(2) + "," + of + "-SUMIFS(" + range(3) + "," + of;
  };
  const auto held = [&](const std::string& kind) {
    Money sum;
    for (const YearAccount& each : f.trial)
      if (each.kind == kind) sum += each.balance;
    return sum;
  };
  Checks all = page.checks();
  all.line("result, by months and by accounts", rounded(parts.month_sum.result + "-" + account(rows.result)),
           "Months less Account");
  all.line("result, by cars and by months",
           rounded(parts.brought_result + "-" + parts.month_sum.overhead + "-" + parts.month_sum.tools + "-" +
                   parts.month_sum.looking + "-" + parts.month_sum.result),
           "Brought, less what no car bears, less Months");
  all.line("cost of sales, by inventory and by months",
           rounded(account(rows.cost) + "-" + parts.month_sum.cost_of_sales), "Account less Months");
  all.line("closing inventory, by cars and in the ledger",
           rounded(parts.vehicle_sum.closing + "-(" + in_trial("vehicle cost") + "+" + in_trial("recovered") +
                   ")"),
           "Vehicles less Trial", t.closing - held("vehicle cost") - held("recovered"));
  all.line("opening inventory, and the year before",
           rounded(account(rows.opening) + "-" + account(rows.before)),
           "Vehicles less what cars carried then", t.opening - f.carried_before);
  all.line("purses, by what moved and in the ledger",
           rounded(parts.purses->at(parts.purse_total) + "-(" + in_trial("purse") + ")"), "Purses less Trial",
           t.purses - held("purse"));
  all.line("shelf, by what moved and in the ledger",
           rounded(parts.shelf->at(parts.shelf_total) + "-(" + in_trial("stock") + ")"), "Shelf less Trial",
           t.shelf - held("stock"));
  check_lists(parts, rows, t, all);
  all.line("debits and credits", parts.trial->at(parts.trial_total), "Trial");
  all.line("capital, as it moved and as it is there", parts.capital->at(parts.capital_difference),
           "Capital, both ways");
  page.end_of(all, all.close());
}

}  // namespace

void must_add_up(const YearFigures& figures) { totals_of(figures); }

void write_first(Parts& parts) {
  const YearFigures& f = parts.figures;
  const Totals t = totals_of(f);
  const Account rows = write_account(parts, t);
  const auto account = [&](std::uint32_t at) { return parts.account->at({at, 1}); };
  Head page(parts.book, *parts.first, fmt::format("The shop's year {}", f.year));
  page.say(fmt::format(
      "All amounts in {}, made {}. Basis: money as it was paid, what is on account as it was bought; "
      "cars and the shelf at cost. No tax advice: it is what the book says, for whoever prepares "
      "the taxes.",
      f.currency.code, f.made_on.iso()));
  const bool loss = is_negative(t.result);
  page.answer({"IF(" + account(rows.result) + "<0,\"Loss of the year\",\"Result of the year\")",
               loss ? "Loss of the year" : "Result of the year"},
              account(rows.result), t.result, "before own hours");
  page.figure("Sales", account(rows.sales), std::optional(t.months.sales), "");
  page.figure("Cost of sales", account(rows.cost), std::optional(t.months.cost_of_sales),
              "opening + added - recovered - closing");
  page.figure("Closing inventory, at cost", account(rows.closing), std::optional(t.closing),
              "cars that were not sold");
  page.when_changed("it is no longer what the book says.");
  Chart chart;
  chart.kind = Chart::Kind::columns;
  chart.title = "Result by month (below zero: a loss)";
  chart.across = "month";
  chart.across_format = "yyyy-mm";
  chart.up = f.currency.code;
  chart.up_format = "#,##0";
  chart.legend = false;
  chart.says = "Result by month; " + t.result.shown(f.currency) + " in the year";
  chart.series.push_back({"result", parts.month_names, parts.month_results, Paint::strong});
  if (std::any_of(f.months.begin(), f.months.end(),
                  [](const YearMonth& month) { return !is_zero(result_of(month)); }))
    page.picture(chart, 18);
  write_checks(parts, page, rows, t);
  page.legend(
      "the limit on SalesLimit, what cars in pieces still bring on Pieces, the statements on Purses. All "
      "else "
      "is what the book says: it is put right there.");
  page.close({cautions::of_a_year.begin(), cautions::of_a_year.end()});
}

}  // namespace nonrunner::reports::year_sheets
