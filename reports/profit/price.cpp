// Profit against sale price, with the price at which the cash profit is zero marked.
#include <algorithm>

#include "exact/decimal.h"
#include "reports/profit/parts.h"

namespace nonrunner::reports::profit {

namespace {

constexpr std::uint32_t picture = 7, picture_rows = 20, first = picture + picture_rows + 2;
constexpr int steps = 13, least_percent = 70, most_percent = 130;

Money part_of(Money base, int percent) {
  return Money::of_minor(scaled(base.minor(), percent, 100, Rounding::half_away));
}

// The i-th of the steps from the one price to the other, both included.
Money between(Money low, Money high, int i) {
  return Money::of_minor(
      scaled(low.minor() * (steps - 1 - i) + high.minor() * i, 1, steps - 1, Rounding::half_away));
}

}  // namespace

void write_price(Parts& parts) {
  Sheet& sheet = *parts.price;
  const ProfitFigures& figures = parts.figures;
  const Outcome& final = parts.sums.final;
  const bool by_rate = parts.sums.commission_by_rate || !parts.sums.priced;
  const Rate rate_used = by_rate ? figures.commission_rate : Rate();
  const Money fixed_commission = by_rate ? Money()
                                         : -(parts.sums.to_sale[index(ProfitKind::commission)] +
                                             parts.sums.after[index(ProfitKind::commission)]);
  // Of a vehicle not sold yet what the appraisal still expects is counted, as on the first page.
  const Money to_come = figures.to_come ? figures.to_come->cost + figures.to_come->selling_costs : Money();
  const Money rest = final.rest - fixed_commission - to_come;
  const Money break_even =
      figures.to_come ? figures.commission_rate.grossed_up(to_come - final.rest) : final.break_even;
  const std::string break_even_at =
      parts.result_at(figures.to_come ? row::break_even_to_come : row::break_even);
  const Money base = parts.sums.priced        ? final.price
                     : figures.expected_price ? *figures.expected_price
                                              : break_even;

  sheet.widths({32, 22, 24, 16});
  sheet.text({0, 0}, "Profit against sale price", look::title);
  sheet.across({1, 0}, 4,
               figures.to_come
                   ? "Each price with the commission that goes with it, with what is still to come."
               : parts.owned() ? "Each price with the commission that goes with it, on what is spent so far; "
                                 "nothing more is expected."
                               : "Each price with the commission that goes with it; all else as it is.",
               look::note);
  sheet.text({2, 0}, "Around this price");
  const std::string price = parts.result_at(row::price);
  if (parts.sums.priced)
    sheet.formula({2, 1}, price, base);
  else if (figures.expected_price)
    sheet.money({2, 1}, base, look::money_input);
  else
    sheet.formula({2, 1}, "IF(N(" + price + ")>0," + price + "," + break_even_at + ")", base);
  sheet.text({3, 0}, "All but price and commission");
  const std::string rest_cell = fixed({3, 1}), rate = fixed({4, 1});
  // Cash profit = price - commission + the rest, so the rest comes from the first sheet's own figures.
  const std::string kind = parts.money->at(
      {parts.kind_first.row + static_cast<std::uint32_t>(index(ProfitKind::commission)), now});
  sheet.formula(
      {3, 1},
      parts.rounded("-" + parts.result_at(row::cost_of_sale) + "-" + parts.result_at(row::selling) + "+" +
                    parts.result_at(row::deposit_kept) + "+" + parts.result_at(row::recovered_after) + "-" +
                    parts.result_at(row::late) + (by_rate ? "+" + kind : std::string()) +
                    (figures.to_come ? "-" + parts.result_at(row::cost_to_come) + "-" +
                                           parts.result_at(row::selling_to_come)
                                     : std::string())),
      rest);
  sheet.text({4, 0}, "Commission, share of the price");
  if (by_rate)
    sheet.formula({4, 1}, parts.result_at(row::rate), static_cast<double>(rate_used.billionths()) / 1e9,
                  look::rate);
  else
    sheet.decimal({4, 1}, 0, look::rate);
  sheet.text({5, 0}, "Break-even price");
  sheet.formula({5, 1}, break_even_at, break_even, look::money_total);
  // As far as the break-even price, where that lies further off: it is marked on the lines.
  sheet.text({6, 0}, "Prices from, to");
  const Money low = std::min(part_of(base, least_percent), break_even),
              high = std::max(part_of(base, most_percent), break_even);
  const auto end = [&](std::uint16_t col, const char* function, int percent, Money value) {
    sheet.formula({6, col},
                  parts.rounded(std::string(function) + "(" + fixed({2, 1}) + "*" + std::to_string(percent) +
                                "/100," + fixed({5, 1}) + ")"),
                  value);
    return fixed({6, col});
  };
  const std::string from = end(1, "MIN", least_percent, low), to = end(2, "MAX", most_percent, high);

  sheet.headings({first - 1, 0}, {"Sale price", "Cash profit", "Profit after own hours"}, 0);
  for (int i = 0; i < steps; ++i) {
    const std::uint32_t at = first + static_cast<std::uint32_t>(i);
    const Money at_price = between(low, high, i);
    const Money cash = at_price - rate_used.of(at_price, Rounding::half_away) + rest;
    const std::string here_price = here(Cell{at, 0});
    sheet.formula({at, 0},
                  parts.rounded("(" + from + "*" + std::to_string(steps - 1 - i) + "+" + to + "*" +
                                std::to_string(i) + ")/" + std::to_string(steps - 1)),
                  at_price);
    sheet.formula({at, 1},
                  parts.rounded(here_price + "-" + parts.rounded(here_price + "*" + rate) + "+" + rest_cell),
                  cash);
    sheet.formula({at, 2}, parts.rounded(here(Cell{at, 1}) + "-" + parts.result_at(row::own_value)),
                  cash - final.own_value);
  }
  const std::uint32_t mark = first + steps + 1;
  sheet.text({mark, 2}, "the break-even price again, where the picture marks it", look::note_apart);
  sheet.formula({mark, 0}, fixed({5, 1}), break_even, look::money_note);
  sheet.decimal({mark, 1}, 0, look::money_note);
  Chart chart;
  chart.kind = Chart::Kind::lines;
  chart.title = "Profit against sale price";
  chart.up = "profit, " + figures.currency.code;
  chart.says =
      "Cash profit and profit after own hours rise with the sale price; the cash profit is zero at " +
      break_even.shown(figures.currency) + " " + figures.currency.code;
  chart.across = "sale price, " + figures.currency.code;
  chart.up_format = chart.across_format = "#,##0";
  const std::string prices = sheet.at({first, 0}, {first + steps - 1, 0});
  chart.series.push_back(
      {"cash profit", prices, sheet.at({first, 1}, {first + steps - 1, 1}), Paint::strong, Mark::none});
  chart.series.push_back({"profit after own hours", prices, sheet.at({first, 2}, {first + steps - 1, 2}),
                          Paint::middle, Mark::none, true});
  chart.series.push_back({"break-even price", sheet.at({mark, 0}, {mark, 0}), sheet.at({mark, 1}, {mark, 1}),
                          Paint::dotted, Mark::large, false, false, false, true});
  sheet.chart({picture, 0}, chart, 4, picture_rows);
}

}  // namespace nonrunner::reports::profit
