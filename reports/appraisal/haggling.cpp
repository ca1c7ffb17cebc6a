// What to name when haggling: each amount and each chance worked out of the other sheets, so that it follows them.
#include <algorithm>
#include <cmath>

#include "reports/appraisal/parts.h"

namespace nonrunner::reports::appraisal_sheets {

namespace {

using Of = HagglingRow::Of;

// Columns. Those from `counts` on are hidden: whether the row counts in the sum, what does not change in this workbook,
// and how far each correction is come to.
enum : std::uint16_t { what, how, amount, chance, expected, counts, own_cash, own_hours, reached };
constexpr std::uint32_t picture = 4;
constexpr std::size_t most_drawn = 30;  // what a page holds beside the first lines of the table

struct Costs {
  double amount = 0, chance = 1;
};

class Haggling {
 public:
  explicit Haggling(Parts& parts) : parts_(parts), f_(parts.figures), sheet_(*parts.haggling) {}

  void write() {
    std::vector<std::pair<Costs, const HagglingRow*>> rows;
    for (const HagglingRow& each : f_.haggling) rows.emplace_back(now(each), &each);
    std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) {
      return a.first.amount * a.first.chance > b.first.amount * b.first.chance;
    });
    Chart chart;
    chart.title = "Expected costs to name";
    const std::uint32_t count = drawn(chart, rows.size(), most_drawn, "the weightiest");
    const int picture_rows = rows.empty() ? 0 : std::max(8 + static_cast<int>(count), 12);
    first_ = picture + static_cast<std::uint32_t>(picture_rows) + 2;
    lay_out();
    std::uint32_t at = first_;
    double sum = 0;
    std::vector<std::string> names;
    for (const auto& [costs, row] : rows) {
      write_row(at++, *row, costs);
      if (counts_now(*row)) sum += costs.amount * costs.chance;
      if (names.size() < count) names.push_back(row->what);
    }
    const auto range = [&](std::uint16_t col) { return here({first_, col}, {at - 1, col}); };
    sheet_.text({at, what}, "expected, in all", look::total);
    const std::string left_out = "without putting it right, which no case does";
    sheet_.formula_text({at, how}, "IF(" + put_right_in_words() + "=1,\"\",\"" + left_out + "\")",
                        put_right_somewhere() ? "" : left_out, look::note);
    sheet_.formula({at, expected},
                   rows.empty() ? "0" : "SUMPRODUCT(" + range(expected) + "," + range(counts) + ")", sum,
                   look::money_total);
    parts_.book.name("costs_to_name", sheet_, {at, expected});
    if (!rows.empty()) draw(std::move(chart), names, picture_rows);
  }

 private:
  void lay_out() {
    sheet_.widths({44, 34, 16, 11, 16, 9, 12, 12});
    sheet_.hidden_columns(counts, static_cast<std::uint16_t>(reached + f_.corrections.size()));
    sheet_.printed_columns(counts);
    sheet_.text({0, 0}, "What to say when haggling", look::title);
    sheet_.across(
        {1, 0}, 5,
        "What the car still costs its buyer, what weighs most first: cash and own hours at the shop's hour. "
        "What depends on the cause stands with its chance. Amounts and chances follow the other sheets; the "
        "order does not.",
        look::note);
    sheet_.headings({first_ - 1, 0}, {"What", "How", "If it comes to it", "Chance", "Expected"}, amount);
    sheet_.frozen(first_, 0, first_ - 1);
  }

  bool of_putting_right(const HagglingRow& row) const {
    return row.of == Of::cause || row.of == Of::trouble || row.of == Of::fault;
  }
  bool put_right_somewhere() const {
    return std::ranges::any_of(parts_.states, [](const StateTotals& each) { return each.course == 0; });
  }
  std::string put_right_in_words() const {
    return "(SUMPRODUCT((" + parts_.of_states(Parts::course_column) + "=\"" + course_names[0] + "\")*1)>0)*1";
  }
  bool counts_now(const HagglingRow& row) const { return !of_putting_right(row) || put_right_somewhere(); }
  double hour() const { return f_.pace * f_.hour; }

  template <class Figure>
  double mean(Figure of) const {
    double sum = 0, all = 0;
    for (std::size_t i = 0; i < f_.states.size(); ++i)
      sum += f_.states[i].chance * of(i), all += f_.states[i].chance;
    return all > 0 ? sum / all : 0;
  }

