// The first page: what the vehicle brought, the figures that matter, one picture, the checks; and the sheet
// Account: how it adds up.
#include <fmt/format.h>

#include <functional>
#include <set>
#include <string_view>
#include <unordered_set>

#include "reports/cautions.h"
#include "reports/head.h"
#include "reports/open_words.h"
#include "reports/profit/parts.h"

namespace nonrunner::reports::profit {

namespace {

std::string state_in_words(const ProfitFigures& figures) {
  using State = ProfitFigures::State;
  const std::size_t open = figures.open.size();
  const std::string things = open == 1 ? "1 thing open" : fmt::format("{} things open", open);
  const std::string due =
      open == 0 ? "final: nothing is due any more" : things + ", so that the result can still change";
  const std::string on = figures.sold_on ? " " + figures.sold_on->iso() : "";
  switch (figures.state) {
    case State::owned:
      return "Not sold yet: type a sale price below to see what it would bring";
    case State::sold:
      return "Sold" + on + ", " + due;
    case State::in_pieces:
      return "In pieces, parts are still being sold off: the result so far";
    case State::finished:
      return "Finished" + on + " without a sale, " + due;
  }
  return "";
}

// What a bank, a buyer or an office asks of a car and of its papers.
std::string facts_in_words(const ProfitFigures& f) {
  std::string text;
  const auto add = [&](const std::string& words) { text += (text.empty() ? "" : "; ") + words; };
  if (!f.vin.empty()) add("VIN " + f.vin);
  if (!f.seller.empty()) add("bought from " + f.seller);
  if (!f.buyer.empty()) add("sold to " + f.buyer);
  if (!f.odometer_bought.empty()) add("odometer when bought " + f.odometer_bought);
  if (!f.odometer_sold.empty()) add("odometer when sold " + f.odometer_sold);
  if (f.bought_on && f.sold_on)
    add(fmt::format("{} days from {} to {}", days_between(*f.bought_on, *f.sold_on), f.bought_on->iso(),
                    f.sold_on->iso()));
  std::unordered_set<std::string_view> papers;  // a car of 100,000 lines is written in a second or two
  std::set<std::int64_t> without;
  for (const ProfitLine& line : f.lines) {
    if (line.without_paper)
      without.insert(line.entry);
    else if (!line.paper.empty())
      papers.insert(line.paper);
  }
  add(fmt::format("{} {} with a paper, {} without", papers.size(),
                  papers.size() == 1 ? "receipt" : "receipts", without.size()));
  return text;
}

class Page {
 public:
  explicit Page(Parts& parts)
      : parts_(parts), sheet_(*parts.result), open_(parts.owned() && !parts.sums.priced) {}

  void write() {
    const ProfitFigures& figures = parts_.figures;
    sheet_.widths({40, 20, 17, 46});
    sheet_.text({0, 0}, figures.tag + ": how it adds up", look::title);
    sheet_.text({1, 0}, "All amounts in " + figures.currency.code + ".", look::note);
    begin();
    table();
    sheet_.close_gaps();
    head();
    if (parts_.sums.priced || parts_.owned())
      parts_.book.name("sale_price", *parts_.first, parts_.typed_price);
    for (const auto& [name, at] : std::vector<std::pair<const char*, std::uint32_t>>{
             {"cost", row::cost},
             {"cost_of_sale", row::cost_of_sale},
             {"cash_profit", row::cash_profit},
             {"own_hours", row::own_hours},
             {"shop_hour", row::hour},
             {"profit", row::profit},
             {"margin", row::margin},
             {"margin_after_own_hours", row::margin_after_hours},
             {"per_own_hour", row::per_hour},
             {"most_cash_tied_up", row::tied_up},
             {"return_on_cash", row::return_on_cash},
             {"days_from_purchase_to_sale", row::days},
             {"commission_rate", row::rate},
             {"break_even_price", row::break_even},
             {"break_even_price_with_own_hours", row::break_even_with_hours}})
      parts_.book.name(name, sheet_, {at, now});
    if (figures.to_come)
      parts_.book.name("break_even_price_with_what_is_to_come", sheet_, {row::break_even_to_come, now});
  }

