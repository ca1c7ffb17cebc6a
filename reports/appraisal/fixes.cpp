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
  if (f.way.size() < 2) {
    sheet.across({2, 0}, 4, "There is no choice of fixes to compare.", look::text);
    return;
  }
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

}  // namespace

void write_fixes(Parts& parts) {
  constexpr std::uint16_t fault = 0, fix = 1, source = 2, takes_off = 3, restores = 4, cash = 5, hours = 6,
                          gain = 7, chosen = 8, restored_column = 9;
  Sheet& sheet = *parts.fixes;
  const AppraisalFigures& f = parts.figures;
  sheet.landscape();
  sheet.widths({40, 40, 11, 13, 11, 13, 12, 13, 10, 2});
  sheet.text({0, 0}, "Fixes that pay", look::title);
  sheet.across(
      {1, 0}, 9,
      "Gain = what it restores of the price, less commission, cash and own hours at the shop's hour. "
      "Write 1 for a fix that is made, 0 for one that is left: the answer follows. Two fixes of one fault "
      "restore "
      "no more than the whole.",
      look::note);
  sheet.headings({3, 0},
                 {"Fault", "Fix", "Source", "Takes off", "Restores", "Cash", "Own hours", "Gain", "Made"},
                 takes_off);
  sheet.frozen(4, 0, 3);
  std::uint32_t at = 4;
  const double hour_cost = f.hour + (f.hours_per_week > 0 ? 7 * f.holding_per_day / f.hours_per_week : 0);
  std::string off;
  double takes = 0, restored = 0;
  std::vector<std::string> names;  // of the rows, for the picture
  const std::uint32_t first = at;
  for (const FaultFigures& each : f.faults) {
    const std::uint32_t head = at;
    double of_fault = 0;
    sheet.wrapped({at, fault}, each.name + (each.must ? " (must be put right)" : ""));
    sheet.decimal({at, takes_off}, each.takes_off, look::money_input);
    takes += each.takes_off;
    off += (off.empty() ? "" : "+") + here(Cell{head, takes_off});
    for (const FixFigures& way : each.fixes) {
      sheet.wrapped({at, fix}, way.name);
      names.push_back(way.name);
      sheet.text({at, source}, way.source);
      sheet.decimal({at, restores}, way.restores, look::percent_input);
      sheet.decimal({at, cash}, way.cash, look::money_input);
      sheet.decimal({at, hours}, way.hours, look::decimal_input);
      const double won =
          way.restores * each.takes_off * (1 - f.sale_rate) - way.cash - way.hours * f.pace * hour_cost;
      sheet.formula({at, gain},
                    here(Cell{at, restores}) + "*" + fixed({head, takes_off}) + "*(1-" +
                        parts.at(row::sale_rate) + ")-" + here(Cell{at, cash}) + "-" + here(Cell{at, hours}) +
                        "*" + parts.at(row::pace) + "*(" + parts.at(row::hour) + "+7*" +
                        parts.at(row::holding) + "/" + parts.at(row::hours_per_week) + ")",
                    won, look::money);
      sheet.whole({at, chosen}, way.chosen ? 1 : 0, look::whole_input);
      sheet.ask({at, chosen}, Ask::yes_or_no);
      if (way.chosen) {
        parts.fix_cash += way.cash;
        parts.fix_hours += way.hours;
        of_fault += way.restores * each.takes_off;
      }
      ++at;
    }
    // What is restored of it in money, for the sum below: never more than the whole.
    if (each.fixes.empty())
      sheet.text({at, fix}, "no fix known", look::note), names.push_back("no fix known"), ++at;
    else
      sheet.formula({head, restored_column},
                    fixed({head, takes_off}) + "*MIN(1,SUMPRODUCT(" + here({head, chosen}, {at - 1, chosen}) +
                        "," + here({head, restores}, {at - 1, restores}) + "))",
                    of_fault, look::money_note);
    restored += of_fault;
  }
  if (f.faults.empty()) sheet.text({at, fault}, "no faults listed"), ++at;
  parts.still_off = takes - restored;
  const auto chosen_sum = [&](std::uint16_t col) {
    return "SUMPRODUCT(" + here({first, chosen}, {at - 1, chosen}) + "," + here({first, col}, {at - 1, col}) +
           ")";
  };
  parts.fix_cash_cell = {at, cash};
  parts.fix_hours_cell = {at, hours};
  parts.still_off_cell = {at, takes_off};
  sheet.text({at, fault}, "fixes made; still off the price", look::total);
  sheet.formula(
      parts.still_off_cell,
      (off.empty() ? "0" : off) + "-SUM(" + here({first, restored_column}, {at - 1, restored_column}) + ")",
      parts.still_off, look::money_total);
  sheet.formula(parts.fix_cash_cell, chosen_sum(cash), parts.fix_cash, look::money_total);
  sheet.formula(parts.fix_hours_cell, chosen_sum(hours), parts.fix_hours, look::decimal_total);
  sheet.printed_columns(9);
  sheet.hidden_columns(restored_column, restored_column);
  write_way(parts);
  if (f.faults.empty()) return;
  Chart chart;
  chart.title = "Gain of each fix (left of zero: it costs more than it brings)";
  chart.across = f.currency.code;
  chart.says = "What each fix gains, its cash and own hours taken off";
  chart.legend = false;
  chart.across_format = "#,##0";
  chart.series.push_back({"gain", parts.book.labels(names), sheet.at({first, gain}, {at - 1, gain}),
                          Paint::strong, Mark::none, false, true, true});
  sheet.new_page(at + 2);
  sheet.chart({at + 2, 0}, chart, 9, std::clamp(8 + static_cast<int>(names.size()), 14, 34));
}

}  // namespace nonrunner::reports::appraisal_sheets
