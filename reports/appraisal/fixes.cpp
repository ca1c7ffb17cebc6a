// Fixes that pay: for each fault what it takes off the price, and what each way to mend it gains.
#include "reports/appraisal/parts.h"

namespace nonrunner::reports::appraisal_sheets {

namespace {

// What comes next as own hours grow: worked out exactly over all sets of fixes, so it stands as it was found
// and does not follow the inputs above; only the gain of a further hour is a formula.
void write_way(Sheet& sheet, const AppraisalFigures& f, std::uint32_t at) {
  if (f.way.size() < 2) return;
  constexpr std::uint16_t next = 0, hours = 3, gain = 4, an_hour = 5;
  sheet.new_page(at);
  sheet.text({at, 0}, "The way: which fix comes next, and what each further hour earns", look::section);
  sheet.text(
      {at + 1, 0},
      "The best gain at each budget of own hours, as they will be taken; gains pay these hours. Stop where a "
      "further hour earns less than yours is worth elsewhere. Found over all sets of fixes: it does not "
      "follow "
      "the inputs above.",
      look::note);
  sheet.headings({at + 2, 0}, {"Next", "", "", "Own hours", "Gain", "An hour"}, hours);
  const std::uint32_t first = at + 3;
  at = first;
  for (const WayStep& step : f.way) {
    sheet.text({at, next}, step.next);
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
  chart.up_format = "#,##0";
  chart.legend = false;
  chart.series.push_back({"gain", sheet.at({first, hours}, {at - 1, hours}),
                          sheet.at({first, gain}, {at - 1, gain}), Paint::strong, Mark::large});
  sheet.chart({at + 1, 0}, chart, 8, 18);
}

}  // namespace

void write_fixes(Parts& parts) {
  constexpr std::uint16_t fault = 0, fix = 1, source = 2, takes_off = 3, restores = 4, cash = 5, hours = 6,
                          gain = 7, chosen = 8;
  Sheet& sheet = *parts.fixes;
  const AppraisalFigures& f = parts.figures;
  sheet.landscape();
  sheet.widths({44, 38, 10, 13, 11, 12, 12, 13, 10});
  sheet.text({0, 0}, "Fixes that pay", look::title);
  sheet.text({1, 0},
             "Gain = what it restores of the price, less commission, cash and own hours at the shop's hour. "
             "Write 1 for a fix that is made, 0 for one that is left: the answer follows.",
             look::note);
  sheet.headings({3, 0},
                 {"Fault", "Fix", "Source", "Takes off", "Restores", "Cash", "Own hours", "Gain", "Made"},
                 takes_off);
  sheet.frozen(4, 0, 3);
  std::uint32_t at = 4;
  const double hour_cost = f.hour + (f.hours_per_week > 0 ? 7 * f.holding_per_day / f.hours_per_week : 0);
  std::string off;
  double takes = 0, restored = 0;
  std::vector<std::pair<std::uint32_t, double>> gains;
  const std::uint32_t first = at;
  for (const FaultFigures& each : f.faults) {
    const std::uint32_t head = at;
    sheet.text({at, fault}, each.name + (each.must ? " (must be put right)" : ""));
    sheet.decimal({at, takes_off}, each.takes_off, look::money_input);
    takes += each.takes_off;
    off += (off.empty() ? "" : "+") + here(Cell{head, takes_off});
    for (const FixFigures& way : each.fixes) {
      sheet.text({at, fix}, way.name);
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
      if (way.chosen) {
        parts.fix_cash += way.cash;
        parts.fix_hours += way.hours;
        restored += way.restores * each.takes_off;
      }
      // What it restores in money, for the sum below.
      sheet.formula({at, 9},
                    here(Cell{at, chosen}) + "*" + here(Cell{at, restores}) + "*" + fixed({head, takes_off}),
                    way.chosen ? way.restores * each.takes_off : 0, look::money_note);
      ++at;
    }
    if (each.fixes.empty()) sheet.text({at, fix}, "no fix known", look::note), ++at;
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
  sheet.formula(parts.still_off_cell,
                (off.empty() ? "0" : off) + "-SUM(" + here({first, 9}, {at - 1, 9}) + ")", parts.still_off,
                look::money_total);
  sheet.formula(parts.fix_cash_cell, chosen_sum(cash), parts.fix_cash, look::money_total);
  sheet.formula(parts.fix_hours_cell, chosen_sum(hours), parts.fix_hours, look::decimal_total);
  sheet.printed_columns(9);
  if (f.faults.empty()) return;
  Chart chart;
  chart.title = "Gain of each fix (left of zero: it costs more than it brings)";
  chart.legend = false;
  chart.across_format = "#,##0";
  chart.series.push_back({"gain", sheet.at({first, fix}, {at - 1, fix}),
                          sheet.at({first, gain}, {at - 1, gain}), Paint::strong, Mark::none, false, true,
                          true});
  sheet.chart({at + 2, 0}, chart, 8, 22);
  write_way(sheet, f, at + 25);
}

}  // namespace nonrunner::reports::appraisal_sheets
