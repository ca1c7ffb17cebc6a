// Vehicles sold and unsold: the inventory at cost, the cost of sales, and what each brought in the year.
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "reports/table.h"
#include "reports/year/parts.h"
#include "reports/year_words.h"

namespace nonrunner::reports::year_sheets {

Money result_of(const YearVehicle& v) {
  return v.sales - v.cost_of_sales - v.selling_costs + v.other_income - v.late_cost;
}

namespace {

constexpr std::uint32_t heading = 3;
namespace vehicle_column {
enum : std::uint16_t { tag, state, bought, ended, opening, added, recovered, closing, cost_of_sales, hours };
}

// Cars that were only looked at stand last, and apart: they are no inventory yet.
std::vector<const YearVehicle*> in_order(const YearFigures& f) {
  std::vector<const YearVehicle*> all;
  for (const YearVehicle& v : f.vehicles) all.push_back(&v);
  std::stable_partition(all.begin(), all.end(), [](const YearVehicle* v) { return !v->considered; });
  return all;
}

void write_brought(Parts& parts) {
  enum : std::uint16_t { tag, state, sales, cost_of_sales, selling, other, late, result };
  const YearFigures& f = parts.figures;
  Sheet& sheet = *parts.brought;
  sheet.landscape();
  Table table(sheet, heading,
              {{"Vehicle", 15, look::wrapped},
               {"State", 15, look::text},
               {"Sales", 15, look::money, summed},
               {"Cost of sales", 15, look::money, summed},
               {"Selling costs", 15, look::money, summed},
               {"Other income", 15, look::money, summed},
               {"Late cost", 15, look::money, summed},
               {"Result", 15, look::money, summed}});
  sheet.text({0, 0}, fmt::format("What each vehicle brought, {}", f.year), look::title);
  sheet.across({1, 0}, 8, "Before own hours, which are no cost in the books, and before overhead and tools.",
               look::note);
  for (const YearVehicle* v : in_order(f)) {
    table.row();
    table.text(tag, v->tag);
    table.text(state, v->state);
    table.money(sales, v->sales);
    table.money(cost_of_sales, v->cost_of_sales);
    table.money(selling, v->selling_costs);
    table.money(other, v->other_income);
    table.money(late, v->late_cost);
    table.money(result,
                parts.rounded(table.in(sales) + "-" + table.in(cost_of_sales) + "-" + table.in(selling) +
                              "+" + table.in(other) + "-" + table.in(late)),
                result_of(*v));
  }
  if (table.empty()) sheet.hide();
  parts.brought_result = sheet.at({table.close("in all", "no vehicles").row, result});
}

}  // namespace

void write_vehicles(Parts& parts) {
  using namespace vehicle_column;
  const YearFigures& f = parts.figures;
  Sheet& sheet = *parts.vehicles;
  sheet.landscape();
  Table table(sheet, heading,
              {{"Vehicle", 38, look::wrapped},
               {"State", 12, look::text},
               {"Bought", 11, look::day},
               {"Ended", 11, look::day},
               {"Opening", 13, look::money, summed},
               {"Added", 13, look::money, summed},
               {"Recovered", 13, look::money, summed},
               {"Closing", 13, look::money, summed},
               {"Cost of sales", 13, look::money, summed},
               {"Own hours", 11, look::decimal, summed}});
  sheet.text({0, 0}, fmt::format("Vehicles, the inventory at cost, {}", f.year), look::title);
  sheet.across(
      {1, 0}, 10,
      "Opening + added - recovered - closing = cost of sales. Cars that were only considered stand last: "
      "what "
      "looking at them cost is carried until they are bought or left. Own hours are no cost in the books.",
      look::note);
  for (const YearVehicle* v : in_order(f)) {
    if (v->opening + v->added - v->recovered - v->closing != v->cost_of_sales)
      throw std::logic_error(
          fmt::format("year workbook: the inventory of {} moved by {}, its cost of sales is {}", v->tag,
                      (v->opening + v->added - v->recovered - v->closing).plain(f.currency),
                      v->cost_of_sales.plain(f.currency)));
    table.row();
    table.text(tag, v->description.empty() ? v->tag : v->tag + ": " + v->description);
    table.text(state, v->state);
    if (v->bought_on) table.day(bought, *v->bought_on);
    if (v->ended_on) table.day(ended, *v->ended_on);
    table.money(opening, v->opening);
    table.money(added, v->added);
    table.money(recovered, v->recovered);
    table.money(closing, v->closing);
    table.money(cost_of_sales,
                parts.rounded(table.in(opening) + "+" + table.in(added) + "-" + table.in(recovered) + "-" +
                              table.in(closing)),
                v->cost_of_sales);
    table.count(hours, v->own_hours);
  }
  if (table.empty()) sheet.hide();
  const std::uint32_t sums = table.close("in all", "no vehicles").row;
  const auto sum = [&](std::uint16_t column) { return sheet.at({sums, column}); };
  parts.vehicle_sum = {sum(opening), sum(added), sum(recovered), sum(closing), sum(hours)};
  write_brought(parts);
}

// A car in pieces stands at the cost not yet recovered: what of that will it still bring?
void write_pieces(Parts& parts) {
  enum : std::uint16_t { tag, stands_at, brings, verdict };
  Sheet& sheet = *parts.pieces;
  Table table(sheet, 3,
              {{"Vehicle", 20, look::text},
               {"Stands at", 16, look::money, summed},
               {"Still brings", 16, look::money_input},
               {"", 60, look::text_apart}});
  sheet.text({0, 0}, "In pieces, at the cost not yet recovered", look::title);
  sheet.across({1, 0}, 4,
               "Type what the rest of it will still bring: cost above that is to be looked at with whoever "
               "prepares the taxes.",
               look::note);
  const char* const above = "stands above what it will still bring";
  const char* const covered = "covered by what it will still bring";
  const char* const asked = "parts were sold off it: type what the rest will still bring";
  for (const YearVehicle& v : parts.figures.vehicles) {
    if (!v.still_brings && !v.parts_sold_off) continue;
    table.row();
    table.text(tag, v.tag);
    table.money(stands_at, v.closing);
    if (v.still_brings)
      table.money(brings, *v.still_brings);
    else
      sheet.blank(table.cell(brings), look::money_input);
    table.words(verdict,
                "IF(ISNUMBER(" + table.in(brings) + "),IF(" + table.in(stands_at) + ">" + table.in(brings) +
                    ",\"" + above + "\",\"" + covered + "\"),\"" + asked + "\")",
                !v.still_brings               ? asked
                : v.closing > *v.still_brings ? above
                                              : covered);
  }
  if (table.empty()) sheet.hide();
  table.close("in all", "none");
}

// What the cars' cost grew by, by what it was for.
void write_bought(Parts& parts) {
  Sheet& sheet = *parts.bought;
  Table table(sheet, 3,
              {{"What for", 50, look::wrapped},
               {"Entries", 12, look::whole, summed},
               {"Amount", 18, look::money, summed}});
  sheet.text({0, 0}, fmt::format("What was put into cars, {}", parts.figures.year), look::title);
  sheet.across(
      {1, 0}, 3,
      "As each entry says what it was for, corrections taken off; see the sheet Entries. A part is new, "
      "salvage or reman as its receipt says.",
      look::note);
  for (const YearBought& each : parts.figures.bought) {
    table.row();
    table.text(0, in_words(each));
    table.number(1, static_cast<double>(each.entries));
    table.money(2, each.amount);
  }
  if (table.empty()) sheet.hide();
  parts.bought_total = {table.close("in all", "nothing").row, 2};
}

}  // namespace nonrunner::reports::year_sheets
