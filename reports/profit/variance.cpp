// Variance against the appraisal in force at purchase, as in standard costing: what was not in the estimate
// first.
//
#include "reports/variance.h"

#include <fmt/format.h>

#include <map>

#include "reports/profit/parts.h"

namespace nonrunner::reports::profit {

namespace {

constexpr std::uint16_t number = 0, what = 1, standard_quantity = 2, standard_price = 3, expected = 4,
                        quantity = 5, actual = 6, by_price = 7, by_quantity = 8, total = 9, verdict = 10;

const char* direction(Money variance) {
  return is_zero(variance) ? "as expected" : is_negative(variance) ? "less" : "more";
}

void write_direction(Sheet& sheet, Cell at, const std::string& of, Money variance) {
  sheet.formula_text(at, "IF(" + of + "=0,\"as expected\",IF(" + of + "<0,\"less\",\"more\"))",
                     direction(variance), look::text_apart);
}

struct Sum {
  Money expected, actual, price, quantity, total;
};

// One row for each line; what the row sums are made of is added to `sum`.
std::uint32_t write_costs(Parts& parts, std::uint32_t at, Sum& sum) {
  Sheet& sheet = *parts.variance;
  const ProfitFigures& figures = parts.figures;
  const auto of_entries = [&](std::uint16_t col) {
    return parts.entries->at({parts.line_first.row, col}, {parts.line_last.row, col});
  };
  std::int64_t key = 0;
  for (const VarianceLine& line : variance_lines(figures)) {
    const std::string key_cell = here(Cell{at, number});
    const auto sum_of = [&](std::uint16_t col) {
      return "SUMIFS(" + of_entries(col) + "," + of_entries(column::estimate) + "," + key_cell + ")";
    };
    Money paid;
    Quantity pieces;
    bool counted = !line.lines.empty() && line.estimated && line.estimated->by_piece;
    for (const std::size_t i : line.lines) {
      paid -= figures.lines[i].amount;
      counted &= figures.lines[i].quantity.has_value();
      if (counted) pieces += *figures.lines[i].quantity;
    }
    sheet.whole({at, number}, ++key, look::number);
    sheet.text({at, what}, line.name);
    sheet.formula({at, actual}, parts.rounded(sum_of(column::out) + "-" + sum_of(column::in)), paid);
    Money variance = paid;
    if (line.estimated) {
      const EstimatedCost& standard = *line.estimated;
      if (!counted) pieces = standard.quantity;
      const Variance v = nonrunner::reports::variance(standard.quantity, standard.price, pieces, paid);
      const Money standard_amount = v.expected, price_variance = v.price;
      variance = v.total;
      sheet.decimal({at, standard_quantity}, standard.quantity, look::decimal_input);
      sheet.price({at, standard_price}, standard.price, look::price_input);
      const std::string sq = here(Cell{at, standard_quantity}), sp = here(Cell{at, standard_price}),
                        aq = here(Cell{at, quantity});
      sheet.formula({at, expected}, parts.rounded(sq + "*" + sp), standard_amount);
      if (counted)
        sheet.formula({at, quantity}, "ROUND(" + sum_of(column::quantity) + ",3)", pieces.approximately(),
                      look::decimal);
      else
        sheet.formula({at, quantity}, sq, pieces.approximately(), look::decimal);
      sheet.formula({at, by_price},
                    parts.rounded(here(Cell{at, actual}) + "-" + parts.rounded(aq + "*" + sp)),
                    price_variance);
      sheet.formula({at, by_quantity}, parts.rounded(here(Cell{at, total}) + "-" + here(Cell{at, by_price})),
                    variance - price_variance);
      sheet.formula({at, total}, parts.rounded(here(Cell{at, actual}) + "-" + here(Cell{at, expected})),
                    variance);
      sum.expected += standard_amount;
      sum.price += price_variance;
      sum.quantity += variance - price_variance;
    } else {
      sheet.text({at, standard_quantity}, "not in the estimate", look::note);
      sheet.formula({at, total}, here(Cell{at, actual}), variance);
    }
    write_direction(sheet, {at, verdict}, here(Cell{at, total}), variance);
    if (line.estimated && !line.estimated->note.empty())
      sheet.text({at, verdict + 1}, line.estimated->note, look::note_apart);
    sum.actual += paid;
    sum.total += variance;
    ++at;
  }
  return at;
}

void write_sums(Sheet& sheet, std::uint32_t at, std::uint32_t first, const std::string& name,
                const std::vector<std::pair<std::uint16_t, Money>>& sums) {
  sheet.text({at, what}, name, look::total);
  for (const auto& [col, value] : sums) {
    const std::string formula = at == first ? "0" : "SUM(" + here({first, col}, {at - 1, col}) + ")";
    sheet.formula({at, col}, formula, value, look::money_total);
  }
}

std::uint32_t write_hours_variance(Parts& parts, std::uint32_t at) {
  Sheet& sheet = *parts.variance;
  const ProfitFigures& figures = parts.figures;
  const ProfitEstimate& estimate = *figures.estimate;
  sheet.text({at, 0}, "Own hours: at the hour of the appraisal, and at the shop's hour now", look::section);
  sheet.text({at + 1, what}, "Hour in the appraisal");
  sheet.money({at + 1, standard_price}, estimate.hour, look::money_input);
  const std::string then_hour = fixed({at + 1, standard_price}), now_hour = parts.result_at(row::hour);
  at += 3;
  sheet.headings({at, 0},
                 {"No.", "Operation", "Expected hours", "", "Expected", "Own hours", "Actual",
                  "Rate variance", "Efficiency variance", "Variance", "Which is"},
                 2, 10);
  const std::uint32_t first = ++at;
  struct Row {
    std::string name;
    const EstimatedHours* estimated = nullptr;
    std::vector<std::size_t> logs;
    Hours own;
  };
  std::vector<Row> rows, extra;
  std::map<std::string, std::size_t> by_name, extra_by_name;
  for (const EstimatedHours& each : estimate.hours) {
    by_name.emplace(each.operation, rows.size());
    rows.push_back({each.operation, &each, {}, {}});
  }
  for (std::size_t i = 0; i < figures.hours.size(); ++i) {
    const ProfitHours& log = figures.hours[i];
    if (log.own.thousandths() == 0) continue;
    Row* row = nullptr;
    if (const auto found = by_name.find(log.estimate); found != by_name.end()) {
      row = &rows[found->second];
    } else {
      const std::string name = log.estimate.empty() ? log.operation : log.estimate;
      const auto [place, added] = extra_by_name.emplace(name, extra.size());
      if (added) extra.push_back({name, nullptr, {}, {}});
      row = &extra[place->second];
    }
    row->logs.push_back(i);
    row->own += log.own;
  }
  extra.insert(extra.end(), rows.begin(), rows.end());
  Sum sum;
  std::int64_t key = 0;
  for (const Row& row : extra) {
    const Hours standard = row.estimated ? row.estimated->own : Hours();
    const Money actual_amount = Price::of(figures.hour).times(row.own);
    const Variance v =
        nonrunner::reports::variance(standard, Price::of(estimate.hour), row.own, actual_amount);
    const Money standard_amount = v.expected, variance = v.total, rate_variance = v.price;
    sheet.whole({at, number}, ++key, look::number);
    sheet.text({at, what}, row.name);
    if (row.estimated)
      sheet.decimal({at, standard_quantity}, standard, look::decimal_input);
    else
      sheet.text({at, standard_quantity}, "not in the estimate", look::note);
    const std::string sq = "N(" + here(Cell{at, standard_quantity}) + ")", aq = here(Cell{at, quantity});
    // The hours of one operation stand in a few rows of the log, named one by one.
    std::string hours_formula;
    for (const std::size_t i : row.logs)
      hours_formula += (hours_formula.empty() ? "" : "+") +
                       parts.hours->at({parts.log_first.row + static_cast<std::uint32_t>(i), 2});
    sheet.formula({at, expected}, parts.rounded(sq + "*" + then_hour), standard_amount);
    sheet.formula({at, quantity}, hours_formula.empty() ? "0" : "ROUND(" + hours_formula + ",3)",
                  row.own.approximately(), look::decimal);
    sheet.formula({at, actual}, parts.rounded(aq + "*" + now_hour), actual_amount);
    sheet.formula({at, by_price},
                  parts.rounded(here(Cell{at, actual}) + "-" + parts.rounded(aq + "*" + then_hour)),
                  rate_variance);
    sheet.formula({at, by_quantity}, parts.rounded(here(Cell{at, total}) + "-" + here(Cell{at, by_price})),
                  variance - rate_variance);
    sheet.formula({at, total}, parts.rounded(here(Cell{at, actual}) + "-" + here(Cell{at, expected})),
                  variance);
    write_direction(sheet, {at, verdict}, here(Cell{at, total}), variance);
    sum.expected += standard_amount, sum.actual += actual_amount, sum.price += rate_variance,
        sum.quantity += variance - rate_variance;
    sum.total += variance;
    ++at;
  }
  write_sums(sheet, at, first, "own hours",
             {{expected, sum.expected},
              {actual, sum.actual},
              {by_price, sum.price},
              {by_quantity, sum.quantity},
              {total, sum.total}});
  return at + 2;
}

void write_outcome(Parts& parts, std::uint32_t at) {
  Sheet& sheet = *parts.variance;
  const ProfitEstimate& estimate = *parts.figures.estimate;
  const Outcome& final = parts.sums.final;
  sheet.text({at, 0}, "What came of it", look::section);
  sheet.headings({at + 1, 1}, {"", "", "", "Expected", "", "Actual", "", "", "Variance", "Which is"}, 2, 9);
  at += 2;
  const auto compare = [&](const char* name, const std::optional<Money>& expected_amount,
                           std::uint32_t result_row, Money actual_amount) {
    if (!expected_amount) return;
    sheet.text({at, what}, name);
    sheet.money({at, expected}, *expected_amount, look::money_input);
    if (parts.owned() && !parts.sums.priced) {
      sheet.text({at, actual}, "not sold yet", look::note);
    } else {
      const Money variance = actual_amount - *expected_amount;
      sheet.formula({at, actual}, "N(" + parts.result_at(result_row) + ")", actual_amount);
      sheet.formula({at, total}, parts.rounded(here(Cell{at, actual}) + "-" + here(Cell{at, expected})),
                    variance);
      write_direction(sheet, {at, verdict}, here(Cell{at, total}), variance);
    }
    ++at;
  };
  compare("sale price", estimate.sale_price, row::price, final.price);
  compare("cash profit", estimate.cash_profit, row::cash_profit, final.cash_profit);
  compare("profit after own hours", estimate.profit, row::profit, final.profit);
  if (!estimate.holding_per_day) return;
  sheet.text({at, what}, "holding cost, imputed");
  sheet.money({at, expected}, *estimate.holding_per_day, look::money_input);
  sheet.text(
      {at, quantity},
      "a day in the appraisal: it counts in the decision and was never booked, so that it is no saving",
      look::note);
}

}  // namespace

void write_variance(Parts& parts) {
  Sheet& sheet = *parts.variance;
  sheet.landscape();
  sheet.widths({6, 36, 13, 12, 12, 12, 12, 12, 12, 12, 12, 32});
  sheet.text({0, 0}, "Variance against the appraisal", look::title);
  if (!parts.figures.estimate) {
    sheet.text({2, 0}, "No appraisal was kept before the purchase, so there is nothing to compare with.");
    return;
  }
  const ProfitEstimate& estimate = *parts.figures.estimate;
  sheet.text({1, 0},
             fmt::format("The appraisal kept on {}, for the cause: {}. More is what went beyond the "
                         "estimate; what was not in it at all stands first.",
                         estimate.kept_on.iso(), estimate.cause),
             look::note);
  sheet.headings({3, 0},
                 {"No.", "What", "Expected quantity", "Expected price", "Expected", "Quantity", "Actual",
                  "Price variance", "Quantity variance", "Variance", "Which is", "Note"},
                 2, 10);
  Sum sum;
  const std::uint32_t total_row = write_costs(parts, 4, sum);
  write_sums(sheet, total_row, 4, "money, without the sale price",
             {{expected, sum.expected},
              {actual, sum.actual},
              {by_price, sum.price},
              {by_quantity, sum.quantity},
              {total, sum.total}});
  write_outcome(parts, write_hours_variance(parts, total_row + 2));
}

}  // namespace nonrunner::reports::profit
