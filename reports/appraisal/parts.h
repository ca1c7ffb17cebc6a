// What the sheets of the appraisal workbook share: the figures and where the cells stand that others refer
// to.
#pragma once
#include <string>
#include <vector>

#include "reports/appraisal.h"
#include "reports/sheet.h"

namespace nonrunner::reports::appraisal_sheets {

// Rows of the first sheet: what it rests on, and what comes of it. A the label, B the value, D what it is.
namespace row {
constexpr std::uint32_t answer = 5, figures = 6, picture = 10, picture_rows = 18, inputs = 29, asking = 30,
                        fees = 31, purchase_rate = 32, sound = 33, still_off = 34, pace = 35, hour = 36,
                        hours_per_week = 37, holding = 38, money_rate = 39, sale_rate = 40, opening_cash = 41,
                        opening_hours = 42, aim_profit = 43, aim_loss = 44, aim_per_hour = 45, results = 47,
                        brought = 48, own_hours = 49, days = 50, paid = 51, cash_profit = 52, profit = 53,
                        per_hour = 54, by_profit = 55, by_loss = 56, by_per_hour = 57, walk_away = 58,
                        below = 60;
}
constexpr std::uint16_t value = 1;

struct CorrectionTotals {
  double cash = 0, hours = 0;
  Cell cash_cell, hours_cell;  // on Costs
};

struct StateTotals {
  double best = 0, cash = 0, hours = 0, days = 0;
  std::size_t course = 0;
};

struct Parts {
  Parts(const AppraisalFigures& given, Workbook& into) : figures(given), book(into) {}

  const AppraisalFigures& figures;
  Workbook& book;
  Sheet *answer = nullptr, *courses = nullptr, *costs = nullptr, *parts = nullptr, *tests = nullptr,
        *fixes = nullptr, *comparables = nullptr, *risk = nullptr, *haggling = nullptr, *cautions = nullptr;
  std::vector<CorrectionTotals> corrections;
  std::vector<std::vector<Cell>> line_cells;  // Costs: the name of each line of each correction
  double fix_cash = 0, fix_hours = 0, still_off = 0;
  Cell fix_cash_cell, fix_hours_cell, still_off_cell;  // on Fixes
  std::vector<StateTotals> states;
  Cell chance_first, chance_last;  // Courses: the summary; best, cash, hours, days stand beside
  Cell test_first;                 // Tests: 1 where the plan begins with a test that is worth it
  Cell spread_first, spread_last;  // Risk

  std::string at(std::uint32_t row_number) const { return answer->at({row_number, value}); }
};

std::string literal(double);  // as a formula writes it, every digit kept

void write_costs(Parts&);
void write_fixes(Parts&);
void write_courses(Parts&);
void write_parts_to_buy(Parts&);
void write_tests(Parts&);
void write_comparables(Parts&);
void write_risk(Parts&);
void write_haggling(Parts&);
void write_cautions(Parts&);
void write_answer(Parts&);

}  // namespace nonrunner::reports::appraisal_sheets
