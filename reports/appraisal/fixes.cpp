// Fixes that pay: for each fault what it takes off the price, and what each way to mend it gains.
#include <algorithm>

#include "reports/appraisal/parts.h"

namespace nonrunner::reports::appraisal_sheets {

namespace {

// What comes next as own hours grow: worked out exactly over all sets of fixes, so it stands as it was found
// and does not follow the inputs above; only the gain of a further hour is a formula.
void write_way(Parts& parts) {
  const AppraisalFigures& f = parts.figures;
  Sheet& sheet = *parts.way;
  constexpr std::uint16_t next = 0, hours = 1, gain = 2, an_hour = 3;
  constexpr std::uint32_t picture = 4, picture_rows = 18;
  sheet.widths({66, 17, 17, 17});
  sheet.text({0, 0}, "The way: which fix comes next, and what each further hour earns", look::title);
  if (f.way.size() < 2) return sheet.hide();  // no choice of fixes to compare
  std::uint32_t at = picture + picture_rows;
  sheet.across(
      {1, 0}, 4,
      "The best gain at each budget of own hours, as they will be taken; gains pay these hours. Stop where a "
      "further hour earns less than yours is worth elsewhere. Found over all sets of fixes: it does not "
      "follow "
      "the inputs above.",
      look::note);
  say_when_changed(parts, sheet, 2);
  sheet.headings({at + 1, 0}, {"Next", "Own hours", "Gain", "An hour"}, hours);
  sheet.frozen(at + 2, 0, at + 1);
  const std::uint32_t first = at + 2;
  at = first;
  for (const WayStep& step : f.way) {
    sheet.wrapped({at, next}, step.next);
    sheet.decimal({at, hours}, step.own_hours, look::decimal);
    sheet.decimal({at, gain}, step.gain, look::money);
    if (at > first) {
      const WayStep& before = f.way[at - first - 1];
      sheet.formula({at, an_hour},
                    "(" + here(Cell{at, gain}) + "-" + here(Cell{at - 1, gain}) + ")/(" +
                        here(Cell{at, hours}) + "-" + here(Cell{at - 1, hours}) + ")",
                    (step.gain - before.gain) / (step.own_hours - before.own_hours), look::money);
    }
    ++at;
  }
  Chart chart;
  chart.kind = Chart::Kind::lines;
  chart.title = "The best gain at each budget of own hours";
  chart.across = "own hours";
  chart.up = "gain, " + f.currency.code;
  chart.says = "The best gain rises with the own hours given to fixes, and levels off";
  chart.up_format = "#,##0";
  chart.legend = false;
  chart.series.push_back({"gain", sheet.at({first, hours}, {at - 1, hours}),
                          sheet.at({first, gain}, {at - 1, gain}), Paint::strong, Mark::large});
  sheet.chart({picture, 0}, chart, 4, picture_rows);
}

constexpr std::uint16_t fault = 0, fix = fixes_at::fix, source = 2, takes_off = fixes_at::takes_off,
                        restores = 4, cash = fixes_at::cash, hours = fixes_at::hours, gain = 7,
                        chosen = fixes_at::made, restored_column = 9, room_column = 10;
constexpr std::uint32_t first = 4;

class Fixes {
 public:
  explicit Fixes(Parts& parts) : parts_(parts), f_(parts.figures), sheet_(*parts.fixes) {}

  void write() {
    lay_out();
    for (const FaultFigures& each : f_.faults) write_fault(each);
    if (f_.faults.empty()) sheet_.text({at_, fault}, "no faults listed"), ++at_;
    write_sums();
    if (f_.faults.empty())
      parts_.gains->hide();
    else
      draw();
  }

 private:
  void lay_out() {
    sheet_.landscape();
    sheet_.widths({40, 40, 11, 13, 11, 13, 12, 13, 10, 2, 2});
    sheet_.text({0, 0}, "Fixes that pay", look::title);
    sheet_.across(
        {1, 0}, 9,
        "Gain = what it restores of the price, less commission, cash and own hours at the shop's hour. "
        "Write 1 for a fix that is made, 0 for one that is left: the answer follows. Two fixes of one fault "
        "restore "
        "no more than the whole.",
        look::note);
    sheet_.headings({first - 1, 0},
                    {"Fault", "Fix", "Source", "Takes off", "Restores", "Cash", "Own hours", "Gain", "Made"},
                    takes_off);
    sheet_.frozen(first, 0, first - 1);
    sheet_.printed_columns(9);
    sheet_.hidden_columns(restored_column, room_column);
  }

  void write_fault(const FaultFigures& each) {
    const std::uint32_t head = at_;
    double of_fault = 0;
    sheet_.wrapped({at_, fault}, each.name + (each.must ? " (must be put right)" : ""));
    sheet_.decimal({at_, takes_off}, each.takes_off, look::money_input);
    takes_ += each.takes_off;
    off_ += (off_.empty() ? "" : "+") + here(Cell{head, takes_off});
    for (const FixFigures& way : each.fixes) {
      write_fix(way, each, head);
      if (way.chosen) of_fault += way.restores * each.takes_off;
    }
    // What is restored of it in money, for the sum below: never more than the whole.
    if (each.fixes.empty())
      sheet_.text({at_, fix}, "no fix known", look::note), names_.push_back("no fix known"), ++at_;
    else
      sheet_.formula({head, restored_column},
                     fixed({head, takes_off}) + "*MIN(1,SUMPRODUCT(" +
                         here({head, chosen}, {at_ - 1, chosen}) + "," +
                         here({head, restores}, {at_ - 1, restores}) + "))",
                     of_fault, look::money_note);
    parts_.fault_rows.emplace_back(head, at_ - 1);
    restored_ += of_fault;
  }