 private:
  // What stands above the answer, and the sale price, which the reader may change.
  void begin() {
    const ProfitFigures& figures = parts_.figures;
    head_.emplace(parts_.book, *parts_.first, figures.tag + ": profit report");
    head_->say(figures.description, look::text);
    head_->say(state_in_words(figures) + ". All amounts in " + figures.currency.code + ", made " +
               figures.made_on.iso() + ".");
    head_->say(figures.complaint);
    head_->say(facts_in_words(figures));
    // An appraisal there is, and no variance: the sheet that would say why is not shown.
    const bool appraised = figures.no_estimate.first_kept_on || figures.no_estimate.cannot_be_put_right;
    if (!figures.estimate && appraised && !parts_.book.to_read()) head_->say(why_nothing_to_compare(figures));
    const bool priced = parts_.sums.priced || parts_.owned();
    if (priced)
      parts_.typed_price = head_->input(
          "Sale price", parts_.sums.priced ? std::optional(parts_.sums.final.price) : std::nullopt,
          parts_.book.to_read() ? ""
          : parts_.sums.priced  ? "may be changed: every sheet follows"
                                : "type one in: every sheet follows");
  }

  std::string b(std::uint32_t at, std::uint16_t col = now) const { return here(Cell{at, col}); }
  // What has no value before there is a sale price is left blank until one is typed in.
  void guarded(std::uint32_t at, std::uint16_t col, const std::string& formula, double value, Look look) {
    if (!parts_.owned())
      sheet_.formula({at, col}, formula, value, look);
    else if (open_)
      sheet_.formula_text({at, col}, "IF(ISNUMBER(" + b(row::price) + ")," + formula + ",\"\")", "", look);
    else
      sheet_.formula({at, col}, "IF(ISNUMBER(" + b(row::price) + ")," + formula + ",\"\")", value, look);
  }
  double money(Money amount) const { return number_of(amount, parts_.figures.currency); }
  double share(Money of, Money whole) const { return money(of) / money(whole); }

  void head() {
    const ProfitFigures& figures = parts_.figures;
    Head& page = *head_;
    answer(page);
    page.figure("Profit after own hours", at(row::profit),
                open_ ? std::nullopt : std::optional(final().profit),
                "cash profit less own hours at the shop's hour");
    page.figure("Cash profit per own hour", at(row::per_hour), open_ ? std::nullopt : final().per_hour,
                "cash profit / own hours");
    if (parts_.owned())
      page.figure("Cost so far", at(row::cost_of_sale), final().cost_of_sale,
                  "what it stands at, less what was recovered");
    else
      page.figure(break_even_name(), at(row::break_even), final().break_even, break_even_in_words());
    if (figures.to_come)
      page.figure("Break-even price, spent so far only", at(row::break_even), final().break_even,
                  "counts nothing that is still to come");
    page.when_changed("final, open and the day above are of the book as it was.");
    page.picture(way_in_a_picture(), 25);
    checks(page);
    page.list("Still open: ", in_words(figures.open, figures.currency), 5);
    page.legend(
        "hours and prices of parts on the sheets Log and Entries, the rest on Account. All else follows.");
    page.close({cautions::of_a_profit.begin(), cautions::of_a_profit.end()});
  }

  void answer(Head& page) {
    const std::string cash = at(row::cash_profit),
                      words = parts_.figures.state == ProfitFigures::State::in_pieces ? " so far" : "";
    const std::string gain = "Cash profit" + words, loss = "Cash loss" + words;
    const std::string by_sign = "IF(" + cash + "<0,\"" + loss + "\",\"" + gain + "\")";
    if (!parts_.owned()) {
      page.answer({by_sign, is_negative(final().cash_profit) ? loss : gain}, cash, final().cash_profit, "");
      return;
    }
    // The same break-even price as `show` gives: with what is still to come where the appraisal expects any.
    const bool more = parts_.figures.to_come.has_value();
    const std::string of = at(more ? row::break_even_to_come : row::break_even),
                      says = more ? "with what is to come" : "spent so far only",
                      priced = "IF(ISNUMBER(" + cash + "),";
    page.answer({priced + by_sign + ",\"Break-even price\")", "Break-even price"},
                priced + cash + "," + of + ")", more ? break_even_to_come() : final().break_even,
                {priced + "\"on what is spent so far\",\"" + says + "\")", says});
  }

