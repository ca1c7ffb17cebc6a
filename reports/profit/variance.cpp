// Variance against the appraisal in force at purchase, as in standard costing: what was not in the estimate
// first, then the rest by the size of its variance.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "reports/profit/parts.h"

namespace nonrunner::reports::profit {

namespace {

constexpr std::uint16_t number = 0, what = 1, standard_quantity = 2, standard_price = 3, expected = 4,
                        quantity = 5, actual = 6, by_price = 7, by_quantity = 8, total = 9, verdict = 10;

const char* direction(Money variance) {
  return is_zero(variance) ? "as expected" : is_negative(variance) ? "less" : "more";
}

void write_direction(Sheet& sheet, Cell at, const std::string& of, Money variance) {
  sheet.formula_text(at, formula::direction(of, "as expected"), direction(variance), look::text_apart);
}

void lay_out(Sheet& sheet, const char* title) {
  sheet.landscape();
  sheet.widths({5, 36, 11, 13, 12, 10, 12, 12, 13, 12, 12, 18});
  sheet.text({0, 0}, title, look::title);
}

constexpr std::uint32_t heading_row = 3;

struct Sum {
  Money expected, actual, price, quantity, total;
  std::optional<std::uint32_t> purchase_row;
  Money purchase_expected, purchase_actual;
};

// The line of the estimate that the price paid falls under; null: none.
const EstimatedCost* purchase_under(const ProfitFigures& figures) {
  for (const ProfitLine& line : figures.lines)
    if (line.kind == ProfitKind::purchase && line.under.line)
      return &figures.estimate->costs[*line.under.line];
  return nullptr;
}

// The entries of the line whose number stands in the cell `key`, summed over one of their columns.
std::string sum_of_entries(const Parts& parts, std::uint16_t col, const std::string& key) {
  const auto of_entries = [&](std::uint16_t of) {
    return parts.entries->at({parts.line_first.row, of}, {parts.line_last.row, of});
  };
  return "SUMIFS(" + of_entries(col) + "," + of_entries(column::estimate) + "," + key + ")";
}

// What came of one line of the estimate.
struct Came {
  std::string key;  // the cell of its number
  bool counted;     // by the piece
  Quantity pieces;
  Money paid;
};

// What was expected of it, and of what the difference is made; the variance.
Money write_standard(Parts& parts, std::uint32_t at, const EstimatedCost& standard, const Came& came,
                     Sum& sum) {
  Sheet& sheet = *parts.variance_money;
  const Quantity pieces = came.counted ? came.pieces : quantity_of_a_sum(standard.quantity, came.paid);
  const Variance v = nonrunner::reports::variance(standard.quantity, standard.price, pieces, came.paid);
  const Money standard_amount = v.expected, price_variance = v.price, variance = v.total;
  sheet.decimal({at, standard_quantity}, standard.quantity, look::decimal_input);
  // Prices expected are means, with digits that nobody would pay: shown in full only where they are
  // small.
  std::int64_t one = 1000;
  for (int i = 0; i < parts.digits(); ++i) one *= 10;
  const bool small = standard.price.fine() < one;
  sheet.price({at, standard_price}, standard.price, small ? look::price_input : look::money_input);
  const std::string sq = here(Cell{at, standard_quantity}), sp = here(Cell{at, standard_price}),
                    aq = here(Cell{at, quantity});
  sheet.formula({at, expected}, parts.rounded(sq + "*" + sp), standard_amount);
  if (came.counted)
    sheet.formula({at, quantity}, "ROUND(" + sum_of_entries(parts, column::quantity, came.key) + ",3)",
                  pieces.approximately(), look::decimal);
  else
    sheet.formula({at, quantity}, "IF(" + here(Cell{at, actual}) + "=0,0,IF(" + sq + "=0,1," + sq + "))",
                  pieces.approximately(), look::decimal);
  sheet.formula({at, by_price}, parts.rounded(here(Cell{at, actual}) + "-" + parts.rounded(aq + "*" + sp)),
                price_variance);
  sheet.formula({at, by_quantity}, parts.rounded(here(Cell{at, total}) + "-" + here(Cell{at, by_price})),
                variance - price_variance);
  sheet.formula({at, total}, parts.rounded(here(Cell{at, actual}) + "-" + here(Cell{at, expected})),
                variance);
  sum.expected += standard_amount;
  sum.price += price_variance;
  sum.quantity += variance - price_variance;
  return variance;
}

// One row for each line; what the row sums are made of is added to `sum`.
std::uint32_t write_costs(Parts& parts, std::uint32_t at, Sum& sum) {
  Sheet& sheet = *parts.variance_money;
  const ProfitFigures& figures = parts.figures;
  std::int64_t key = 0;
  const EstimatedCost* under = purchase_under(figures);
  for (const VarianceLine& line : variance_lines(figures)) {
    const std::string key_cell = here(Cell{at, number});
    Money paid;
    Quantity pieces;
    bool counted = line.estimated && line.estimated->by_piece;
    for (const std::size_t i : line.lines) {
      paid -= figures.lines[i].amount;
      counted &= figures.lines[i].quantity.has_value();
      if (counted) pieces += *figures.lines[i].quantity;
    }
    sheet.whole({at, number}, ++key, look::number);
    sheet.wrapped({at, what}, line.name);
    if (under && line.estimated == under) sum.purchase_row = at;
    sheet.formula({at, actual},
                  parts.rounded(sum_of_entries(parts, column::out, key_cell) + "-" +
                                sum_of_entries(parts, column::in, key_cell)),
                  paid);
    Money variance = paid;
    if (line.estimated) {
      variance = write_standard(parts, at, *line.estimated, {key_cell, counted, pieces, paid}, sum);
    } else {
      sheet.text({at, standard_quantity}, "not in the estimate", look::note);
      sheet.formula({at, total}, here(Cell{at, actual}), variance);
    }
    write_direction(sheet, {at, verdict}, here(Cell{at, total}), variance);
    if (line.estimated && !line.estimated->note.empty())
      sheet.wrapped({at, verdict + 1}, line.estimated->note, look::note_apart);
    sum.actual += paid;
    sum.total += variance;
    if (sum.purchase_row == at) sum.purchase_expected = paid - variance, sum.purchase_actual = paid;
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

// An operation of the estimate, or one that was not in it, and the hours that it took.
struct HoursLine {
  std::string name;
  const EstimatedHours* estimated = nullptr;
  std::vector<std::size_t> logs;
  Hours own;
  Variance variance = {};
};

// What was not in the estimate first, then by the size of the variance.
std::vector<HoursLine> hours_lines(const ProfitFigures& figures) {
  const ProfitEstimate& estimate = *figures.estimate;
  std::vector<HoursLine> rows, extra;
  // What was not expected: by its heading, else by what was done. The place of each in `extra`.
  std::map<std::size_t, std::size_t> by_heading;
  std::map<std::string, std::size_t> by_operation;
  for (const EstimatedHours& each : estimate.hours) rows.push_back({each.operation, &each, {}, {}, {}});
  for (std::size_t i = 0; i < figures.hours.size(); ++i) {
    const Work& log = figures.hours[i];
    if (log.own.thousandths() == 0) continue;
    HoursLine* row = nullptr;
    if (log.under.line) {
      row = &rows[*log.under.line];
    } else {
      const auto& heading = log.under.heading;
      const std::size_t place = heading ? by_heading.emplace(*heading, extra.size()).first->second
                                        : by_operation.emplace(log.operation, extra.size()).first->second;
      if (place == extra.size())
        extra.push_back({heading ? estimate.hours_headings[*heading] : log.operation, nullptr, {}, {}, {}});
      row = &extra[place];
    }
    row->logs.push_back(i);
    row->own += log.own;
  }
  extra.insert(extra.end(), rows.begin(), rows.end());
  for (HoursLine& row : extra)
    row.variance =
        nonrunner::reports::variance(row.estimated ? row.estimated->own : Hours(), Price::of(estimate.hour),
                                     row.own, Price::of(figures.hour).times(row.own));
  const auto place = [](const HoursLine& row) {
    const bool expected_none = !row.estimated || (row.estimated->own == Hours() && row.own != Hours());
    return VariancePlace{expected_none, row.variance.total};
  };
  std::stable_sort(extra.begin(), extra.end(),
                   [&](const HoursLine& a, const HoursLine& b) { return stands_before(place(a), place(b)); });
  return extra;
}

// Rate variance = (hour now - hour then) x hours; efficiency variance = (hours - hours expected) x hour then: the
// whole variance less that of the rate.
void write_hours_line(Parts& parts, std::uint32_t at, const HoursLine& line, const std::string& then_hour,
                      Sum& sum) {
  Sheet& sheet = *parts.variance_hours;
  const Hours standard = line.estimated ? line.estimated->own : Hours();
  const Money actual_amount = Price::of(parts.figures.hour).times(line.own);
  const Variance& v = line.variance;
  const Money standard_amount = v.expected, variance = v.total, rate_variance = v.price;
  sheet.wrapped({at, what}, line.name);
  if (line.estimated)
    sheet.decimal({at, standard_quantity}, standard, look::decimal_input);
  else
    sheet.text({at, standard_quantity}, "not in the estimate", look::note);
  const std::string sq = "N(" + here(Cell{at, standard_quantity}) + ")", aq = here(Cell{at, quantity});
  // The hours of one operation stand in a few rows of the log, named one by one.
  std::string hours_formula;
  for (const std::size_t i : line.logs)
    hours_formula += (hours_formula.empty() ? "" : "+") +
                     parts.log->at({parts.log_first.row + static_cast<std::uint32_t>(i), 2});
  sheet.formula({at, expected}, parts.rounded(sq + "*" + then_hour), standard_amount);
  sheet.formula({at, quantity}, hours_formula.empty() ? "0" : "ROUND(" + hours_formula + ",3)",
                line.own.approximately(), look::decimal);
  sheet.formula({at, actual}, parts.rounded(aq + "*" + parts.result_at(row::hour)), actual_amount);
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
}

std::uint32_t write_hours_variance(Parts& parts, Sum& sum) {
  Sheet& sheet = *parts.variance_hours;
  const ProfitFigures& figures = parts.figures;
  const ProfitEstimate& estimate = *figures.estimate;
  lay_out(sheet, "Variance of the own hours");
  sheet.across({1, 0}, 11,
               "At the hour of the appraisal, and at the shop's hour now. No money moved for them.",
               look::note);
  sheet.text({2, what}, "Hour in the appraisal");
  sheet.money({2, standard_price}, estimate.hour, look::money_input);
  const std::string then_hour = fixed({2, standard_price});
  std::uint32_t at = heading_row + 1;
  sheet.frozen(at + 1, 0, at);
  sheet.headings({at, 0},
                 {"No.", "Operation", "Expected hours", "", "Expected", "Own hours", "Actual",
                  "Rate variance", "Efficiency variance", "Variance", "Which is"},
                 2, 10);
  const std::uint32_t first = ++at;
  std::int64_t key = 0;
  for (const HoursLine& row : hours_lines(figures)) {
    sheet.whole({at, number}, ++key, look::number);
    write_hours_line(parts, at, row, then_hour, sum);
    ++at;
  }
  write_sums(sheet, at, first, "own hours",
             {{expected, sum.expected},
              {actual, sum.actual},
              {by_price, sum.price},
              {by_quantity, sum.quantity},
              {total, sum.total}});
  return at;
}

// From the expected result to the real one. Every figure of the expected one is made of what stands above, so
// that the variances of the sale price and of the money account for the whole difference of the cash profit.
class WhatCame {
 public:
  WhatCame(Parts& parts, std::uint32_t money_row, const Sum& money, std::uint32_t hours_row, const Sum& hours)
      : parts_(parts),
        sheet_(*parts.variance),
        open_(parts.owned() && !parts.sums.priced),
        price_(parts.result_at(row::price)),
        money_row_(money_row),
        hours_row_(hours_row),
        money_(money),
        hours_(hours) {}

  void write(std::uint32_t at) {
    const ProfitEstimate& estimate = *parts_.figures.estimate;
    const Outcome& final = parts_.sums.final;
    sheet_.headings({at + 1, 1}, {"", "", "", "Expected", "", "Actual", "", "", "Variance", "Which is"}, 2,
                    9);
    const std::uint32_t sale = at + 2, purchase = sale + 1, repair = purchase + 1, money = repair + 1,
                        cash = money + 1, hours = cash + 1, profit = hours + 1;
    const Money sale_expected = estimate.sale_price.value_or(Money());
    const Money cash_expected = sale_expected - money_.expected;

    sheet_.text({sale, what}, "sale price");
    sheet_.money({sale, expected}, sale_expected, look::money_input);
    compare(sale, "N(" + price_ + ")", final.price, sale_expected, look::money);
    write_money(purchase, repair, money);
    sheet_.text({cash, what}, "cash profit", look::total);
    sheet_.formula({cash, expected},
                   parts_.rounded(here(Cell{sale, expected}) + "-" + here(Cell{money, expected})),
                   cash_expected, look::money_total);
    compare(cash, "N(" + parts_.result_at(row::cash_profit) + ")", final.cash_profit, cash_expected,
            look::money_total);
    sheet_.text({hours, what}, "less own hours");
    sheet_.formula({hours, expected}, parts_.variance_hours->at({hours_row_, expected}), hours_.expected);
    compare(hours, parts_.result_at(row::own_value), final.own_value, hours_.expected, look::money);
    sheet_.text({profit, what}, "profit after own hours", look::total);
    sheet_.formula({profit, expected},
                   parts_.rounded(here(Cell{cash, expected}) + "-" + here(Cell{hours, expected})),
                   cash_expected - hours_.expected, look::money_total);
    compare(profit, "N(" + parts_.result_at(row::profit) + ")", final.profit, cash_expected - hours_.expected,
            look::money_total);
    parts_.book.name("money_variance", sheet_, {money, total});
    write_way(profit + 2, sale, cash, cash_expected);
    if (estimate.holding_per_day) write_imputed(profit + 9);
  }

 private:
  // What was paid for the car apart from the rest: bought under the asking price, a saving there would hide
  // that the repair went over.
  void write_money(std::uint32_t purchase, std::uint32_t repair, std::uint32_t money) {
    const auto of_money = [&](std::uint32_t at, std::uint16_t col) {
      return parts_.variance_money->at({at, col});
    };
    const bool apart = money_.purchase_row.has_value();
    const auto line = [&](std::uint32_t at, const char* name, const std::string& expects,
                          Money expected_value, const std::string& came, Money came_value) {
      const Look look = at == money ? look::money_total : look::money;
      sheet_.text({at, what}, name, at == money ? look::total : look::text);
      sheet_.formula({at, expected}, expects, expected_value, look);
      sheet_.formula({at, actual}, came, came_value, look);
      const Money variance = came_value - expected_value;
      sheet_.formula({at, total}, parts_.rounded(here(Cell{at, actual}) + "-" + here(Cell{at, expected})),
                     variance, look);
      write_direction(sheet_, {at, verdict}, here(Cell{at, total}), variance);
    };
    if (apart)
      line(purchase, "less the purchase", of_money(*money_.purchase_row, expected), money_.purchase_expected,
           of_money(*money_.purchase_row, actual), money_.purchase_actual);
    const auto rest = [&](std::uint16_t col) {
      return parts_.rounded(of_money(money_row_, col) + (apart ? "-" + here(Cell{purchase, col}) : ""));
    };
    line(repair, apart ? "less the repair and all else" : "less all money", rest(expected),
         money_.expected - money_.purchase_expected, rest(actual), money_.actual - money_.purchase_actual);
    const auto both = [&](std::uint16_t col) {
      return parts_.rounded("SUM(" + here({purchase, col}, {repair, col}) + ")");
    };
    line(money, "money, in all", both(expected), money_.expected, both(actual), money_.actual);
  }

  // Before there is a sale price, nothing is said of what came.
  void guarded(Cell cell, const std::string& formula, Money value, Look look, const char* else_) {
    if (!parts_.owned()) return sheet_.formula(cell, formula, value, look);
    const std::string when_priced = "IF(ISNUMBER(" + price_ + ")," + formula + ",\"" + else_ + "\")";
    look.side = Look::Side::right;
    if (open_)
      sheet_.formula_text(cell, when_priced, else_, look);
    else
      sheet_.formula(cell, when_priced, value, look);
  }
  void compare(std::uint32_t at, const std::string& formula, Money value, Money expected_value, Look look) {
    const std::string difference = parts_.rounded(here(Cell{at, actual}) + "-" + here(Cell{at, expected}));
    const Money variance = value - expected_value;
    guarded({at, actual}, formula, value, look, "not sold yet");
    guarded({at, total}, difference, variance, look, "");
    const std::string of = here(Cell{at, total});
    const std::string words = formula::direction(of, "as expected");
    if (!parts_.owned())
      sheet_.formula_text({at, verdict}, words, direction(variance), look::text_apart);
    else
      sheet_.formula_text({at, verdict}, "IF(ISNUMBER(" + of + ")," + words + ",\"\")",
                          open_ ? "" : direction(variance), look::text_apart);
  }

  void write_way(std::uint32_t at, std::uint32_t sale, std::uint32_t cash, Money cash_expected) {
    const Outcome& final = parts_.sums.final;
    const Money by_sale = final.price - parts_.figures.estimate->sale_price.value_or(Money()),
                by_money = money_.total;
    if (!open_ && cash_expected + by_sale - by_money != final.cash_profit)
      throw std::logic_error("profit workbook of " + parts_.figures.tag +
                             ": the variances do not add up to what the cash profit differs by");
    sheet_.text({at, 0}, "The variances add up", look::section);
    const auto line = [&](std::uint32_t place, const char* name, const std::string& formula, Money value,
                          Look look) {
      sheet_.text({place, what}, name, look.role == Role::total ? look::total : look::text);
      guarded({place, expected}, formula, value, look, "");
    };
    line(at + 1, "cash profit expected", here(Cell{cash, expected}), cash_expected, look::money);
    line(at + 2, "plus the variance of the sale price", here(Cell{sale, total}), by_sale, look::money);
    line(at + 3, "less the variances of the money", parts_.variance_money->at({money_row_, total}), by_money,
         look::money);
    line(at + 4, "cash profit",
         parts_.rounded(here(Cell{at + 1, expected}) + "+" + here(Cell{at + 2, expected}) + "-" +
                        here(Cell{at + 3, expected})),
         final.cash_profit, look::money_total);
    parts_.way_difference = {at + 5, expected};
    line(at + 5, "less that of the first sheet: must be zero",
         parts_.rounded(here(Cell{at + 4, expected}) + "-" + parts_.result_at(row::cash_profit)), Money(),
         look::money);
    for (const auto& [name, place] :
         std::vector<std::pair<const char*, Cell>>{{"expected_cash_profit", {cash, expected}},
                                                   {"sale_price_variance", {sale, total}},
                                                   {"variances_must_be_zero", {at + 5, expected}}})
      parts_.book.name(name, sheet_, place);
  }

  void write_imputed(std::uint32_t at) {
    const ProfitEstimate& estimate = *parts_.figures.estimate;
    const Price a_day = Price::of(*estimate.holding_per_day);
    const Quantity days = Quantity::of(static_cast<std::int64_t>(std::llround(estimate.days * 1000)));
    sheet_.text({at, 0}, "Imputed in the appraisal: no money", look::section);
    sheet_.headings({at + 1, 1}, {"", "Days", "A day", "Imputed"}, 1);
    at += 2;
    sheet_.text({at, what}, "holding cost");
    sheet_.decimal({at, standard_quantity}, days, look::decimal_input);
    sheet_.money({at, standard_price}, *estimate.holding_per_day, look::money_input);
    sheet_.formula({at, expected},
                   parts_.rounded(here(Cell{at, standard_quantity}) + "*" + here(Cell{at, standard_price})),
                   a_day.times(days));
    sheet_.text({at, quantity}, "it counted in the decision to buy; it is paid to nobody and never booked,",
                look::note_apart);
    sheet_.text({at + 1, quantity}, "so that it stands in no figure above and is no saving",
                look::note_apart);
  }

  Parts& parts_;
  Sheet& sheet_;
  bool open_;  // no sale price yet
  std::string price_;
  std::uint32_t money_row_, hours_row_;
  const Sum &money_, &hours_;
};

}  // namespace

std::string why_nothing_to_compare(const ProfitFigures& figures) {
  const NoEstimate& none = figures.no_estimate;
  if (none.cannot_be_put_right)
    return "As things stand with the appraisal kept by the purchase, the car cannot be put right: no repair "
           "is expected that could be compared with.";
  if (none.first_kept_on)
    return fmt::format(
        "The first appraisal was kept on {}, after the purchase{}: what was expected when it "
        "was bought is not known, so there is nothing to compare with.",
        none.first_kept_on->iso(), figures.bought_on ? " on " + figures.bought_on->iso() : std::string());
  return "No appraisal was kept before the purchase, so there is nothing to compare with.";
}

void write_variance(Parts& parts) {
  Sheet& sheet = *parts.variance;
  lay_out(sheet, "Variance against the appraisal");
  if (!parts.figures.estimate) {
    sheet.across({2, 0}, 10, why_nothing_to_compare(parts.figures), look::wrapped);
    return;
  }
  const ProfitEstimate& estimate = *parts.figures.estimate;
  sheet.across(
      {1, 0}, 11,
      fmt::format("The appraisal kept on {}, for the cause: {}{}. Less is below what was expected, more is "
                  "beyond it; line by line on the two sheets that follow.",
                  estimate.kept_on.iso(), estimate.cause,
                  estimate.cause_is_noted ? "" : " (the likeliest, none was noted)"),
      look::note);
  Sheet& lines = *parts.variance_money;
  lay_out(lines, "Variance of the money, line by line");
  lines.across({1, 0}, 11,
               "What was not in the estimate at all stands first, then the rest by the size of its variance.",
               look::note);
  lines.frozen(heading_row + 1, 0, heading_row);
  lines.headings({heading_row, 0},
                 {"No.", "What", "Expected quantity", "Expected price", "Expected", "Quantity", "Actual",
                  "Price variance", "Quantity variance", "Variance", "Which is", "Note"},
                 2, 10);
  Sum sum, hours;
  const std::uint32_t total_row = write_costs(parts, heading_row + 1, sum);
  write_sums(lines, total_row, heading_row + 1, "money, without the sale price",
             {{expected, sum.expected},
              {actual, sum.actual},
              {by_price, sum.price},
              {by_quantity, sum.quantity},
              {total, sum.total}});
  const std::uint32_t hours_row = write_hours_variance(parts, hours);
  WhatCame(parts, total_row, sum, hours_row, hours).write(2);
}

}  // namespace nonrunner::reports::profit