  Costs now(const HagglingRow& row) const {
    switch (row.of) {
      case Of::cause: {
        double cash = 0, hours = 0;
        for (const auto& [which, so_far] : row.corrections) {
          cash += so_far * parts_.corrections.at(which).cash;
          hours += so_far * parts_.corrections.at(which).hours;
        }
        const double likely = share_of(row);
        return {cash + hours * hour(), likely < f_.hardly_possible ? 0 : likely};
      }
      case Of::trouble:
        return {row.cash + row.hours * hour(), share_of(row)};
      case Of::fault: {
        const FaultFigures& fault = f_.faults.at(row.fault);
        double cash = 0, hours = 0;
        bool made = false;
        for (const FixFigures& fix : fault.fixes)
          if (fix.chosen) cash += fix.cash, hours += fix.hours, made = true;
        return {made ? cash + hours * hour() : fault.takes_off, 1};
      }
      case Of::fees:
        return {f_.fees, 1};
      case Of::opening_up:
        return {mean([&](std::size_t i) {
                  return parts_.opening_cash(f_.states[i]) + parts_.opening_hours(f_.states[i]) * hour();
                }),
                1};
      case Of::holding:
        return {mean([&](std::size_t i) { return parts_.states[i].days; }) * f_.holding_per_day, 1};
      case Of::selling:
        return {row.cash + f_.sale_rate * mean([&](std::size_t i) { return parts_.states[i].brings; }), 1};
    }
    return {};
  }

  double share_of(const HagglingRow& row) const {
    double sum = 0, all = 0;
    for (const StateFigures& each : f_.states) all += each.chance;
    for (const std::size_t i : row.states) sum += f_.states.at(i).chance;
    return all > 0 ? sum / all : 0;
  }

  // The chances of these states, of all that there are.
  std::string share_in_words(const HagglingRow& row) const {
    std::string sum;
    for (std::size_t i = 0; i < row.states.size();) {
      std::size_t last = i;
      while (last + 1 < row.states.size() && row.states[last + 1] == row.states[last] + 1) ++last;
      const auto cell = [&](std::size_t k) {
        return Cell{Parts::first_state + static_cast<std::uint32_t>(row.states[k]), parts_.chance_first.col};
      };
      sum += (sum.empty() ? "" : "+") + ("SUM(" + parts_.courses->at(cell(i), cell(last)) + ")");
      i = last + 1;
    }
    if (sum.empty()) return "0";
    return "(" + sum + ")/SUM(" + parts_.of_states(parts_.chance_first.col) + ")";
  }

  std::string mean_in_words(const std::string& of) const {
    if (f_.states.empty()) return "0";
    const std::string chances = parts_.of_states(parts_.chance_first.col);
    return "SUMPRODUCT(" + chances + "," + of + ")/SUM(" + chances + ")";
  }

  std::string an_hour() const { return parts_.at(row::pace) + "*" + parts_.at(row::hour); }

  void write_row(std::uint32_t at, const HagglingRow& row, const Costs& costs) {
    sheet_.wrapped({at, what}, row.what);
    sheet_.formula({at, amount}, amount_in_words(at, row), costs.amount, look::money);
    write_how(at, row);
    write_chance(at, row, costs.chance);
    sheet_.formula({at, expected}, here(Cell{at, amount}) + "*" + here(Cell{at, chance}),
                   costs.amount * costs.chance, look::money);
    if (of_putting_right(row))
      sheet_.formula({at, counts}, put_right_in_words(), put_right_somewhere() ? 1 : 0, look::whole);
    else
      sheet_.whole({at, counts}, 1);
  }

