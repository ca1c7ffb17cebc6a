// The first page of the year: the result, the figures that matter, month by month as a picture, and how it
// adds up.
#include <fmt/format.h>

#include <stdexcept>

#include "reports/cautions.h"
#include "reports/year/parts.h"

namespace nonrunner::reports::year_sheets {

namespace {

struct Totals {
  YearMonth months;
  Money result, opening, added, recovered, closing, purses, shelf, due, owed, without, tools_kept;
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
  for (const YearDue& due : f.due) t.due += due.amount;
  for (const YearDue& owed : f.owed) t.owed += owed.amount;
  for (const YearLine& line : f.tools_kept) t.tools_kept += line.amount;
  for (const YearLine& line : f.without_paper) t.without += line.amount;
  for (const YearTrip& trip : f.trips) t.distance += trip.distance;
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

void write_first(Parts& parts) {
  const YearFigures& f = parts.figures;
  const Totals t = totals_of(f);
  Sheet& sheet = *parts.first;
  sheet.widths({46, 18, 14, 44});
  sheet.text({0, 0}, fmt::format("The shop's year {}", f.year), look::title);
  sheet.text({1, 0},
             fmt::format("All amounts in {}, made {}. No tax advice: it is what the book says, for whoever "
                         "prepares the taxes.",
                         f.currency.code, f.made_on.iso()),
             look::note);
  constexpr std::uint32_t answer = 3, picture = 8, picture_rows = 18, table = 27;
  const auto month = [&](std::uint16_t col) { return parts.months->at({parts.month_totals.row, col}); };
  const auto vehicle = [&](std::uint16_t col) { return parts.vehicles->at({parts.vehicle_totals.row, col}); };
  std::uint32_t at = table;
  sheet.headings({at, 0}, {"How it adds up", "", "", ""}, 1);
  const auto line = [&](const char* name, const std::string& formula, Money amount, const std::string& says,
                        bool total = false) {
    ++at;
    sheet.text({at, 0}, name, total ? look::total : look::text);
    sheet.formula({at, 1}, formula, amount, total ? look::money_total : look::money);
    sheet.text({at, 3}, says, look::note_apart);
    return at;
  };
  const std::string zero = "," + std::to_string(f.currency.digits) + ")";
  const auto b = [](std::uint32_t row_number) { return "$B$" + std::to_string(row_number + 1); };
  const std::uint32_t sales = line("Sales", month(month_column::sales), t.months.sales, "");
  const std::uint32_t opening = line("Opening inventory, at cost", vehicle(vehicle_column::opening),
                                     t.opening, "vehicles that stood there on the first day");
  const std::uint32_t added = line("Purchases and costs added", vehicle(vehicle_column::added), t.added, "");
  const std::uint32_t recovered = line("Recovered from vehicles", vehicle(vehicle_column::recovered),
                                       t.recovered, "parts sold off before the sale");
  const std::uint32_t closing = line("Closing inventory, at cost", vehicle(vehicle_column::closing),
                                     t.closing, "owned, in pieces (not yet recovered), looked at and open");
  const std::uint32_t cost = line(
      "Cost of sales", "ROUND(" + b(opening) + "+" + b(added) + "-" + b(recovered) + "-" + b(closing) + zero,
      t.months.cost_of_sales, "opening + added - recovered - closing", true);
  const std::uint32_t selling =
      line("Selling costs", month(month_column::selling), t.months.selling_costs, "");
  const std::uint32_t other = line("Other income of vehicles", month(month_column::other),
                                   t.months.other_income, "deposits kept, parts sold off after a sale");
  const std::uint32_t late = line("Cost after the sale", month(month_column::late), t.months.late_cost, "");
  const std::uint32_t overhead = line("Overhead", month(month_column::overhead), t.months.overhead, "");
  const std::uint32_t tools = line("Tools", month(month_column::tools), t.months.tools, "");
  const std::uint32_t looking =
      line("Looking at cars that were left", month(month_column::looking), t.months.looking, "");
  const std::uint32_t result =
      line("Result before own hours",
           "ROUND(" + b(sales) + "-" + b(cost) + "-" + b(selling) + "+" + b(other) + "-" + b(late) + "-" +
               b(overhead) + "-" + b(tools) + "-" + b(looking) + zero,
           t.result, "", true);
  ++at;
  sheet.headings({++at, 0}, {"At the end, and beside the books", "", "", ""}, 1);
  line("In all purses", parts.purses->at(parts.purse_total), t.purses, "");
  line("On the shelf", parts.shelf->at(parts.shelf_total), t.shelf, "");
  if (!f.tools_kept.empty())
    line("Tools kept as an asset", parts.papers->at(parts.tools_kept_total), t.tools_kept,
         "at cost; no part of the result");
  line("Due to the shop", parts.papers->at(parts.due_total), t.due,
       is_zero(f.credit_due) ? ""
                             : fmt::format("of it {}, a shop's credit, stands in the purses too",
                                           f.credit_due.shown(f.currency)));
  line("Owed by the shop", parts.papers->at(parts.owed_total), t.owed, "");
  line("Without a receipt", parts.papers->at(parts.without_total), t.without,
       fmt::format("{} {} to look for", f.without_paper.size(),
                   f.without_paper.size() == 1 ? "paper" : "papers"));
  ++at;
  sheet.text({at, 0}, "Own hours");
  sheet.formula({at, 1}, vehicle(vehicle_column::hours), t.own_hours.approximately(), look::decimal);
  sheet.text({at, 3}, "no cost in the books", look::note_apart);
  ++at;
  sheet.text({at, 0}, "Driven, " + f.distance_unit);
  sheet.formula({at, 1}, parts.trips->at(parts.trip_total), t.distance.approximately(), look::decimal);
  ++at;
  sheet.text({at, 0}, "Most sales in any twelve months that end in the year");
  sheet.formula({at, 1}, parts.sales->at(parts.most_sales), static_cast<double>(parts.most_in_twelve),
                look::whole);
  parts.book.name("most_sales_in_twelve_months", sheet, {at, 1});
  const std::string limit = parts.sales->at(parts.limit), most = b(at);
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
  line("Trial balance", parts.trial->at(parts.trial_total), Money(), "must be zero");
  at += 2;
  sheet.text({at, 0}, "A cell like this may be changed", look::text_input);
  sheet.text({at, 1},
             "(pale fill, dashed border): the limit on Sales, what cars in pieces still bring on Vehicles.",
             look::note_apart);
  sheet.text({at + 1, 1}, "All else is what the book says: it is put right there.", look::note_apart);
  at += 3;
  for (const char* each : cautions::of_a_year)
    sheet.height(at, 26), sheet.across({at++, 0}, 4, each, look::caution);

  const bool loss = is_negative(t.result);
  sheet.height(answer, 28);
  sheet.formula_text({answer, 0}, "IF(" + b(result) + "<0,\"Loss of the year\",\"Result of the year\")",
                     loss ? "Loss of the year" : "Result of the year", look::answer);
  sheet.formula({answer, 1}, b(result), t.result, look::answer_money);
  sheet.blank({answer, 2}, look::answer);
  sheet.text({answer, 3}, "before own hours", {Form::text, Role::answer, false, Look::Side::apart});
  const auto figure = [&](std::uint32_t row_number, const char* name, std::uint32_t of, Money amount) {
    sheet.height(row_number, 20);
    sheet.text({row_number, 0}, name, look::figure);
    sheet.formula({row_number, 1}, b(of), amount, look::figure_money);
  };
  figure(answer + 1, "Sales", sales, t.months.sales);
  figure(answer + 2, "Cost of sales", cost, t.months.cost_of_sales);
  figure(answer + 3, "Closing inventory, at cost", closing, t.closing);
  Chart chart;
  chart.kind = Chart::Kind::columns;
  chart.title = "Result by month, " + f.currency.code + " (below zero: a loss)";
  chart.up_format = "#,##0";
  chart.legend = false;
  chart.series.push_back({"result", parts.months->at(parts.month_first, parts.month_last),
                          parts.months->at({parts.month_first.row, month_column::result},
                                           {parts.month_last.row, month_column::result}),
                          Paint::strong});
  sheet.chart({picture, 0}, chart, 4, picture_rows);
  for (const auto& [name, row_number] :
       std::vector<std::pair<const char*, std::uint32_t>>{{"sales", sales},
                                                          {"opening_inventory", opening},
                                                          {"added", added},
                                                          {"recovered", recovered},
                                                          {"closing_inventory", closing},
                                                          {"cost_of_sales", cost},
                                                          {"result", result}})
    parts.book.name(name, sheet, {row_number, 1});
}

}  // namespace nonrunner::reports::year_sheets