  double won_by(const FixFigures& way, const FaultFigures& of) const {
    const double hour_cost =
        f_.hour + (f_.hours_per_week > 0 ? 7 * f_.holding_per_day / f_.hours_per_week : 0);
    return way.restores * of.takes_off * (1 - f_.sale_rate) - way.cash - way.hours * f_.pace * hour_cost;
  }

  // Gain = share restored x what the fault takes off x (1 - commission) - cash - hours x pace x cost of an hour.
  void write_fix(const FixFigures& way, const FaultFigures& of, std::uint32_t head) {
    sheet_.wrapped({at_, fix}, way.name);
    names_.push_back(way.name);
    gains_.push_back(won_by(way, of));
    sheet_.text({at_, source}, way.source);
    sheet_.decimal({at_, restores}, way.restores, look::percent_input);
    sheet_.decimal({at_, cash}, way.cash, look::money_input);
    sheet_.decimal({at_, hours}, way.hours, look::decimal_input);
    const double won = won_by(way, of);
    sheet_.formula({at_, gain},
                   here(Cell{at_, restores}) + "*" + fixed({head, takes_off}) + "*(1-" +
                       parts_.at(row::sale_rate) + ")-" + here(Cell{at_, cash}) + "-" +
                       here(Cell{at_, hours}) + "*" + parts_.at(row::pace) + "*(" + parts_.at(row::hour) +
                       "+7*" + parts_.at(row::holding) + "/" + parts_.at(row::hours_per_week) + ")",
                   won, look::money);
    sheet_.whole({at_, chosen}, way.chosen ? 1 : 0, look::whole_input);
    sheet_.ask({at_, chosen}, Ask::yes_or_no);
    if (way.chosen) {
      parts_.fix_cash += way.cash;
      parts_.fix_hours += way.hours;
    }
    ++at_;
  }

  void write_sums() {
    parts_.still_off = takes_ - restored_;
    const auto chosen_sum = [&](std::uint16_t col) {
      return "SUMPRODUCT(" + here({first, chosen}, {at_ - 1, chosen}) + "," +
             here({first, col}, {at_ - 1, col}) + ")";
    };
    parts_.fix_cash_cell = {at_, cash};
    parts_.fix_hours_cell = {at_, hours};
    parts_.still_off_cell = {at_, takes_off};
    sheet_.text({at_, fault}, "fixes made; still off the price", look::total);
    sheet_.formula(parts_.still_off_cell,
                   (off_.empty() ? "0" : off_) + "-SUM(" +
                       here({first, restored_column}, {at_ - 1, restored_column}) + ")",
                   parts_.still_off, look::money_total);
    if (!gains_.empty()) leave_room();
    sheet_.formula(parts_.fix_cash_cell, chosen_sum(cash), parts_.fix_cash, look::money_total);
    sheet_.formula(parts_.fix_hours_cell, chosen_sum(hours), parts_.fix_hours, look::decimal_total);
  }

  // Left of the longest bar below zero a third as much again is kept free: an unseen bar that reaches there makes the
  // axis long enough for the figure beside it, which would else run into the name.
  void leave_room() {
    const double least = std::min(0.0, *std::min_element(gains_.begin(), gains_.end()));
    sheet_.formula({first, room_column}, "4/3*MIN(0," + here({first, gain}, {at_ - 1, gain}) + ")",
                   4.0 / 3 * least, look::money_note);
  }

  void draw() {
    Chart chart;
    chart.title = "Gain of each fix (left of zero: it costs more than it brings)";
    const std::uint32_t count = drawn(chart, names_.size(), 28), last = first + count - 1;
    names_.resize(count);
    chart.across = f_.currency.code;
    chart.says = "What each fix gains, its cash and own hours taken off";
    chart.legend = false;
    chart.across_format = "#,##0";
    chart.series.push_back({"gain", parts_.book.labels(names_), sheet_.at({first, gain}, {last, gain}),
                            Paint::strong, Mark::none, false, true, true});
    chart.over_each_other = true;
    chart.series.push_back(
        {"", parts_.book.labels(names_), sheet_.at({first, room_column}, {last, room_column}), Paint::none});
    Sheet& gains = *parts_.gains;
    gains.widths({90});
    gains.text({0, 0}, "What each fix gains", look::title);
    gains.text({1, 0}, "Drawn from the sheet Fixes, whose inputs it follows.", look::note);
    gains.chart({3, 0}, chart, 1, std::max(8 + static_cast<int>(count), 14));
  }

  Parts& parts_;
  const AppraisalFigures& f_;
  Sheet& sheet_;
  std::uint32_t at_ = first;
  std::string off_;  // the sum of what the faults take off, as a formula
  double takes_ = 0, restored_ = 0;
  std::vector<std::string> names_;  // of the rows, for the picture
  std::vector<double> gains_;       // of the fixes
};

}  // namespace

void write_fixes(Parts& parts) {
  Fixes(parts).write();
  write_way(parts);
}

}  // namespace nonrunner::reports::appraisal_sheets