  std::string amount_in_words(std::uint32_t at, const HagglingRow& row) {
    switch (row.of) {
      case Of::cause: {
        std::string sum;
        for (const auto& [which, so_far] : row.corrections) {
          const CorrectionTotals& total = parts_.corrections.at(which);
          const Cell cell{at, static_cast<std::uint16_t>(reached + which)};
          sheet_.decimal(cell, so_far);
          sum += (sum.empty() ? "" : "+") + here(cell) + "*(" + parts_.costs->at(total.cash_cell) + "+" +
                 parts_.costs->at(total.hours_cell) + "*" + an_hour() + ")";
        }
        return sum.empty() ? "0" : sum;
      }
      case Of::trouble:
        sheet_.decimal({at, own_cash}, row.cash, look::money);
        sheet_.decimal({at, own_hours}, row.hours);
        return here(Cell{at, own_cash}) + "+" + here(Cell{at, own_hours}) + "*" + an_hour();
      case Of::fault:
        return of_fault(row);
      case Of::fees:
        return parts_.at(row::fees);
      case Of::opening_up:
        return mean_in_words(parts_.of_states(Parts::opening_cash_column)) + "+" +
               mean_in_words(parts_.of_states(Parts::opening_hours_column)) + "*" + an_hour();
      case Of::holding:
        return parts_.at(row::days) + "*" + parts_.at(row::holding);
      case Of::selling:
        sheet_.decimal({at, own_cash}, row.cash, look::money);
        return here(Cell{at, own_cash}) + "+" + parts_.at(row::sale_rate) + "*" +
               mean_in_words(parts_.of_states(parts_.best_brings()));
    }
    return "0";
  }

  std::string of_fixes(const HagglingRow& row, std::uint16_t col) const {
    const auto& [from, to] = parts_.fault_rows.at(row.fault);
    return parts_.fixes->at({from, col}, {to, col});
  }

  // What its fixes take, or where none is made what a buyer takes off.
  std::string of_fault(const HagglingRow& row) const {
    const std::string off = parts_.fixes->at({parts_.fault_rows.at(row.fault).first, fixes_at::takes_off});
    if (f_.faults.at(row.fault).fixes.empty()) return off;
    const std::string made = of_fixes(row, fixes_at::made);
    return "IF(SUM(" + made + ")=0," + off + ",SUMPRODUCT(" + made + "," + of_fixes(row, fixes_at::cash) +
           ")+SUMPRODUCT(" + made + "," + of_fixes(row, fixes_at::hours) + ")*" + an_hour() + ")";
  }

  void write_how(std::uint32_t at, const HagglingRow& row) {
    const char* const left = "taken off by a buyer";
    if (row.of != Of::fault) {
      if (!row.how.empty()) sheet_.wrapped({at, how}, row.how);
      return;
    }
    const FaultFigures& fault = f_.faults.at(row.fault);
    if (fault.fixes.empty()) return sheet_.wrapped({at, how}, left);
    const std::string made = of_fixes(row, fixes_at::made);
    std::string now = left;
    int chosen = 0;
    for (const FixFigures& fix : fault.fixes)
      if (fix.chosen && ++chosen == 1) now = fix.name;
    if (chosen > 1) now = "several fixes";
    sheet_.formula_text({at, how},
                        "IF(SUM(" + made + ")=0,\"" + left + "\",IF(SUM(" + made +
                            ")>1,\"several fixes\",INDEX(" + of_fixes(row, fixes_at::fix) + ",MATCH(MAX(" +
                            made + ")," + made + ",0))))",
                        now, look::wrapped);
  }

  // A cause that is hardly possible is not named: who names it is not believed.
  void write_chance(std::uint32_t at, const HagglingRow& row, double now) {
    if (row.of == Of::trouble) return sheet_.formula({at, chance}, share_in_words(row), now, look::percent);
    if (row.of != Of::cause) return sheet_.decimal({at, chance}, 1, look::percent);
    sheet_.decimal({at, own_cash}, f_.hardly_possible);
    const std::string share = share_in_words(row);
    sheet_.formula({at, chance}, "IF(" + share + "<" + here(Cell{at, own_cash}) + ",0," + share + ")", now,
                   look::percent);
  }

  void draw(Chart chart, const std::vector<std::string>& names, int rows) {
    chart.across = f_.currency.code;
    chart.says = "Costs to name when haggling, the largest expected: " + names.front().substr(0, 60);
    chart.legend = false;
    chart.from_zero = true;
    chart.across_format = "#,##0";
    const auto last = first_ + static_cast<std::uint32_t>(names.size()) - 1;
    chart.series.push_back({"expected", parts_.book.labels(names),
                            sheet_.at({first_, expected}, {last, expected}), Paint::strong, Mark::none, false,
                            true, true});
    sheet_.chart({picture, 0}, chart, 5, rows);
  }

  Parts& parts_;
  const AppraisalFigures& f_;
  Sheet& sheet_;
  std::uint32_t first_ = 0;
};

}  // namespace

void write_haggling(Parts& parts) { Haggling(parts).write(); }

}  // namespace nonrunner::reports::appraisal_sheets
