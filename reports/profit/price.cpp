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

class Prices {
 public:
  explicit Prices(Parts& parts)
      : parts_(parts), f_(parts.figures), final_(parts.sums.final), sheet_(*parts.price) {
    by_rate_ = parts.sums.commission_by_rate || !parts.sums.priced;
    rate_ = by_rate_ ? f_.commission_rate : Rate();
    const Money fixed_commission = by_rate_ ? Money()
                                            : -(parts.sums.to_sale[index(ProfitKind::commission)] +
                                                parts.sums.after[index(ProfitKind::commission)]);
    // Of a vehicle not sold yet what the appraisal still expects is counted, as on the first page.
    const Money to_come = f_.to_come ? f_.to_come->cost + f_.to_come->selling_costs : Money();
    rest_ = final_.rest - fixed_commission - to_come;
    break_even_ =
        f_.to_come ? formula::price_for(to_come - final_.rest, f_.commission_rate) : final_.break_even;
    // Where every price is one more, prices are shown around what is there without any.
    base_ = parts.sums.priced       ? final_.price
            : f_.expected_price     ? *f_.expected_price
            : break_even_ > Money{} ? break_even_
                                    : std::max(Money{}, rest_);
  }

  void write() {
    lay_out();
    write_base();
    write_rest();
    write_ends();
    write_steps();
    draw();
  }

 private:
  void lay_out() {
    sheet_.widths({32, 22, 24, 16});
    sheet_.text({0, 0}, "Profit against sale price", look::title);
    sheet_.across({1, 0}, 4,
                  f_.to_come ? "Each price with the commission that goes with it, with what is still to come."
                  : parts_.owned()
                      ? "Each price with the commission that goes with it, on what is spent so far; "
                        "nothing more is expected."
                      : "Each price with the commission that goes with it; all else as it is.",
                  look::note);
  }

  std::string break_even_at() const {
    return parts_.result_at(f_.to_come ? row::break_even_to_come : row::break_even);
  }

  void write_base() {
    sheet_.text({2, 0}, "Around this price");
    const std::string price = parts_.result_at(row::price);
    if (parts_.sums.priced)
      sheet_.formula({2, 1}, price, base_);
    else if (f_.expected_price)
      sheet_.money({2, 1}, base_, look::money_input);
    else
      sheet_.formula({2, 1},
                     "IF(N(" + price + ")>0," + price + ",IF(" + break_even_at() + ">0," + break_even_at() +
                         ",MAX(0," + fixed({3, 1}) + ")))",
                     base_);
  }

  // Cash profit = price - commission + the rest, so the rest comes from the first sheet's own figures.
  void write_rest() {
    sheet_.text({3, 0}, "All but price and commission");
    const std::string kind = parts_.money->at(
        {parts_.kind_first.row + static_cast<std::uint32_t>(index(ProfitKind::commission)), now});
    sheet_.formula({3, 1},
                   parts_.rounded("-" + parts_.result_at(row::cost_of_sale) + "-" +
                                  parts_.result_at(row::selling) + "+" + parts_.result_at(row::deposit_kept) +
                                  "+" + parts_.result_at(row::recovered_after) + "-" +
                                  parts_.result_at(row::late) + (by_rate_ ? "+" + kind : std::string()) +
                                  (f_.to_come ? "-" + parts_.result_at(row::cost_to_come) + "-" +
                                                    parts_.result_at(row::selling_to_come)
                                              : std::string())),
                   rest_);
    sheet_.text({4, 0}, "Commission, share of the price");
    if (by_rate_)
      sheet_.formula({4, 1}, parts_.result_at(row::rate), static_cast<double>(rate_.billionths()) / 1e9,
                     look::rate);
    else
      sheet_.decimal({4, 1}, 0, look::rate);
    sheet_.text({5, 0}, "Break-even price");
    sheet_.formula({5, 1}, break_even_at(), break_even_, look::money_total);
  }

