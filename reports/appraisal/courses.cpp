// What each course brings in each state: the cause, and the troubles that come with it.
#include <algorithm>
#include <limits>

#include "reports/appraisal/parts.h"

namespace nonrunner::reports::appraisal_sheets {

namespace {

namespace column {
// The summary.
constexpr std::uint16_t cause = 0, troubles = 1, chance = 2, first_course = 3, best = 7, course = 8, cash = 9,
                        hours = 10, days = 11, opening_cash = Parts::opening_cash_column,
                        opening_hours = Parts::opening_hours_column;
// The making of each.
constexpr std::uint16_t name = 2, running = 3, other_brings = 4, brings = 5, other_hours = 6, own_hours = 7,
                        other_days = 8, all_days = 9, other_spends = 10, spends = 11, profit = 12, net = 13;
}  // namespace column

struct Made {
  double hours = 0, brings = 0, days = 0, spends = 0, profit = 0, net = 0;
};

// One row; what the model knows and the workbook does not take apart stands as "other".
Made write_course(Parts& parts, std::uint32_t at, std::uint32_t state_row, const StateFigures& state,
                  const CourseRow& c) {
  Sheet& sheet = *parts.making;
  const AppraisalFigures& f = parts.figures;
  const auto cell = [&](std::uint16_t col) { return here(Cell{at, col}); };
  const std::string running = cell(column::running),
                    opening = parts.courses->at({state_row, column::opening_hours});
  double live_hours = c.sold_running * parts.fix_hours, live_cash = c.sold_running * parts.fix_cash;
  std::string hours_formula = running + "*" + parts.fixes->at(parts.fix_hours_cell),
              cash_formula = running + "*" + parts.fixes->at(parts.fix_cash_cell);
  for (const auto& [which, reached] : c.corrections) {
    const CorrectionTotals& total = parts.corrections.at(which);
    live_hours += reached * total.hours;
    live_cash += reached * total.cash;
    const std::string so_far =
        parts.courses->at({state_row, static_cast<std::uint16_t>(Parts::first_reached + which)});
    hours_formula += "+" + so_far + "*" + parts.costs->at(total.hours_cell);
    cash_formula += "+" + so_far + "*" + parts.costs->at(total.cash_cell);
  }
  const double week_days = f.hours_per_week > 0 ? 7 / f.hours_per_week : 0;
  const double rate = c.commission ? f.sale_rate : 0;
  // By the estimate, as a job file says them: of troubles, of taking it apart.
  const double other_hours = c.own_hours / f.pace - parts.opening_hours(state) - live_hours;
  const double other_brings = c.brings - c.sold_running * (f.sound - parts.still_off);
  const double other_days = c.days - c.own_hours * week_days;
  const double all_spends = c.brings - c.cash;
  const double other_spends = all_spends - rate * c.brings - c.days * f.holding_per_day - live_cash;
  const Made made{c.own_hours, c.brings, c.days, all_spends, parts.profit_of(state, c), c.cash};

  sheet.decimal({at, column::running}, c.sold_running, look::percent);
  sheet.decimal({at, column::other_brings}, other_brings, look::money_input);
  sheet.formula({at, column::brings},
                running + "*(" + parts.at(row::sound) + "-" + parts.at(row::still_off) + ")+" +
                    cell(column::other_brings),
                made.brings, look::money);
  sheet.decimal({at, column::other_hours}, other_hours, look::decimal_input);
  sheet.formula(
      {at, column::own_hours},
      parts.at(row::pace) + "*(" + opening + "+" + hours_formula + "+" + cell(column::other_hours) + ")",
      made.hours, look::decimal);
  sheet.decimal({at, column::other_days}, other_days, look::decimal_input);
  sheet.formula(
      {at, column::all_days},
      cell(column::own_hours) + "*7/" + parts.at(row::hours_per_week) + "+" + cell(column::other_days),
      made.days, look::decimal);
  sheet.decimal({at, column::other_spends}, other_spends, look::money_input);
  sheet.formula({at, column::spends},
                (c.commission ? parts.at(row::sale_rate) + "*" + cell(column::brings) + "+" : std::string()) +
                    cell(column::all_days) + "*" + parts.at(row::holding) + "+" + cash_formula + "+" +
                    cell(column::other_spends),
                made.spends, look::money);
  sheet.formula({at, column::profit},
                cell(column::brings) + "-" + cell(column::spends) + "-(" + cell(column::own_hours) + "-" +
                    parts.at(row::pace) + "*" + opening + ")*" + parts.at(row::hour) + "-" +
                    cell(column::all_days) + "*" + parts.at(row::day_cost),
                made.profit, look::money);
  sheet.formula({at, column::net}, cell(column::brings) + "-" + cell(column::spends), made.net, look::money);
  return made;
}

}  // namespace

namespace {

void lay_out(Parts& parts) {
  Sheet& sheet = *parts.courses;
  sheet.landscape();
  sheet.widths({27, 18, 10, 12, 12, 12, 12, 12, 14, 12, 10, 9, 10, 10});
  sheet.text({0, 0}, "Courses, by cause", look::title);
  sheet.across(
      {1, 0}, 12,
      "Expected profit after own hours, without the price, the fees and the opening up, which every course "
      "bears alike. The owner takes the best. Chances that do not add up to 1 are scaled.",
      look::note);
  sheet.headings(
      {Parts::first_state - 1, 0},
      {"Cause", "With", "Chance", course_names[0], course_names[1], course_names[2], course_names[3], "Best",
       "Course", "Its cash", "Its own hours", "Its days", "Opening up, cash", "Opening up, hours"},
      column::chance);
  sheet.frozen(Parts::first_state, 0, Parts::first_state - 1);
  // Where each cause is opened up alike, Basis says how.
  const bool own = std::any_of(parts.figures.states.begin(), parts.figures.states.end(),
                               [](const auto& state) { return state.opening_cash || state.opening_hours; });
  const auto hidden = static_cast<std::uint16_t>(own ? Parts::first_reached : Parts::opening_cash_column);
  sheet.printed_columns(hidden);
  sheet.hidden_columns(hidden, parts.best_brings());
  Sheet& making = *parts.making;
  making.landscape();
  making.widths({22, 15, 12, 8.5, 13.5, 13.5, 11, 10, 9.5, 9, 13.5, 13.5, 13.5, 13.5});
  making.text({0, 0}, "How each course comes about", look::title);
  making.across({1, 0}, 14, "What the model knows and this workbook does not take apart stands as \"other\".",
                look::note);
  making.headings(
      {3, 0},
      {"Cause", "With", "Course", "Sold running", "Brings, other", "Brings", "Hours, other, estimate",
       "Own hours", "Days, other", "Days", "Spends, other", "Spends", "Profit", "Cash"},
      column::running);
  making.frozen(4, 0, 3);
}

// Of this cause, or that of the job.
void write_opening(Parts& parts, std::uint32_t at, const StateFigures& state) {
  const auto cell = [&](std::uint16_t col, const std::optional<double>& own, std::uint32_t basis,
                        double of_job, Look how, Look as_input) {
    if (own)
      parts.courses->decimal({at, col}, *own, as_input);
    else
      parts.courses->formula({at, col}, parts.at(basis), of_job, how);
  };
  cell(column::opening_cash, state.opening_cash, row::opening_cash, parts.figures.opening_cash, look::money,
       look::money_input);
  cell(column::opening_hours, state.opening_hours, row::opening_hours, parts.figures.opening_hours,
       look::decimal, look::decimal_input);
}

// How far each correction is come to where this state is put right.
void write_reached(Parts& parts, std::uint32_t at, const StateFigures& state) {
  std::vector<double> reached(parts.figures.corrections.size(), 0);
  if (state.courses[0])
    for (const auto& [which, so_far] : state.courses[0]->corrections) reached.at(which) += so_far;
  for (std::size_t c = 0; c < reached.size(); ++c)
    parts.courses->decimal({at, static_cast<std::uint16_t>(Parts::first_reached + c)}, reached[c],
                           {Form::decimal, Role::note});
}

}  // namespace

void write_courses(Parts& parts) {
  Sheet &sheet = *parts.courses, &making = *parts.making;
  const AppraisalFigures& f = parts.figures;
  const auto count = static_cast<std::uint32_t>(f.states.size());
  constexpr std::uint32_t first = Parts::first_state;
  lay_out(parts);
  parts.chance_first = {first, column::chance};
  parts.chance_last = {first + count - 1, column::chance};
  for (std::uint32_t i = 0; i < count; ++i) {
    const StateFigures& state = f.states[i];
    const std::uint32_t at = first + i, made_first = 4 + 4 * i;
    sheet.wrapped({at, column::cause}, state.cause);
    sheet.wrapped({at, column::troubles}, state.troubles.empty() ? "nothing else" : state.troubles);
    sheet.decimal({at, column::chance}, state.chance, look::rate_input);
    sheet.ask({at, column::chance}, Ask::zero_up);
    write_reached(parts, at, state);
    write_opening(parts, at, state);
    StateTotals best;
    best.best = -std::numeric_limits<double>::infinity();
    for (std::uint32_t c = 0; c < 4; ++c) {
      const std::uint32_t made_at = made_first + c;
      const Cell summary{at, static_cast<std::uint16_t>(column::first_course + c)};
      making.wrapped({made_at, column::cause}, state.cause);
      making.wrapped({made_at, column::troubles}, state.troubles);
      making.text({made_at, column::name}, state.course_name(c));
      if (!state.courses[c]) {
        making.text({made_at, column::running}, "not on offer", look::note);
        sheet.text(summary, "not on offer", look::note);
        continue;
      }
      const Made made = write_course(parts, made_at, at, state, *state.courses[c]);
      sheet.formula(summary, making.at({made_at, column::profit}), made.profit, look::money);
      if (made.profit > best.best) best = {made.profit, made.net, made.hours, made.days, made.brings, c};
    }
    const std::string profits = here(Cell{at, column::first_course}, Cell{at, column::first_course + 3});
    const std::string best_cell = here(Cell{at, column::best});
    const auto of_best = [&](std::uint16_t col) {
      return "INDEX(" + making.at({made_first, col}, {made_first + 3, col}) + ",MATCH(" + best_cell + "," +
             making.at({made_first, column::profit}, {made_first + 3, column::profit}) + ",0))";
    };
    sheet.formula({at, column::best}, "MAX(" + profits + ")", best.best, look::money_total);
    sheet.formula_text({at, column::course}, of_best(column::name), state.course_name(best.course),
                       {Form::words, Role::plain, false, Look::Side::right});
    sheet.formula({at, column::cash}, of_best(column::net), best.cash, look::money);
    sheet.formula({at, column::hours}, of_best(column::own_hours), best.hours, look::decimal);
    sheet.formula({at, column::days}, of_best(column::all_days), best.days, look::decimal);
    sheet.formula({at, parts.best_brings()}, of_best(column::brings), best.brings, look::money_note);
    parts.states.push_back(best);
  }
}

}  // namespace nonrunner::reports::appraisal_sheets