  // Each holds what two sheets found apart against each other.
  void checks(Head& page) {
    const auto entries = [&](std::uint16_t col) {
      return "SUM(" + parts_.entries->at({parts_.line_first.row, col}, {parts_.line_last.row, col}) + ")";
    };
    const auto rounded = [&](const std::string& formula) { return parts_.rounded(formula); };
    const std::string moved = entries(column::in) + "-" + entries(column::out);
    const std::string due =
        parts_.entries->at({parts_.line_first.row, column::kind}, {parts_.line_last.row, column::kind});
    const auto of_due = [&](std::uint16_t col) {
      return "SUMIFS(" + parts_.entries->at({parts_.line_first.row, col}, {parts_.line_last.row, col}) + "," +
             due + ",\"" + name_of(ProfitKind::due_back) + "\")";
    };
    // Who gets the short one has not the sheets that they are named by.
    const auto sheets = [&](const char* names) { return parts_.book.to_read() ? "" : names; };
    Checks all = page.checks();
    all.line("cash profit, by kinds and by entries",
             rounded("N(" + at(row::cash_profit) + ")" + (parts_.owned() ? open_difference() : "") + "-(" +
                     moved + ")+" + of_due(column::in) + "-" + of_due(column::out)),
             sheets("Account less Entries; what comes back apart"));
    all.line("cash after the last entry, and all of them",
             rounded(parts_.entries->at({parts_.line_last.row, column::running}) + "-(" + moved + ")"),
             "one by one less both columns");
    all.line("own hours, by operation and by the log",
             formula::rounded(parts_.hours->at(parts_.own_all) + "-SUM(" +
                                  parts_.log->at({parts_.log_first.row, 2}, {parts_.log_last.row, 2}) + ")",
                              3),
             sheets("Hours less Log"));
    if (parts_.figures.cash_profit)
      all.line(
          "cash profit, here and in the book",
          "IF(" + parts_.book.changed() + "=0," +
              rounded(at(row::cash_profit) + "-" +
                      formula::literal(number_of(*parts_.figures.cash_profit, parts_.figures.currency))) +
              ",0)",
          "as long as nothing is changed");
    if (parts_.figures.estimate && !open_)
      all.line("what the variances add up to, and the cash profit",
               "N(" + parts_.variance->at(parts_.way_difference) + ")", sheets("Variance less Account"));
    page.end_of(all, all.close());
  }

  // Of a vehicle without a sale price there is no cash profit: what was spent stands in its place.
  std::string open_difference() const {
    return "+IF(ISNUMBER(" + at(row::cash_profit) + "),0," + at(row::deposit_kept) + "+" +
           at(row::recovered_after) + "-" + at(row::cost_of_sale) + "-" + at(row::selling) + "-" +
           at(row::late) + ")";
  }

  Chart way_in_a_picture() const {
    const ProfitFigures& figures = parts_.figures;
    Chart chart;
    chart.kind = Chart::Kind::stacked_bars;
    chart.title =
        parts_.way() + (parts_.owned() ? " (without one: what was spent so far)" : " (left of zero: a loss)");
    chart.across = figures.currency.code;
    chart.says = "The way to a cash profit of " + final().cash_profit.shown(figures.currency) +
                 " and a profit after own hours of " + final().profit.shown(figures.currency);
    chart.across_format = "#,##0";
    chart.gap = 35;
    chart.legend = false;  // the steps say by their names which way they go, and how far
    const Sheet& money_sheet = *parts_.money;
    const std::uint32_t from = parts_.bridge_first.row, to = parts_.bridge_last.row;
    const auto series = [&](int bar, const char* name, Paint paint) {
      const auto col = static_cast<std::uint16_t>(bridge_bars + bar);
      chart.series.push_back({name, money_sheet.at({from, bridge_name}, {to, bridge_name}),
                              money_sheet.at({from, col}, {to, col}), paint});
    };
    series(0, "unseen", Paint::none);
    series(1, "comes in", Paint::light);
    series(2, "goes out", Paint::striped);
    series(3, "is left", Paint::strong);
    series(4, "unseen below zero", Paint::none);
    series(5, "comes in below zero", Paint::light);
    series(6, "goes out below zero", Paint::striped);
    series(7, "is lost", Paint::strong);
    return chart;
  }

