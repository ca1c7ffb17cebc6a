// What the sheets of the profit workbook share: the figures, their sums, and where the cells stand that
// others refer to.
#pragma once
#include <string>
#include <vector>

#include "reports/formula.h"
#include "reports/profit/sums.h"
#include "reports/sheet.h"
#include "reports/variance.h"

namespace nonrunner::reports::profit {

// Rows of the sheet Account; A the label, B with all that came after, C at the sale, D what it is.
namespace row {
constexpr std::uint32_t table = 3, price = 4, cost = 5, recovered_before = 6, cost_of_sale = 7, selling = 8,
                        deposit_kept = 9, recovered_after = 10, late = 11, cash_profit = 12, own_hours = 13,
                        hour = 14, own_value = 15, profit = 16, margin = 17, margin_after_hours = 18,
                        per_hour = 19, tied_up = 20, return_on_cash = 21, bought = 22, sold = 23, days = 24,
                        rate = 25, break_even = 26, break_even_with_hours = 27,
                        // Of a vehicle not sold yet of which the appraisal expects more.
    cost_to_come = 28, selling_to_come = 29, break_even_to_come = 30;
}
constexpr std::uint16_t now = 1, then = 2;  // columns of Account

// Money, hidden: what a step is called in the picture, and the first of the eight columns of its bars.
constexpr std::uint16_t bridge_name = 5, bridge_bars = 6;

struct Parts {
  Parts(const ProfitFigures& given, const Sums& added, Workbook& into)
      : figures(given), sums(added), book(into) {}

  const ProfitFigures& figures;
  const Sums sums;
  Workbook& book;
  Sheet *first = nullptr, *result = nullptr, *money = nullptr, *hours = nullptr, *log = nullptr,
        *variance = nullptr, *variance_money = nullptr, *variance_hours = nullptr, *cash = nullptr,
        *price = nullptr, *entries = nullptr;
  // Filled by the sheet that owns the place, before the others ask for it.
  Cell kind_first;                 // Money: the first kind; then one row each: all, to the sale, after it
  Cell own_to_sale, own_all;       // Hours: totals
  Cell log_first, log_last;        // Log
  Cell line_first, line_last;      // Entries
  Cell bridge_first, bridge_last;  // Money: from the sale price to the profit
  Cell tied_up;                    // Cash
  std::vector<Day> cash_days;
  Cell typed_price;     // Result: where a sale price stands or is typed in
  Cell way_difference;  // Variance: must be zero

  int digits() const { return figures.currency.digits; }
  bool owned() const { return figures.state == ProfitFigures::State::owned; }
  bool sold() const { return figures.state == ProfitFigures::State::sold; }
  bool finished() const { return figures.state == ProfitFigures::State::finished; }
  bool two_results() const { return (sold() || finished()) && sums.anything_after; }
  // What came before the first result, as Entries, Hours and Money say it.
  const char* until_then() const { return finished() ? "to its end" : "to the sale"; }
  // Without a sale there is no sale price to begin with.
  std::string way() const {
    return sums.priced || owned() ? "From the sale price to the profit"
                                  : "From what it brought to the profit";
  }
  std::string result_at(std::uint32_t at, std::uint16_t col = now) const { return result->at({at, col}); }
  std::string rounded(const std::string& of) const { return formula::rounded(of, digits()); }
};

// Columns of Entries.
namespace column {
constexpr std::uint16_t day = 0, entry = 1, paper = 2, what = 3, kind = 4, source = 5, quantity = 6, each = 7,
                        out = 8, in = 9, when = 10, estimate = 11, running = 12;
}
extern const char* const after_it;

// A line of the estimate or, where a line of money falls under none, of what was not in it.
struct VarianceLine {
  std::string name;
  const EstimatedCost* estimated = nullptr;
  std::vector<std::size_t> lines;  // of ProfitFigures::lines
  VariancePlace place = {};
  bool of_commission = false;  // the commission falls under it, that of a price typed in as well
};
// First what nothing was expected for, what cost the most before the rest; then the others, by the size of
// their variance. Empty without an appraisal.
std::vector<VarianceLine> variance_lines(const ProfitFigures&);

// Of a vehicle without an estimate.
std::string why_nothing_to_compare(const ProfitFigures&);

void write_entries(Parts&);
void write_money(Parts&);
void write_hours(Parts&);
void write_cash(Parts&);
void write_variance(Parts&);
void write_price(Parts&);
void write_result(Parts&);

}  // namespace nonrunner::reports::profit
