// Similar cars with a known price, and the line fitted through them.
#include <algorithm>

#include "reports/appraisal/parts.h"

namespace nonrunner::reports::appraisal_sheets {

namespace {

constexpr std::uint32_t picture = 11, picture_rows = 20, first = picture + picture_rows + 2;
// On the sheet that is not shown: the line for the year and grade of this car at three odometers, which only the picture
// is drawn from. In hidden columns beside the notes its figures would be printed as ### by some programs.
constexpr std::uint16_t drawn_odometer = 2, drawn_price = 3;
constexpr std::uint32_t drawn_first = 1;

class Comparables {
 public:
  Comparables(Sheet& sheet, Sheet& drawn, const AppraisalFigures& figures, const FittedLine& line)
      : sheet_(sheet), drawn_(drawn), f_(figures), line_(line) {}

  void write() {
    write_line();
    write_rows();
    write_line_of_this_car();
    draw();
  }

 private:
  std::string put(std::uint32_t at, const char* name, double number, Look how) {
    sheet_.text({at, 0}, name);
    sheet_.decimal({at, 2}, number, how);
    return fixed({at, 2});
  }

  void write_line() {
    realised_ = put(3, "Got / asked", line_.realised, look::rate);
    at_subject_ = put(4, "The line for this car", line_.at_subject, look::money);
    by_odometer_ = put(5, "One more on the odometer", line_.odometer, look::factor);
    by_year_ = put(6, "One year newer", line_.year, look::money);
    by_grade_ = put(7, "One grade better", line_.grade, look::money);
    put(8, "Scatter about the line", line_.residual_sd, look::money);
    put(9, "Sound value, expected", line_.mean, look::money);
    sheet_.text({3, 5}, "This car: odometer, year, grade", look::note);
    sheet_.decimal({4, 5}, line_.subject_odometer, look::whole);
    sheet_.decimal({5, 5}, line_.subject_year, {Form::year});
    sheet_.decimal({6, 5}, line_.subject_grade, look::decimal);
  }

  // The line at the odometer that stands in this row, for the year and grade of this car.
  std::string by_odometer(std::uint32_t at, std::uint16_t col) const {
    return at_subject_ + "+" + by_odometer_ + "*(" + here(Cell{at, col}) + "-" + fixed({4, 5}) + ")";
  }

  void write_rows() {
    sheet_.frozen(first, 0, first - 1);
    sheet_.headings(
        {first - 1, 0},
        {"Kind", "Price", "Odometer", "Year", "Grade", "Sold basis", "On the line", "Off the line", "Note"},
        1, 8);
    for (const ComparableRow& row : f_.comparables) {
      const double basis = row.asking ? row.price * line_.realised : row.price;
      const double on_line = line_.at_subject + line_.odometer * (row.odometer - line_.subject_odometer) +
                             line_.year * (row.year - line_.subject_year) +
                             line_.grade * (row.grade - line_.subject_grade);
      sheet_.decimal({at_, 1}, row.price, look::money);
      sheet_.text({at_, 0}, row.asking ? "asking" : "sold");
      sheet_.decimal({at_, 2}, row.odometer, look::whole);
      sheet_.decimal({at_, 3}, row.year, {Form::year});
      sheet_.decimal({at_, 4}, row.grade, look::decimal);
      const auto cell = [&](std::uint16_t col) { return here(Cell{at_, col}); };
      sheet_.formula({at_, 5},
                     "IF(" + cell(0) + "=\"asking\"," + cell(1) + "*" + realised_ + "," + cell(1) + ")",
                     basis, look::money);
      sheet_.formula({at_, 6},
                     by_odometer(at_, 2) + "+" + by_year_ + "*(" + cell(3) + "-" + fixed({5, 5}) + ")+" +
                         by_grade_ + "*(" + cell(4) + "-" + fixed({6, 5}) + ")",
                     on_line, look::money);
      sheet_.formula({at_, 7}, cell(5) + "-" + cell(6), basis - on_line, look::money);
      sheet_.wrapped({at_, 8}, row.note, look::note_apart);
      ++at_;
    }
  }

  void write_line_of_this_car() {
    double least = line_.subject_odometer, most = line_.subject_odometer;
    for (const ComparableRow& row : f_.comparables) {
      least = std::min(least, row.odometer);
      most = std::max(most, row.odometer);
    }
    drawn_.text({0, drawn_odometer}, "The line for the year and grade of this car", look::note);
    std::uint32_t at = drawn_first;
    for (const double reading : {least, line_.subject_odometer, most}) {
      drawn_.decimal({at, drawn_odometer}, reading, look::whole);
      drawn_.formula({at, drawn_price},
                     sheet_.at({4, 2}) + "+" + sheet_.at({5, 2}) + "*(" + here(Cell{at, drawn_odometer}) +
                         "-" + sheet_.at({4, 5}) + ")",
                     line_.at_subject + line_.odometer * (reading - line_.subject_odometer), look::money);
      ++at;
    }
  }

  void draw() {
    const std::uint32_t last = std::max(at_, first + 1) - 1;
    Chart chart;
    chart.kind = Chart::Kind::lines;
    chart.title = "Price on the sold basis against odometer";
    chart.across = "odometer, " + f_.distance_unit;
    chart.up = "price, " + f_.currency.code;
    chart.says = "Comparable cars by odometer and price, the fitted line, and this car on it";
    chart.across_format = chart.up_format = "#,##0";
    chart.series.push_back({"comparables", sheet_.at({first, 2}, {last, 2}), sheet_.at({first, 5}, {last, 5}),
                            Paint::dotted, Mark::small, false, false});
    const auto drawn = [&](std::uint16_t col, std::uint32_t from, std::uint32_t to) {
      return drawn_.at({drawn_first + from, col}, {drawn_first + to, col});
    };
    chart.series.push_back({"the line, this year and grade", drawn(drawn_odometer, 0, 2),
                            drawn(drawn_price, 0, 2), Paint::strong, Mark::none});
    chart.series.push_back({"this car", drawn(drawn_odometer, 1, 1), drawn(drawn_price, 1, 1), Paint::middle,
                            Mark::large, false, false});
    sheet_.chart({picture, 0}, chart, 9, picture_rows);
  }

  Sheet &sheet_, &drawn_;
  const AppraisalFigures& f_;
  const FittedLine& line_;
  std::string realised_, at_subject_, by_odometer_, by_year_, by_grade_;  // where they stand
  std::uint32_t at_ = first;
};

}  // namespace

void write_comparables(Parts& parts) {
  Sheet& sheet = *parts.comparables;
  sheet.landscape();
  sheet.widths({13, 13, 14, 10, 9, 16, 16, 16, 50});
  sheet.text({0, 0}, "Comparables", look::title);
  if (!parts.figures.fitted) return sheet.hide();  // Basis says that the sound value was given
  sheet.across(
      {1, 0}, 9,
      "Asking prices brought to a sold basis; the line is the expected price by odometer, year and "
      "grade. Far-off ones are pointed out, not removed. The line was fitted when this was made: a row "
      "added or changed here changes nothing in the answer.",
      look::note);
  Comparables(sheet, *parts.drawn, parts.figures, *parts.figures.fitted).write();
}

}  // namespace nonrunner::reports::appraisal_sheets
