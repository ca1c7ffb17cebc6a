// Vehicles sold and unsold: the inventory at cost, the cost of sales, and what each brought in the year.
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "reports/year/parts.h"

namespace nonrunner::reports::year_sheets {

Money result_of(const YearVehicle& v) {
  return v.sales - v.cost_of_sales - v.selling_costs + v.other_income - v.late_cost;
}

namespace {

// A car in pieces stands at the cost not yet recovered: what of that will it still bring?
void write_pieces(Parts& parts, std::uint32_t at, std::uint32_t first) {
  using namespace vehicle_column;
  Sheet& sheet = *parts.vehicles;
  const auto& vehicles = parts.figures.vehicles;
  if (std::none_of(vehicles.begin(), vehicles.end(),
                   [](const YearVehicle& v) { return v.still_brings || v.parts_sold_off; }))
    return;
  sheet.text({at, 0}, "In pieces, at the cost not yet recovered", look::section);
  sheet.headings({at + 1, 0}, {"Vehicle", "", "", "", "", "Closing", "Still brings", "", "", "", ""}, opening,
                 recovered);
  at += 2;
  for (std::size_t i = 0; i < vehicles.size(); ++i) {
    const YearVehicle& v = vehicles[i];
    if (!v.still_brings && !v.parts_sold_off) continue;
    const char* const above = "stands above what it will still bring";
    const char* const covered = "covered by what it will still bring";
    sheet.text({at, 0}, v.tag);
    sheet.formula({at, opening}, here(Cell{first + static_cast<std::uint32_t>(i), closing}), v.closing);
    const std::string by_amount = "IF(" + here(Cell{at, opening}) + ">" + here(Cell{at, added}) + ",\"" +
                                  above + "\",\"" + covered + "\")";
    if (v.still_brings) {
      sheet.money({at, added}, *v.still_brings, look::money_input);
      sheet.formula_text({at, recovered}, by_amount, v.closing > *v.still_brings ? above : covered,
                         look::text_apart);
    } else {
      const char* const asked = "parts were sold off it: type what the rest will still bring";
      sheet.blank({at, added}, look::money_input);
      sheet.formula_text({at, recovered},
                         "IF(ISNUMBER(" + here(Cell{at, added}) + ")," + by_amount + ",\"" + asked + "\")",
                         asked, look::text_apart);
    }
    ++at;
  }
}

}  // namespace

void write_vehicles(Parts& parts) {
  using namespace vehicle_column;
  Sheet& sheet = *parts.vehicles;
  const YearFigures& f = parts.figures;
  const Currency& currency = f.currency;
  const auto rounded = [&](const std::string& formula) {
    return "ROUND(" + formula + "," + std::to_string(currency.digits) + ")";
  };
  constexpr std::uint32_t first = 5;
  sheet.landscape();
  sheet.widths({12, 44, 11, 12, 12, 12, 12, 12, 12, 15, 12, 15, 15, 12, 12, 12});
  sheet.frozen(first, 1, first - 1);
  sheet.text({0, 0}, fmt::format("Vehicles, {}", f.year), look::title);
  sheet.text({1, 0},
             "Opening + added - recovered - closing = cost of sales, for each vehicle and in all. Own hours "
             "are no cost in the books.",
             look::note);
  sheet.headings(
      {first - 1, 0},
      {"Vehicle", "Description", "State", "Bought", "Ended", "Opening", "Added", "Recovered", "Closing",
       "Cost of sales", "Sales", "Selling costs", "Other income", "Late cost", "Result", "Own hours"},
      opening);
  std::uint32_t at = first;
  YearVehicle sum;
  Money total;
  for (const YearVehicle& v : f.vehicles) {
    if (v.opening + v.added - v.recovered - v.closing != v.cost_of_sales)
      throw std::logic_error(fmt::format(
          "year workbook: the inventory of {} moved by {}, its cost of sales is {}", v.tag,
          (v.opening + v.added - v.recovered - v.closing).plain(currency), v.cost_of_sales.plain(currency)));
    const auto cell = [&](std::uint16_t col) { return here(Cell{at, col}); };
    sheet.text({at, 0}, v.tag);
    sheet.text({at, 1}, v.description);
    sheet.text({at, 2}, v.state);
    if (v.bought_on) sheet.day({at, 3}, *v.bought_on);
    if (v.ended_on) sheet.day({at, 4}, *v.ended_on);
    for (const auto& [col, amount] :
         {std::pair(opening, v.opening), std::pair(added, v.added), std::pair(recovered, v.recovered),
          std::pair(closing, v.closing), std::pair(sales, v.sales), std::pair(selling, v.selling_costs),
          std::pair(other, v.other_income), std::pair(late, v.late_cost)})
      sheet.money({at, col}, amount);
    sheet.formula({at, cost_of_sales},
                  rounded(cell(opening) + "+" + cell(added) + "-" + cell(recovered) + "-" + cell(closing)),
                  v.cost_of_sales);
    sheet.formula({at, result},
                  rounded(cell(sales) + "-" + cell(cost_of_sales) + "-" + cell(selling) + "+" + cell(other) +
                          "-" + cell(late)),
                  result_of(v));
    sheet.decimal({at, hours}, v.own_hours);
    sum.opening += v.opening, sum.added += v.added, sum.recovered += v.recovered, sum.closing += v.closing,
        sum.cost_of_sales += v.cost_of_sales;
    sum.sales += v.sales, sum.selling_costs += v.selling_costs, sum.other_income += v.other_income,
        sum.late_cost += v.late_cost;
    sum.own_hours += v.own_hours;
    total += result_of(v);
    ++at;
  }
  if (f.vehicles.empty()) sheet.text({at, 0}, "no vehicles"), ++at;
  parts.vehicle_totals = {at, 0};
  sheet.text({at, 0}, "in all", look::total);
  const auto add = [&](std::uint16_t col, Money amount) {
    sheet.formula({at, col}, rounded("SUM(" + here({first, col}, {at - 1, col}) + ")"), amount,
                  look::money_total);
  };
  add(opening, sum.opening), add(added, sum.added), add(recovered, sum.recovered), add(closing, sum.closing),
      add(sales, sum.sales), add(selling, sum.selling_costs);
  add(other, sum.other_income), add(late, sum.late_cost), add(result, total),
      add(cost_of_sales, sum.cost_of_sales);
  sheet.formula({at, hours}, "SUM(" + here({first, hours}, {at - 1, hours}) + ")",
                sum.own_hours.approximately(), look::decimal_total);
  const auto cell = [&](std::uint16_t col) { return here(Cell{at, col}); };
  sheet.text({at + 1, 0}, "Opening + added - recovered - closing - cost of sales, in all: must be zero");
  sheet.formula({at + 1, cost_of_sales},
                rounded(cell(opening) + "+" + cell(added) + "-" + cell(recovered) + "-" + cell(closing) +
                        "-" + cell(cost_of_sales)),
                Money());
  write_pieces(parts, at + 4, first);
}

}  // namespace nonrunner::reports::year_sheets