  const Outcome& final() const { return parts_.sums.final; }
  std::string at(std::uint32_t row_number) const { return parts_.result_at(row_number); }

  // What a row is called and what it says of itself.
  struct Said {
    const char* name;
    const char* says;
    bool total = false;
    bool needs_price = false;  // nothing is said of it before there is a sale price
  };
  void line(std::uint32_t at, const Said& said, const std::function<std::string(std::uint16_t)>& formula,
            const std::function<Money(const Outcome&)>& value) {
    sheet_.text({at, 0}, said.name, said.total ? look::total : look::text);
    const Look look = said.total ? look::money_total : look::money;
    const auto put = [&](std::uint16_t col, const Outcome& outcome) {
      if (said.needs_price)
        guarded(at, col, formula(col), money(value(outcome)), look);
      else
        sheet_.formula({at, col}, formula(col), value(outcome), look);
    };
    put(now, parts_.sums.final);
    if (parts_.two_results()) put(then, parts_.sums.at_sale);
    sheet_.wrapped({at, 3}, said.says, look::note_apart);
  }

  std::string kind(ProfitKind of, std::uint16_t col) const {
    return parts_.money->at({parts_.kind_first.row + static_cast<std::uint32_t>(index(of)), col});
  }
  std::string costs(std::uint16_t col) const {
    return "SUM(" +
           parts_.money->at(
               {parts_.kind_first.row, col},
               {parts_.kind_first.row + static_cast<std::uint32_t>(index(ProfitKind::other_cost)), col}) +
           ")";
  }

  // Columns of Money: 1 in all, 2 to the sale, 3 after it.
  static std::uint16_t until(std::uint16_t col) { return static_cast<std::uint16_t>(col == now ? 1 : 2); }
  static std::string cell(std::uint32_t row_number, std::uint16_t col) { return here(Cell{row_number, col}); }

  void table() {
    const ProfitFigures& figures = parts_.figures;
    const Sums& sums = parts_.sums;
    const bool two = parts_.two_results();
    sheet_.headings(
        {row::table, 0},
        {"How it adds up",
         figures.state == ProfitFigures::State::sold && !figures.open.empty() ? "As it stands" : "Result",
         two ? parts_.finished() ? "First, at its end" : "First, at the sale" : "", ""},
        1);
    sheet_.text({row::price, 0}, "Sale price");
    const std::string typed = parts_.first->at(parts_.typed_price),
                      there = "IF(ISNUMBER(" + typed + ")," + typed + ",\"\")";
    if (sums.priced)
      sheet_.formula({row::price, now}, there, sums.final.price);
    else if (parts_.owned())
      sheet_.formula_text({row::price, now}, there, "", look::money);
    if (two && sums.priced) sheet_.formula({row::price, then}, b(row::price), sums.at_sale.price);
    sheet_.wrapped({row::price, 3},
                   sums.priced || parts_.owned() ? "from the first sheet"
                   : parts_.finished()           ? "none: it was finished without a sale"
                                                 : "none: it is in pieces",
                   look::note_apart);
    cash_lines();
    hours_lines();
    margins();
    break_even();
  }

