// What the sheets of the appraisal workbook share: the figures and where the cells stand that others refer
// to.
#pragma once
#include <algorithm>
#include <limits>
#include <string>
#include <vector>

#include "reports/appraisal.h"
#include "reports/formula.h"
#include "reports/sheet.h"

namespace nonrunner::reports::appraisal_sheets {

// Rows of the sheet Basis: what it rests on, and what comes of it. A the label, B the value, D what it is.
namespace row {
constexpr auto aims_asked = static_cast<std::uint32_t>(figures::aims.size());
constexpr std::uint32_t inputs = 2, asking = 3, fees = 4, band_fee = 5, purchase_rate = 6, sound = 7,
                        still_off = 8, pace = 9, hour = 10, hours_per_week = 11, holding = 12, bay = 13,
                        money_rate = 14, day_cost = 15, sale_rate = 16, opening_cash = 17, opening_hours = 18,
                        aims = 19, results = aims + aims_asked + 1, brought = results + 1,
                        own_hours = results + 2, days = results + 3, paid = results + 4,
                        cash_profit = results + 5, profit = results + 6, per_hour = results + 7,
                        limits = results + 8, walk_away = limits + aims_asked, bands = walk_away + 2;
constexpr std::uint32_t aim(figures::Aim which) { return aims + static_cast<std::uint32_t>(index(which)); }
constexpr std::uint32_t limit(figures::Aim which) {
  return limits + static_cast<std::uint32_t>(index(which));
}
}  // namespace row
constexpr std::uint16_t value = 1;

struct CorrectionTotals {
  double cash = 0, hours = 0;
  Cell cash_cell, hours_cell;  // on Costs
};

struct StateTotals {
  double best = 0, cash = 0, hours = 0, days = 0, brings = 0;
  std::size_t course = 0;
};

// Columns of the sheet Fixes that others refer to.
namespace fixes_at {
constexpr std::uint16_t fix = 1, takes_off = 3, cash = 5, hours = 6, made = 8;
}

struct Parts {
  Parts(const AppraisalFigures& given, Workbook& into) : figures(given), book(into) {}

  const AppraisalFigures& figures;
  Workbook& book;
  Sheet *first = nullptr, *answer = nullptr, *making = nullptr, *way = nullptr, *courses = nullptr,
        *costs = nullptr, *parts = nullptr, *tests = nullptr, *plan = nullptr, *fixes = nullptr,
        *comparables = nullptr, *risk = nullptr, *moves = nullptr, *gains = nullptr, *ways = nullptr,
        *drawn = nullptr, *haggling = nullptr, *cautions = nullptr;
  std::vector<CorrectionTotals> corrections;
  std::vector<std::vector<Cell>> line_cells;  // Costs: the name of each line of each correction
  double fix_cash = 0, fix_hours = 0, still_off = 0;
  Cell fix_cash_cell, fix_hours_cell, still_off_cell;               // on Fixes
  std::vector<std::pair<std::uint32_t, std::uint32_t>> fault_rows;  // Fixes: the first and the last of each
  std::vector<StateTotals> states;
  Cell chance_first, chance_last;  // Courses: the summary; best, cash, hours, days stand beside
  Cell spread_first, spread_last;  // Risk
  Cell drawn_first, drawn_last;    // Drawn: cash profits at equally likely chances
  Cell asked;                      // Answer: the price asked, which the reader may change

  // Courses: the summary, one row a state. Beyond what is seen of it, how far each correction is come to
  // there when it is put right.
  static constexpr std::uint32_t first_state = 4;
  static constexpr std::uint16_t course_column = 8, opening_cash_column = 12, opening_hours_column = 13,
                                 first_reached = 14;
  // Courses, hidden: what the best course brings, before commission.
  std::uint16_t best_brings() const {
    return static_cast<std::uint16_t>(first_reached + figures.corrections.size());
  }
  std::uint32_t last_state() const {
    return first_state + static_cast<std::uint32_t>(std::max<std::size_t>(figures.states.size(), 1)) - 1;
  }
  std::string of_states(std::uint16_t column) const {
    return courses->at({first_state, column}, {last_state(), column});
  }
  // What is paid for the car at the price asked, without the cost of the cash tied up.
  double payment() const {
    double fee = 0;
    for (const auto& [from, of_band] : figures.fee_bands)
      if (from == figures.fee_bands.front().first || figures.asking >= from) fee = of_band;
    return figures.asking * (1 + figures.purchase_rate) + fee + figures.fees;
  }
  // What a day costs beside holding: the place, and interest on what was paid.
  double day_cost() const { return figures.bay_per_day + figures.money_rate / 365 * payment(); }
  double opening_hours(const StateFigures& state) const {
    return state.opening_hours.value_or(figures.opening_hours);
  }
  double opening_cash(const StateFigures& state) const {
    return state.opening_cash.value_or(figures.opening_cash);
  }
  // After own hours, the opening up left out, and what the days cost beside holding.
  double profit_of(const StateFigures& state, const CourseRow& course) const {
    return course.cash - (course.own_hours - figures.pace * opening_hours(state)) * figures.hour -
           course.days * day_cost();
  }
  // What each state's best course brings after own hours, and its place among the courses.
  std::pair<std::size_t, double> best_of(const StateFigures& state) const {
    std::pair<std::size_t, double> best{0, -std::numeric_limits<double>::infinity()};
    for (std::size_t c = 0; c < state.courses.size(); ++c) {
      if (!state.courses[c]) continue;
      const double profit = profit_of(state, *state.courses[c]);
      if (profit > best.second) best = {c, profit};
    }
    return best;
  }
  double chance_now(std::size_t correction) const {
    double reached = 0, all = 0;
    for (const StateFigures& state : figures.states) {
      all += state.chance;
      if (best_of(state).first != 0 || !state.courses[0]) continue;
      for (const auto& [which, so_far] : state.courses[0]->corrections)
        if (which == correction) reached += state.chance * so_far;
    }
    return all > 0 ? reached / all : 0;
  }
  // The chance that a correction is come to, as the odds and the best courses now say.
  std::string chance_of(std::size_t correction) const {
    return "SUMPRODUCT(" + of_states(2) + ",(" + of_states(course_column) + "=\"" + course_names[0] +
           "\")*1," + of_states(static_cast<std::uint16_t>(first_reached + correction)) + ")/SUM(" +
           of_states(2) + ")";
  }

  std::string at(std::uint32_t row_number) const { return answer->at({row_number, value}); }
};

// A line that is there only when an input differs: what stands on this sheet was worked out for the figures
// as they were.
void say_when_changed(Parts&, Sheet&, std::uint32_t row);

void write_costs(Parts&);
void write_fixes(Parts&);
void write_courses(Parts&);
void write_parts_to_buy(Parts&);
void write_tests(Parts&);
void write_comparables(Parts&);
void write_risk(Parts&);
void write_moves(Parts&);
void write_plan(Parts&);
void write_ways(Parts&);
void write_haggling(Parts&);
void write_cautions(Parts&);
void write_answer(Parts&);

}  // namespace nonrunner::reports::appraisal_sheets