  // As far as the break-even price, where that lies further off: it is marked on the lines.
  void write_ends() {
    sheet_.text({6, 0}, "Prices from, to");
    low_ = std::min(part_of(base_, least_percent), break_even_);
    high_ = std::max(part_of(base_, most_percent), break_even_);
    const auto end = [&](std::uint16_t col, const char* function, int percent, Money value) {
      sheet_.formula({6, col},
                     parts_.rounded(std::string(function) + "(" + fixed({2, 1}) + "*" +
                                    std::to_string(percent) + "/100," + fixed({5, 1}) + ")"),
                     value);
    };
    end(1, "MIN", least_percent, low_);
    end(2, "MAX", most_percent, high_);
  }

  void write_steps() {
    const std::string from = fixed({6, 1}), to = fixed({6, 2}), rest = fixed({3, 1}), rate = fixed({4, 1});
    sheet_.headings({first - 1, 0}, {"Sale price", "Cash profit", "Profit after own hours"}, 0);
    for (int i = 0; i < steps; ++i) {
      const std::uint32_t at = first + static_cast<std::uint32_t>(i);
      const Money at_price = between(low_, high_, i);
      const Money cash = at_price - rate_.of(at_price, Rounding::half_away) + rest_;
      const std::string here_price = here(Cell{at, 0});
      sheet_.formula({at, 0},
                     parts_.rounded("(" + from + "*" + std::to_string(steps - 1 - i) + "+" + to + "*" +
                                    std::to_string(i) + ")/" + std::to_string(steps - 1)),
                     at_price);
      sheet_.formula({at, 1},
                     parts_.rounded(here_price + "-" + parts_.rounded(here_price + "*" + rate) + "+" + rest),
                     cash);
      sheet_.formula({at, 2}, parts_.rounded(here(Cell{at, 1}) + "-" + parts_.result_at(row::own_value)),
                     cash - final_.own_value);
    }
  }

  void draw() {
    constexpr std::uint32_t mark = first + steps + 1;
    sheet_.across({mark, 2}, 2, "the break-even price again, where the picture marks it", look::note_apart);
    sheet_.formula({mark, 0}, fixed({5, 1}), break_even_, look::money_note);
    // At a price of nothing it may be more than nothing.
    const Money there = break_even_ > Money{} ? Money{} : rest_;
    sheet_.formula({mark, 1}, "IF(" + fixed({5, 1}) + ">0,0," + fixed({3, 1}) + ")", there, look::money_note);
    Chart chart;
    chart.kind = Chart::Kind::lines;
    chart.title = "Profit against sale price";
    chart.up = "profit, " + f_.currency.code;
    chart.says = "Cash profit and profit after own hours rise with the sale price; the cash profit is " +
                 there.shown(f_.currency) + " at " + break_even_.shown(f_.currency) + " " + f_.currency.code;
    chart.across = "sale price, " + f_.currency.code;
    chart.up_format = chart.across_format = "#,##0";
    const auto column = [&](std::uint16_t col) { return sheet_.at({first, col}, {first + steps - 1, col}); };
    chart.series.push_back({"cash profit", column(0), column(1), Paint::strong, Mark::none});
    chart.series.push_back({"profit after own hours", column(0), column(2), Paint::middle, Mark::none, true});
    chart.series.push_back({"break-even price", sheet_.at({mark, 0}, {mark, 0}),
                            sheet_.at({mark, 1}, {mark, 1}), Paint::dotted, Mark::large, false, false, false,
                            true});
    sheet_.chart({picture, 0}, chart, 4, picture_rows);
  }

  Parts& parts_;
  const ProfitFigures& f_;
  const Outcome& final_;
  Sheet& sheet_;
  bool by_rate_ = false;
  Rate rate_;
  Money rest_, break_even_, base_, low_, high_;
};

}  // namespace

void write_price(Parts& parts) { Prices(parts).write(); }

}  // namespace nonrunner::reports::profit
