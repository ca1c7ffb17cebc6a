// Similar cars with a known price, and the line fitted through them.
#include <algorithm>

#include "reports/appraisal/parts.h"

namespace nonrunner::reports::appraisal_sheets {

void write_comparables(Parts& parts) {
  Sheet& sheet = *parts.comparables;
  const AppraisalFigures& f = parts.figures;
  sheet.landscape();
  sheet.widths({13, 13, 14, 10, 9, 16, 16, 16, 50});
  sheet.text({0, 0}, "Comparables", look::title);
  if (!f.fitted) {
    sheet.across({2, 0}, 9, "The sound value was given in the job file; no comparables were used.",
                 look::text);
    return;
  }
  const FittedLine& line = *f.fitted;
  sheet.across(
      {1, 0}, 9,
      "Asking prices brought to a sold basis; the line is the expected price by odometer, year and "
      "grade. Far-off ones are pointed out, not removed. The line was fitted when this was made: a row "
      "added or changed here changes nothing in the answer.",
      look::note);
  const auto put = [&](std::uint32_t at, const char* name, double number, Look how) {
    sheet.text({at, 0}, name);
    sheet.decimal({at, 2}, number, how);
    return fixed({at, 2});
  };
  const std::string realised = put(3, "Got / asked", line.realised, look::rate);
  const std::string at_subject = put(4, "The line for this car", line.at_subject, look::money);
  const std::string by_odometer = put(5, "One more on the odometer", line.odometer, look::price);
  const std::string by_year = put(6, "One year newer", line.year, look::money);
  const std::string by_grade = put(7, "One grade better", line.grade, look::money);
  put(8, "Scatter about the line", line.residual_sd, look::money);
  put(9, "Sound value, expected", line.mean, look::money);
  sheet.text({3, 5}, "This car: odometer, year, grade", look::note);
  sheet.decimal({4, 5}, line.subject_odometer, look::whole);
  sheet.decimal({5, 5}, line.subject_year, {Form::year});
  sheet.decimal({6, 5}, line.subject_grade, look::decimal);
  const std::string odometer = fixed({4, 5}), year = fixed({5, 5}), grade = fixed({6, 5});
  constexpr std::uint32_t picture = 11, picture_rows = 20, first = picture + picture_rows + 2;
  sheet.frozen(first, 0, first - 1);
  sheet.headings(
      {first - 1, 0},
      {"Kind", "Price", "Odometer", "Year", "Grade", "Sold basis", "On the line", "Off the line", "Note"}, 1,
      8);
  std::uint32_t at = first;
  double least = line.subject_odometer, most = line.subject_odometer;
  for (const ComparableRow& row : f.comparables) {
    const double basis = row.asking ? row.price * line.realised : row.price;
    const double on_line = line.at_subject + line.odometer * (row.odometer - line.subject_odometer) +
                           line.year * (row.year - line.subject_year) +
                           line.grade * (row.grade - line.subject_grade);
    sheet.decimal({at, 1}, row.price, look::money);
    sheet.text({at, 0}, row.asking ? "asking" : "sold");
    sheet.decimal({at, 2}, row.odometer, look::whole);
    sheet.decimal({at, 3}, row.year, {Form::year});
    sheet.decimal({at, 4}, row.grade, look::decimal);
    sheet.formula({at, 5},
                  "IF(" + here(Cell{at, 0}) + "=\"asking\"," + here(Cell{at, 1}) + "*" + realised + "," +
                      here(Cell{at, 1}) + ")",
                  basis, look::money);
    sheet.formula({at, 6},
                  at_subject + "+" + by_odometer + "*(" + here(Cell{at, 2}) + "-" + odometer + ")+" +
                      by_year + "*(" + here(Cell{at, 3}) + "-" + year + ")+" + by_grade + "*(" +
                      here(Cell{at, 4}) + "-" + grade + ")",
                  on_line, look::money);
    sheet.formula({at, 7}, here(Cell{at, 5}) + "-" + here(Cell{at, 6}), basis - on_line, look::money);
    sheet.wrapped({at, 8}, row.note, look::note_apart);
    least = std::min(least, row.odometer);
    most = std::max(most, row.odometer);
    ++at;
  }
  const std::uint32_t line_first = at + 2;
  sheet.text({at + 1, 0}, "The line for the year and grade of this car, for the picture", look::note);
  for (std::uint32_t i = 0; i < 3; ++i) {
    const double reading = i == 0 ? least : i == 1 ? line.subject_odometer : most;
    sheet.decimal({line_first + i, 3}, reading, {Form::whole, Role::note});
    sheet.formula(
        {line_first + i, 5},
        at_subject + "+" + by_odometer + "*(" + here(Cell{line_first + i, 3}) + "-" + odometer + ")",
        line.at_subject + line.odometer * (reading - line.subject_odometer), look::money_note);
  }
  Chart chart;
  chart.kind = Chart::Kind::lines;
  chart.title = "Price on the sold basis against odometer";
  chart.across = "odometer, " + f.distance_unit;
  chart.up = "price, " + f.currency.code;
  chart.says = "Comparable cars by odometer and price, the fitted line, and this car on it";
  chart.across_format = chart.up_format = "#,##0";
  const std::uint32_t last = std::max(at, first + 1) - 1;
  chart.series.push_back({"comparables", sheet.at({first, 2}, {last, 2}), sheet.at({first, 5}, {last, 5}),
                          Paint::dotted, Mark::small, false, false});
  chart.series.push_back({"the line, this year and grade", sheet.at({line_first, 3}, {line_first + 2, 3}),
                          sheet.at({line_first, 5}, {line_first + 2, 5}), Paint::strong, Mark::none});
  chart.series.push_back({"this car", sheet.at({line_first + 1, 3}, {line_first + 1, 3}),
                          sheet.at({line_first + 1, 5}, {line_first + 1, 5}), Paint::middle, Mark::large,
                          false, false});
  sheet.chart({picture, 0}, chart, 9, picture_rows);
}

}  // namespace nonrunner::reports::appraisal_sheets
