// What the sheets of the year workbook share.
#pragma once
#include <string>

#include "reports/formula.h"
#include "reports/sheet.h"
#include "reports/year.h"

namespace nonrunner::reports::year_sheets {

struct Parts {
  Parts(const YearFigures& given, Workbook& into) : figures(given), book(into) {}

  const YearFigures& figures;
  Workbook& book;
  Sheet *first = nullptr, *account = nullptr, *months = nullptr, *vehicles = nullptr, *brought = nullptr,
        *pieces = nullptr, *parts_sold = nullptr, *bought = nullptr, *helpers = nullptr, *sales = nullptr,
        *limits = nullptr, *capital = nullptr, *purses = nullptr, *shelf = nullptr, *due = nullptr,
        *owed = nullptr, *tools = nullptr, *tools_kept = nullptr, *overhead = nullptr, *without = nullptr,
        *trips = nullptr, *entries = nullptr, *trial = nullptr;
  Cell limit;  // SalesLimit: what may be typed
  // What other sheets ask of these, as they write it in a formula: the sums, and the months with their results.
  struct {
    std::string opening, added, recovered, closing, hours;
  } vehicle_sum;
  std::string brought_result;
  struct {
    std::string sales, cost_of_sales, selling, other, late, overhead, tools, looking, result;
  } month_sum;
  std::string month_names, month_results;
  Cell purse_total, shelf_total, trip_total, tools_total, tools_kept_total, overhead_total, due_total,
      owed_total, without_total, bought_total, parts_sold_total, most_sales, trial_total, trial_first,
      trial_last, capital_difference;
  std::string owed_on_cards, cards_below_zero;  // as formulas: of Owed and of Purses
  std::int64_t most_in_twelve = 0;

  std::string rounded(const std::string& of) const { return formula::rounded(of, figures.currency); }
};

// Beyond so many the journal is written row by row: it needs no more memory than a short one.
constexpr std::size_t many_entries = 5'000;

Money result_of(const YearVehicle&);
Money result_of(const YearMonth&);
// Sales in the twelve months that end on `end`, that day included.
std::int64_t sold_in_twelve_months(const std::vector<Sale>&, Day end);
// The most in any twelve months whose last day lies in the year.
std::int64_t most_in_twelve_months(const std::vector<Sale>&, int year);

// Throws std::logic_error where months, vehicles and the result disagree.
void must_add_up(const YearFigures&);

void write_months(Parts&);
void write_vehicles(Parts&);
void write_pieces(Parts&);
void write_bought(Parts&);
void write_sales(Parts&);
void write_limits(Parts&);
void write_purses(Parts&);
void write_shelf(Parts&);
void write_lists(Parts&);
void write_trips(Parts&);
void write_helpers(Parts&);
void write_entries(Parts&);
void write_trial(Parts&);
void write_capital(Parts&);
void write_first(Parts&);

}  // namespace nonrunner::reports::year_sheets