  // Cost of sale = cost - recovered, never below 0; cash profit = price - cost of sale - selling costs + deposit
  // kept + recovered after it - cost after it.
  void cash_lines() {
    const bool end = parts_.finished();
    const auto rounded = [&](const std::string& formula) { return parts_.rounded(formula); };
    line(
        row::cost, {"Cost put into the vehicle", "purchase, fees, parts, consumables, sublet, paid hours"},
        [&](std::uint16_t) { return rounded(costs(2)); }, [](const Outcome& o) { return o.cost; });
    line(
        row::recovered_before, {"Recovered from it before", "parts sold off: lowers the cost"},
        [&](std::uint16_t) { return kind(ProfitKind::recovered, 2); },
        [](const Outcome& o) { return o.recovered_before; });
    line(
        row::cost_of_sale, {"Cost of sale", "never below nothing", true},
        [&](std::uint16_t c) {
          return "MAX(0," + rounded(cell(row::cost, c) + "-" + cell(row::recovered_before, c)) + ")";
        },
        [](const Outcome& o) { return o.cost_of_sale; });
    line(
        row::selling, {"Selling costs and commission", ""},
        [&](std::uint16_t c) {
          return rounded(kind(ProfitKind::selling_cost, until(c)) + "+" +
                         kind(ProfitKind::commission, until(c)));
        },
        [](const Outcome& o) { return o.selling; });
    line(
        row::deposit_kept, {"Deposit kept", "income, but not in the sale price nor the margin's divisor"},
        [&](std::uint16_t c) { return kind(ProfitKind::deposit_kept, until(c)); },
        [](const Outcome& o) { return o.deposit_kept; });
    line(
        row::recovered_after,
        {end ? "Sold off after its end, or beyond the cost" : "Sold off after the sale, or beyond the cost",
         "income"},
        [&](std::uint16_t c) {
          return rounded("MAX(0," + cell(row::recovered_before, c) + "-" + cell(row::cost, c) + ")" +
                         (c == now ? "+" + kind(ProfitKind::recovered, 3) : std::string()));
        },
        [](const Outcome& o) { return o.recovered_after; });
    line(
        row::late, {end ? "Cost after its end" : "Cost after the sale", ""},
        [&](std::uint16_t c) { return c == now ? rounded(costs(3)) : "0"; },
        [](const Outcome& o) { return o.late; });
    line(
        row::cash_profit, {"Cash profit", "before own hours", true, true},
        [&](std::uint16_t c) {
          return rounded("N(" + cell(row::price, c) + ")-" + cell(row::cost_of_sale, c) + "-" +
                         cell(row::selling, c) + "+" + cell(row::deposit_kept, c) + "+" +
                         cell(row::recovered_after, c) + "-" + cell(row::late, c));
        },
        [](const Outcome& o) { return o.cash_profit; });
  }

  void hours_lines() {
    const Sums& sums = parts_.sums;
    const bool two = parts_.two_results();
    sheet_.text({row::own_hours, 0}, "Own hours");
    sheet_.formula({row::own_hours, now}, parts_.hours->at(parts_.own_all), sums.final.own.approximately(),
                   look::decimal);
    if (two)
      sheet_.formula({row::own_hours, then}, parts_.hours->at(parts_.own_to_sale),
                     sums.at_sale.own.approximately(), look::decimal);
    sheet_.wrapped({row::own_hours, 3}, "the owner's own time: no money moved", look::note_apart);
    sheet_.text({row::hour, 0}, "Shop's hour");
    sheet_.money({row::hour, now}, parts_.figures.hour, look::money_input);
    if (two) sheet_.formula({row::hour, then}, b(row::hour), parts_.figures.hour);
    sheet_.wrapped({row::hour, 3}, "what an own hour must earn", look::note_apart);
    line(
        row::own_value, {"Own hours at the shop's hour", ""},
        [&](std::uint16_t c) { return parts_.rounded(cell(row::own_hours, c) + "*" + cell(row::hour, c)); },
        [](const Outcome& o) { return o.own_value; });
    line(
        row::profit, {"Profit after own hours", "", true, true},
        [&](std::uint16_t c) {
          return parts_.rounded(cell(row::cash_profit, c) + "-" + cell(row::own_value, c));
        },
        [](const Outcome& o) { return o.profit; });
  }

