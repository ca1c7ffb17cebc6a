// What the sheets of the year workbook share.
#pragma once
#include <string>

#include "reports/sheet.h"
#include "reports/year.h"

namespace nonrunner::reports::year_sheets {

struct Parts {
  Parts(const YearFigures& given, Workbook& into) : figures(given), book(into) {}

  const YearFigures& figures;
  Workbook& book;
  Sheet *first = nullptr, *vehicles = nullptr, *months = nullptr, *purses = nullptr, *shelf = nullptr,
        *trips = nullptr, *papers = nullptr, *sales = nullptr, *trial = nullptr;
  Cell limit;           // Sales: what may be typed
  Cell vehicle_totals;  // Vehicles: the row of totals, column 0
  Cell month_first, month_last, month_totals;
  Cell purse_total, shelf_total, trip_total, tools_total, tools_kept_total, overhead_total, due_total,
      owed_total, without_total, most_sales, trial_total;
  std::int64_t most_in_twelve = 0;
};

// Columns of Vehicles and of Months that the first page asks for.
namespace vehicle_column {
constexpr std::uint16_t opening = 5, added = 6, recovered = 7, closing = 8, cost_of_sales = 9, sales = 10,
                        selling = 11, other = 12, late = 13, result = 14, hours = 15;
}
namespace month_column {
constexpr std::uint16_t sales = 1, cost_of_sales = 2, selling = 3, other = 4, late = 5, overhead = 6,
                        tools = 7, looking = 8, result = 9;
}

Money result_of(const YearVehicle&);
Money result_of(const YearMonth&);
// Sales in the twelve months that end on `end`, that day included.
std::int64_t sold_in_twelve_months(const std::vector<YearSale>&, Day end);
// The most in any twelve months whose last day lies in the year.
std::int64_t most_in_twelve_months(const std::vector<YearSale>&, int year);

void write_vehicles(Parts&);
void write_months(Parts&);
void write_purses(Parts&);
void write_shelf(Parts&);
void write_trips(Parts&);
void write_papers(Parts&);
void write_sales(Parts&);
void write_trial(Parts&);
void write_first(Parts&);

}  // namespace nonrunner::reports::year_sheets