  void margins() {
    const auto margin = [&](std::uint32_t row_number, const char* name, std::uint32_t top,
                            const std::function<Money(const Outcome&)>& value, const char* says) {
      sheet_.text({row_number, 0}, name);
      const auto put = [&](std::uint16_t col, const Outcome& outcome) {
        const std::string formula =
            "IF(N(" + b(row::price, col) + ")=0,\"\"," + b(top, col) + "/" + b(row::price, col) + ")";
        if (is_zero(outcome.price))
          sheet_.formula_text({row_number, col}, formula, "", look::percent);
        else
          sheet_.formula({row_number, col}, formula, share(value(outcome), outcome.price), look::percent);
      };
      put(now, parts_.sums.final);
      if (parts_.two_results()) put(then, parts_.sums.at_sale);
      sheet_.wrapped({row_number, 3}, says, look::note_apart);
    };
    margin(
        row::margin, "Margin", row::cash_profit, [](const Outcome& o) { return o.cash_profit; },
        "cash profit / sale price");
    margin(
        row::margin_after_hours, "Margin after own hours", row::profit,
        [](const Outcome& o) { return o.profit; }, "profit after own hours / sale price");
    sheet_.text({row::per_hour, 0}, "Cash profit per own hour");
    const auto per = [&](std::uint16_t col, const Outcome& outcome) {
      const std::string formula =
          "IF(OR(" + b(row::own_hours, col) + "=0,NOT(ISNUMBER(" + b(row::cash_profit, col) + "))),\"\"," +
          parts_.rounded(b(row::cash_profit, col) + "/" + b(row::own_hours, col)) + ")";
      if (open_ || !outcome.per_hour)
        sheet_.formula_text({row::per_hour, col}, formula, "", look::money);
      else
        sheet_.formula({row::per_hour, col}, formula, *outcome.per_hour);
    };
    per(now, parts_.sums.final);
    if (parts_.two_results()) per(then, parts_.sums.at_sale);
    sheet_.wrapped({row::per_hour, 3}, "cash profit / own hours", look::note_apart);
    sheet_.text({row::tied_up, 0}, "Most cash tied up");
    sheet_.formula({row::tied_up, now}, parts_.cash->at(parts_.tied_up), parts_.sums.tied_up);
    sheet_.wrapped({row::tied_up, 3}, "at the end of a day, deposits counted", look::note_apart);
    sheet_.text({row::return_on_cash, 0}, "Return on cash");
    const std::string formula = "IF(OR(" + b(row::tied_up) + "=0,NOT(ISNUMBER(" + b(row::cash_profit) +
                                "))),\"\"," + b(row::cash_profit) + "/" + b(row::tied_up) + ")";
    if (open_ || is_zero(parts_.sums.tied_up))
      sheet_.formula_text({row::return_on_cash, now}, formula, "", look::percent);
    else
      sheet_.formula({row::return_on_cash, now}, formula,
                     share(parts_.sums.final.cash_profit, parts_.sums.tied_up), look::percent);
    sheet_.wrapped({row::return_on_cash, 3}, "cash profit / most cash tied up", look::note_apart);
    days();
  }

  void days() {
    const ProfitFigures& figures = parts_.figures;
    sheet_.text({row::bought, 0}, "Bought");
    const bool sale = parts_.sold() || parts_.owned();
    sheet_.text({row::sold, 0}, sale ? "Sold" : "Finished");
    sheet_.text({row::days, 0}, sale ? "Days from purchase to sale" : "Days from purchase to its end");
    if (figures.bought_on) sheet_.day({row::bought, now}, *figures.bought_on, look::day_right);
    if (figures.sold_on) sheet_.day({row::sold, now}, *figures.sold_on, look::day_right);
    if (figures.bought_on && figures.sold_on)
      sheet_.formula({row::days, now}, b(row::sold) + "-" + b(row::bought),
                     static_cast<double>(days_between(*figures.bought_on, *figures.sold_on)), look::whole);
    std::string asked;
    for (const auto& [day, price] : figures.advertised)
      asked += (asked.empty() ? "asked " : "; ") + price.shown(figures.currency) + " from " + day.iso();
    sheet_.wrapped({row::sold, 3}, asked, look::note_apart);
    if (!figures.distance.empty())
      sheet_.wrapped({row::days, 3}, "driven for it: " + figures.distance, look::note_apart);
  }

  void break_even() {
    const ProfitFigures& figures = parts_.figures;
    const bool by_rate = parts_.sums.commission_by_rate || !parts_.sums.priced;
    sheet_.text({row::rate, 0}, "Commission, share of the sale price");
    const double rate = by_rate ? static_cast<double>(figures.commission_rate.billionths()) / 1e9 : 0;
    if (by_rate && by_price())
      sheet_.decimal({row::rate, now}, rate, look::rate_input);
    else
      sheet_.decimal({row::rate, now}, 0, look::rate);
    sheet_.wrapped({row::rate, 3},
                   by_rate ? by_price() ? "may be changed: the commission follows" : ""
                           : "the commission stands in Entries as an amount",
                   look::note_apart);
    const auto price_of = [&](std::uint32_t at, const std::string& name,
                              const std::function<std::string(std::uint16_t)>& more,
                              const std::function<Money(const Outcome&)>& value, const std::string& says) {
      sheet_.text({at, 0}, name, look::total);
      const auto put = [&](std::uint16_t col, const Outcome& outcome) {
        const std::string commission =
            by_rate ? "-" + kind(ProfitKind::commission, static_cast<std::uint16_t>(col == now ? 1 : 2)) : "";
        const std::string fixed_costs = b(row::cost_of_sale, col) + "+" + b(row::selling, col) + commission +
                                        "-" + b(row::deposit_kept, col) + "-" + b(row::recovered_after, col) +
                                        "+" + b(row::late, col) + more(col);
        const std::string rate_at = "$B$" + std::to_string(row::rate + 1);
        sheet_.formula({at, col},
                       by_price() ? formula::price_for(fixed_costs, rate_at, figures.currency)
                                  : formula::not_recovered(fixed_costs, rate_at, figures.currency),
                       value(outcome), look::money_total);
      };
      put(now, parts_.sums.final);
      if (parts_.two_results()) put(then, parts_.sums.at_sale);
      sheet_.wrapped({at, 3}, says, look::note_apart);
    };
    price_of(
        row::break_even, break_even_name() + (parts_.owned() ? ", spent so far only" : ""),
        [](std::uint16_t) { return std::string(); }, [](const Outcome& o) { return o.break_even; },
        by_price() ? "the cash profit is zero; rounded up" : break_even_in_words());
    price_of(
        row::break_even_with_hours,
        break_even_name() + (by_price() ? ", own hours paid" : ", with own hours"),
        [&](std::uint16_t col) { return "+" + b(row::own_value, col); },
        [](const Outcome& o) { return o.break_even_with_hours; },
        by_price() ? "the profit after own hours is zero; rounded up"
                   : "cost and own hours less all that it brought");
    if (!figures.to_come) return;
    sheet_.text({row::cost_to_come, 0}, "Still to be spent");
    sheet_.money({row::cost_to_come, now}, figures.to_come->cost, look::money_input);
    sheet_.wrapped({row::cost_to_come, 3}, "as the appraisal in force expects; see the job workbook",
                   look::note_apart);
    sheet_.text({row::selling_to_come, 0}, "Selling costs still expected");
    sheet_.money({row::selling_to_come, now}, figures.to_come->selling_costs, look::money_input);
    sheet_.wrapped({row::selling_to_come, 3}, "the commission apart", look::note_apart);
    price_of(
        row::break_even_to_come, "Break-even price, with what is to come",
        [&](std::uint16_t) { return "+" + b(row::cost_to_come) + "+" + b(row::selling_to_come); },
        [&](const Outcome&) { return break_even_to_come(); }, "the cash profit is zero then; rounded up");
  }

  bool by_price() const { return parts_.sums.priced || parts_.owned(); }
  // Without a sale there is no price to break even at: it is what its parts did not bring.
  std::string break_even_name() const {
    return by_price() ? "Break-even price" : parts_.finished() ? "Not recovered" : "Not yet recovered";
  }
  std::string break_even_in_words() const {
    return by_price() ? "the sale price at which the cash profit is zero"
                      : "cost less all that it brought; below zero: it brought more";
  }
  Money break_even_to_come() const {
    const ProfitFigures& figures = parts_.figures;
    return formula::price_for(figures.to_come->cost + figures.to_come->selling_costs - parts_.sums.final.rest,
                              figures.commission_rate);
  }

  Parts& parts_;
  Sheet& sheet_;
  bool open_;  // no sale price yet
  std::optional<Head> head_;
};

}  // namespace

void write_result(Parts& parts) { Page(parts).write(); }

}  // namespace nonrunner::reports::profit
