#include "reports/job.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "reports/cautions.h"
#include "reports/formula.h"
#include "reports/head.h"
#include "reports/open_words.h"
#include "reports/table.h"
#include "reports/variance.h"

namespace nonrunner::reports {

namespace {

// Rows of the sheet Account.
namespace row {
constexpr std::uint32_t spent = 3, recovered = 4, to_complete = 5, at_completion = 6, budget = 7, over = 8,
                        over_purchase = 9, over_repair = 10, selling_so_far = 11, deposit_kept = 12,
                        selling = 13, rate = 14, break_even = 15, price = 16, cash_profit = 17, hours = 20,
                        hours_left = 21, hours_at_end = 22, hours_budget = 23, hour = 24, own_value = 25,
                        profit = 26, break_even_with_hours = 27, due = 29;
// Of a car in pieces, in the place of what is asked of one that is to be sold.
constexpr std::uint32_t beyond_cost = to_complete, not_yet_recovered = selling_so_far,
                        still_brings = deposit_kept, more_than_left = selling;
}  // namespace row

// Columns of the sheet Costs.
namespace cost_column {
constexpr std::uint16_t part_of = 0, what = 1, quantity = 2, price = 3, budget = 4, bought = 5, actual = 6,
                        to_complete = 7, at_completion = 8, variance_col = 9, which = 10, by_price = 11,
                        by_quantity = 12;
}

struct Totals {
  Money budget, spent, to_complete, due;
  Money at_completion() const { return spent + to_complete; }
  Hours hours_budget, hours, hours_left;
  Hours hours_at_end() const { return hours + hours_left; }
};

class JobBook {
 public:
  JobBook(const JobFigures& figures, const std::filesystem::path& out)
      : f_(figures),
        book_(
            out, figures.currency,
            {figures.tag + ": job", figures.description, figures.made_on, figures.tag, "job", figures.book}) {
    page_ = &book_.sheet("Job");
    first_ = &book_.sheet("Account");
    costs_ = &book_.sheet("Costs");
    hours_ = &book_.sheet("Hours");
    due_ = &book_.sheet("Due");
    may_go_back_ = &book_.sheet("Unused");
    findings_ = &book_.sheet("Findings");
  }

  void write() {
    write_costs();
    write_hours();
    write_due();
    write_may_go_back();
    write_findings();
    if (t_.spent != f_.cost)
      throw std::logic_error("job workbook of " + f_.tag + ": its lines add up to " +
                             t_.spent.plain(f_.currency) + ", the book says " + f_.cost.plain(f_.currency));
    begin();
    write_account();
    write_first();
    book_.close();
  }

 private:
  std::string rounded(const std::string& of) const { return formula::rounded(of, f_.currency); }
  static std::string b(std::uint32_t at) { return "$B$" + std::to_string(at + 1); }
  static const char* direction(bool less, bool more) { return less ? "less" : more ? "more" : "as budgeted"; }
  void say_direction(Sheet& sheet, Cell at, const std::string& of, bool less, bool more) {
    sheet.formula_text(at, formula::direction(of, "as budgeted"), direction(less, more), look::text_apart);
  }

  void write_costs() {
    using namespace cost_column;
    Sheet& sheet = *costs_;
    sheet.landscape();
    sheet.widths({10.5, 33, 9.5, 13.5, 13.5, 9, 13.5, 13, 13.5, 14, 12, 13, 13});
    sheet.text({0, 0}, "Budget against actual: money", look::title);
    sheet.across({1, 0}, 13,
                 budget_in_words() + (f_.budget_on ? " What was not in it at all stands first." : ""),
                 look::note);
    sheet.headings(
        {3, 0},
        {"Part of", "What", "Budget quantity", "Budget price", "Budget", "Quantity", "Actual", "To complete",
         "At completion", "Over budget", "Which is", "Price variance so far", "Quantity variance so far"},
        quantity);
    sheet.text({3, which}, "Which is", look::heading_apart);
    sheet.frozen(4, 2, 3);
    std::vector<const JobCost*> order;
    for (const bool budgeted : {false, true})
      for (const JobCost& cost : f_.costs)
        if (cost.budgeted == budgeted) order.push_back(&cost);
    std::uint32_t at = 4;
    for (const JobCost* cost : order) {
      write_cost(at, *cost);
      ++at;
    }
    if (order.empty()) sheet.text({at, what}, "nothing yet"), ++at;
    costs_total_ = at;
    sheet.text({at, what}, "in all", look::total);
    for (const auto& [col, amount] : {std::pair<std::uint16_t, Money>(budget, t_.budget),
                                      {actual, t_.spent},
                                      {to_complete, t_.to_complete},
                                      {at_completion, t_.at_completion()},
                                      {variance_col, t_.at_completion() - t_.budget}}) {
      if (!f_.budget_on && (col == budget || col == variance_col)) continue;
      sheet.formula({at, col}, rounded("SUM(" + here({4, col}, {at - 1, col}) + ")"), amount,
                    look::money_total);
    }
    if (f_.holding_per_day) {
      sheet.text({at + 2, what}, "Holding cost a day, imputed");
      sheet.money({at + 2, budget}, *f_.holding_per_day);
      sheet.text({at + 2, bought}, "it counts in decisions and is never booked: no saving", look::note_apart);
    }
  }

  // What is not certain is budgeted by its chance; a paper that waits will change the line, or may be it.
  std::string what_in_words(const JobCost& cost) const {
    std::string words = cost.what;
    if (cost.chance < 1)
      words =
          fmt::format("{:.3g} %: {}{}", 100 * cost.chance, cost.what,
                      is_zero(cost.if_needed) ? "" : ", " + cost.if_needed.shown(f_.currency) + " if needed");
    const std::string waits = in_words(cost.waits, f_.currency);
    return waits.empty() ? words : words + " (" + waits + ")";
  }

  // A row: what was expected of it, what came, what is still to come, and of what the difference is made.
  void write_cost(std::uint32_t at, const JobCost& cost) {
    using namespace cost_column;
    Sheet& sheet = *costs_;
    const auto cell = [&](std::uint16_t col) { return here(Cell{at, col}); };
    const Money budget_amount = cost.budgeted ? cost.budget_price.times(cost.budget_quantity) : Money();
    const Money completed = cost.actual + cost.to_complete, over = completed - budget_amount;
    sheet.text({at, part_of}, cost.part_of);
    sheet.wrapped({at, what}, what_in_words(cost));
    if (cost.price_paid) purchase_row_ = at, purchase_over_ = over;
    if (!f_.budget_on) {
      // Without a budget there is nothing to be over.
    } else if (cost.budgeted) {
      sheet.decimal({at, quantity}, cost.budget_quantity, look::decimal_input);
      sheet.price({at, price}, cost.budget_price, look::price_input);
      sheet.formula({at, budget}, rounded(cell(quantity) + "*" + cell(price)), budget_amount);
    } else {
      sheet.text({at, quantity}, "not in it", look::note_apart);
      sheet.money({at, budget}, Money());
    }
    write_actual(at, cost);
    if (f_.budget_on) {
      sheet.formula({at, variance_col}, rounded(cell(at_completion) + "-" + cell(budget)), over);
      say_direction(sheet, {at, which}, cell(variance_col), is_negative(over), !is_zero(over));
    }
    if (is_split(cost)) {
      const Variance v = variance(cost.budget_quantity, cost.budget_price, *cost.quantity, cost.actual);
      sheet.formula({at, by_price}, rounded(cell(actual) + "-" + rounded(cell(bought) + "*" + cell(price))),
                    v.price);
      sheet.formula({at, by_quantity}, rounded(cell(actual) + "-" + cell(budget) + "-" + cell(by_price)),
                    v.quantity);
    }
    t_.budget += budget_amount;
    t_.spent += cost.actual;
    t_.to_complete += cost.to_complete;
  }

  // Split only where pieces were bought: before that nothing can be said of their price.
  bool is_split(const JobCost& cost) const {
    return f_.budget_on && cost.budgeted && cost.quantity && cost.quantity->thousandths() != 0;
  }

  void write_actual(std::uint32_t at, const JobCost& cost) {
    using namespace cost_column;
    Sheet& sheet = *costs_;
    const auto cell = [&](std::uint16_t col) { return here(Cell{at, col}); };
    using Follows = JobCost::Follows;
    const Follows follows = f_.budget_on ? cost.follows : Follows::nothing;
    // An input only where something follows it.
    if (cost.quantity)
      sheet.decimal({at, bought}, *cost.quantity,
                    is_split(cost) || follows == Follows::pieces ? look::decimal_input : look::decimal);
    else if (follows == Follows::pieces)
      sheet.blank({at, bought}, look::decimal_input);
    sheet.money({at, actual}, cost.actual, look::money_input);
    if (follows == Follows::pieces)
      sheet.formula({at, to_complete},
                    rounded("IF(AND(" + cell(bought) + "=\"\"," + cell(actual) + "<>0),0,MAX(0," +
                            cell(quantity) + "-N(" + cell(bought) + "))*" + cell(price) + ")"),
                    cost.to_complete);
    else if (follows == Follows::amount)
      sheet.formula({at, to_complete}, rounded("MAX(0," + cell(budget) + "-" + cell(actual) + ")"),
                    cost.to_complete);
    else
      sheet.money({at, to_complete}, cost.to_complete, look::money_input);
    sheet.formula({at, at_completion}, rounded(cell(actual) + "+" + cell(to_complete)),
                  cost.actual + cost.to_complete);
  }

  void write_hours() {
    Sheet& sheet = *hours_;
    sheet.widths({40, 11, 11, 12, 13, 12, 13, 11});
    sheet.text({0, 0}, "Budget against actual: own hours", look::title);
    sheet.across(
        {1, 0}, 8,
        "Own hours really worked and still to be worked, the pace applied. Paid hours stand among the costs.",
        look::note);
    sheet.headings({3, 0},
                   {"Operation", "Budget", "So far", "To complete", "At completion", "Over budget",
                    "Which is", "Paid, so far"},
                   1);
    sheet.text({3, 6}, "Which is", look::heading_apart);
    sheet.frozen(4, 0, 3);
    std::uint32_t at = 4;
    Hours paid;
    std::vector<const JobHours*> order;
    for (const bool budgeted : {false, true})
      for (const JobHours& each : f_.hours)
        if (each.budgeted == budgeted) order.push_back(&each);
    for (const JobHours* each : order) {
      const auto cell = [&](std::uint16_t col) { return here(Cell{at, col}); };
      const Hours end = each->actual + each->to_complete, over = end - each->budget;
      sheet.wrapped({at, 0},
                    each->operation + (each->budgeted || !f_.budget_on ? "" : " (not in the estimate)"));
      if (f_.budget_on) sheet.decimal({at, 1}, each->budget, look::decimal_input);
      sheet.decimal({at, 2}, each->actual, look::decimal_input);
      if (f_.budget_on && each->follows)
        sheet.formula({at, 3}, "ROUND(MAX(0," + cell(1) + "-" + cell(2) + "),3)",
                      each->to_complete.approximately(), look::decimal);
      else
        sheet.decimal({at, 3}, each->to_complete, look::decimal_input);
      sheet.formula({at, 4}, "ROUND(" + cell(2) + "+" + cell(3) + ",3)", end.approximately(), look::decimal);
      if (f_.budget_on) {
        sheet.formula({at, 5}, "ROUND(" + cell(4) + "-" + cell(1) + ",3)", over.approximately(),
                      look::decimal);
        say_direction(sheet, {at, 6}, cell(5), over.thousandths() < 0, over.thousandths() > 0);
      }
      sheet.decimal({at, 7}, each->paid, look::decimal_input);
      t_.hours_budget += each->budget, t_.hours += each->actual, t_.hours_left += each->to_complete,
          paid += each->paid;
      ++at;
    }
    for (const JobHours* each : order) operations_.push_back(each->operation);
    if (order.empty()) sheet.hide();
    if (order.empty()) sheet.text({at, 0}, "no hours yet"), operations_.push_back("no hours yet"), ++at;
    hours_total_ = at;
    sheet.text({at, 0}, "in all", look::total);
    for (const auto& [col, number] : {std::pair<std::uint16_t, Hours>(1, t_.hours_budget),
                                      {2, t_.hours},
                                      {3, t_.hours_left},
                                      {4, t_.hours_at_end()},
                                      {5, t_.hours_at_end() - t_.hours_budget},
                                      {7, paid}}) {
      if (!f_.budget_on && (col == 1 || col == 5)) continue;
      sheet.formula({at, col}, "ROUND(SUM(" + here({4, col}, {at - 1, col}) + "),3)", number.approximately(),
                    look::decimal_total);
    }
  }

  bool nothing_open() const { return f_.due.empty() && f_.waiting.empty(); }

  void write_due() {
    Sheet& sheet = *due_;
    if (nothing_open()) sheet.hide();
    sheet.widths({16, 44, 36, 16});
    sheet.frozen(3, 0, 2);
    sheet.text({0, 0}, "What is due back, and what is open", look::title);
    sheet.headings({2, 0}, {"Last day", "What", "From", "Amount"}, 3);
    std::uint32_t at = 3;
    for (const Due& due : f_.due) {
      if (due.by)
        sheet.day({at, 0}, *due.by);
      else
        sheet.text({at, 0}, "no last day");
      sheet.wrapped({at, 1}, due.what);
      sheet.wrapped({at, 2}, due.from);
      sheet.money({at, 3}, due.amount, look::money_input);
      t_.due += due.amount;
      ++at;
    }
    if (f_.due.empty()) sheet.text({at, 0}, "nothing"), ++at;
    due_total_ = {at, 3};
    sheet.text({at, 0}, "in all", look::total);
    sheet.formula(due_total_, rounded("SUM(" + here({3, 3}, {at - 1, 3}) + ")"), t_.due, look::money_total);
    at += 2;
    for (const std::string& open : in_words(f_.waiting, f_.currency))
      sheet.across({at++, 0}, 4, "Open: " + open, look::text);
  }

  void write_may_go_back() {
    Sheet& sheet = *may_go_back_;
    Table table(sheet, 2,
                {{"May still go back, until", 16, look::day},
                 {"What, if unused", 44, look::wrapped},
                 {"To", 36, look::wrapped},
                 {"Brings", 16, look::money_input, summed}});
    sheet.text({0, 0}, "What may still go back", look::title);
    for (const Due& each : f_.may_go_back) {
      table.row();
      table.day(0, *each.by);
      table.text(1, each.what);
      table.text(2, each.from);
      table.money(3, each.amount);
    }
    if (table.empty()) sheet.hide();
    table.close("in all", "nothing");
  }

  void write_findings() {
    Table table(*findings_, 2, {{"Day", 14, look::day}, {"What was seen", 100, look::wrapped}});
    findings_->text({0, 0}, "What was found on it", look::title);
    for (const JobFinding& each : f_.findings) {
      table.row();
      table.day(0, each.day);
      table.text(1, each.text);
    }
    if (table.empty()) findings_->hide();
    table.close("nothing noted");
  }

  bool ended() const { return f_.ended_on.has_value(); }
  bool in_pieces() const { return f_.in_pieces_since.has_value(); }
  // Sold, finished or in pieces: what is still to come, and at what price it breaks even, is asked no more.
  bool over() const { return ended() || in_pieces(); }
  std::string budget_in_words() const {
    if (!f_.budget_on) return "No appraisal was kept before the purchase, so there is no budget.";
    return "The budget is the appraisal kept on " + f_.budget_on->iso() +
           (f_.cause.empty() ? "."
                             : ", for the cause: " + f_.cause +
                                   (f_.cause_is_noted ? "." : " (the likeliest, none was noted)."));
  }

  void line(std::uint32_t at, const char* name, const std::string& formula, Money amount,
            const std::string& says, bool total = false) {
    first_->text({at, 0}, name, total ? look::total : look::text);
    first_->formula({at, 1}, formula, amount, total ? look::money_total : look::money);
    first_->wrapped({at, 3}, says, look::note_apart);
  }
  void hours_line(std::uint32_t at, const char* name, std::uint16_t col, Hours hours,
                  const std::string& says) {
    first_->text({at, 0}, name);
    first_->formula({at, 1}, hours_->at({hours_total_, col}), hours.approximately(), look::decimal);
    first_->wrapped({at, 3}, says, look::note_apart);
  }

  Money price_for(Money costs) const { return formula::price_for(costs, f_.commission_rate); }
  std::string price_for(const std::string& costs) const {
    return formula::price_for(costs, b(row::rate), f_.currency);
  }

  // What stands above the answer, and the price that the reader may change.
  void begin() {
    head_.emplace(book_, *page_,
                  f_.tag + (ended()       ? ": the job as it was"
                            : in_pieces() ? ": in pieces"
                                          : ": the job so far"));
    head_->say(f_.description, look::text);
    head_->say(
        (ended() ? f_.ended + " on " + f_.ended_on->iso() + ": the profit workbook says what it brought. "
         : in_pieces() ? "In pieces since " + f_.in_pieces_since->iso() +
                             ": what is still to come is the work of parting it out. "
                       : std::string()) +
        budget_in_words() + " All amounts in " + f_.currency.code + ", made " + f_.made_on.iso() + ".");
    head_->say(f_.complaint);
    if (!over())
      typed_price_ =
          head_->input("Sale price expected", f_.expected_price,
                       f_.expected_price ? "may be changed: the profit follows" : "none known: type one in");
  }

  void write_account() {
    Sheet& sheet = *first_;
    sheet.widths({40, 20, 14, 50});
    sheet.text({0, 0}, f_.tag + ": how it adds up", look::title);
    sheet.text({1, 0}, "All amounts in " + f_.currency.code + ".", look::note);
    const auto costs = [&](std::uint16_t col) { return costs_->at({costs_total_, col}); };
    const Money net =
        t_.at_completion() - f_.recovered - f_.deposit_kept + f_.selling_costs_so_far + f_.selling_costs;
    const Money own_value = Price::of(f_.hour).times(t_.hours_at_end());
    const Money break_even = price_for(net), with_hours = price_for(net + own_value);
    if (!over() && f_.break_even_price && *f_.break_even_price != break_even)
      throw std::logic_error("job workbook of " + f_.tag + ": its break-even price is " +
                             break_even.plain(f_.currency) + ", the book says " +
                             f_.break_even_price->plain(f_.currency));
    sheet.headings({row::spent - 1, 0}, {"Money", "", "", ""}, 1);
    line(row::spent, "Cost so far", costs(6), t_.spent, "");
    sheet.text({row::recovered, 0}, "Recovered so far");
    sheet.money({row::recovered, 1}, f_.recovered, look::money_input);
    sheet.wrapped({row::recovered, 3}, "parts sold off: lowers the cost", look::note_apart);
    if (!ended())
      line(row::to_complete, "Cost to complete", costs(7), t_.to_complete, "still to be spent from here");
    line(row::at_completion, "Cost at completion", costs(8), t_.at_completion(),
         ended() ? "all that was put in to its end" : "so far + to complete", true);
    if (f_.budget_on) {
      line(row::budget, "Budget", costs(4), t_.budget, "");
      line(row::over, "Over budget", rounded(b(row::at_completion) + "-" + b(row::budget)),
           t_.at_completion() - t_.budget, "below zero: under it");
      if (purchase_row_) {
        line(row::over_purchase, "Of it the purchase", costs_->at({*purchase_row_, 9}), purchase_over_,
             "the price paid against the one in the budget");
        line(row::over_repair, "Of it the repair and all else",
             rounded(b(row::over) + "-" + b(row::over_purchase)), repair_over(), "");
      }
    }
    if (in_pieces()) write_pieces();
    if (!over()) write_price(break_even, net);
    write_hours_on_first(with_hours, own_value, net);
    line(row::due, "Due back", due_->at(due_total_), t_.due,
         nothing_open() ? "no cores, deposits or returns" : "cores, deposits, returns: see the sheet Due");
    sheet.close_gaps();
    name_figures();
  }

  void name_figures() {
    for (const auto& [name, row_number] :
         std::vector<std::pair<const char*, std::uint32_t>>{{"cost_so_far", row::spent},
                                                            {"cost_to_complete", row::to_complete},
                                                            {"cost_at_completion", row::at_completion},
                                                            {"budget", row::budget},
                                                            {"break_even_price", row::break_even},
                                                            {"cash_profit", row::cash_profit},
                                                            {"profit", row::profit},
                                                            {"own_hours", row::hours},
                                                            {"own_hours_to_complete", row::hours_left},
                                                            {"shop_hour", row::hour}})
      if (written(row_number)) book_.name(name, *first_, {row_number, 1});
    if (!over()) book_.name("expected_price", *page_, typed_price_);
    if (in_pieces()) {
      book_.name("not_yet_recovered", *first_, {row::not_yet_recovered, 1});
      book_.name("still_brings", *first_, {row::still_brings, 1});
    }
  }

  bool written(std::uint32_t at) const {
    const bool to_come = at == row::to_complete || at == row::hours_left,
               by_price =
                   at == row::break_even || at == row::price || at == row::cash_profit || at == row::profit;
    return (!ended() || !to_come) && (!over() || !by_price) && (f_.budget_on || at != row::budget);
  }

  static std::string net_formula() {
    return b(row::at_completion) + "-" + b(row::recovered) + "-" + b(row::deposit_kept) + "+" +
           b(row::selling_so_far) + "+" + b(row::selling);
  }
  Money cash_at(Money net) const {
    const Money price = f_.expected_price.value_or(Money());
    return price - f_.commission_rate.of(price, Rounding::half_away) - net;
  }
  void when_priced(std::uint32_t at, const char* name, const std::string& formula, Money amount,
                   const char* says) {
    first_->text({at, 0}, name, look::total);
    const std::string guarded = "IF(ISNUMBER(" + b(row::price) + ")," + formula + ",\"\")";
    if (f_.expected_price)
      first_->formula({at, 1}, guarded, amount, look::money_total);
    else
      first_->formula_text({at, 1}, guarded, "", look::money_total);
    first_->wrapped({at, 3}, says, look::note_apart);
  }

  void write_price(Money break_even, Money net) {
    Sheet& sheet = *first_;
    sheet.text({row::selling_so_far, 0}, "Selling costs so far");
    sheet.money({row::selling_so_far, 1}, f_.selling_costs_so_far, look::money_input);
    sheet.text({row::deposit_kept, 0}, "Deposit kept");
    sheet.money({row::deposit_kept, 1}, f_.deposit_kept, look::money_input);
    sheet.wrapped({row::deposit_kept, 3}, "of a buyer who did not come: income", look::note_apart);
    sheet.text({row::selling, 0}, "Selling costs still expected");
    sheet.money({row::selling, 1}, f_.selling_costs, look::money_input);
    sheet.text({row::rate, 0}, "Commission, share of the sale price");
    sheet.decimal({row::rate, 1}, static_cast<double>(f_.commission_rate.billionths()) / 1e9,
                  look::rate_input);
    line(row::break_even, "Break-even price now", price_for(net_formula()), break_even,
         "the sale price at which the cash profit is zero; rounded up", true);
    sheet.text({row::price, 0}, "Sale price expected");
    sheet.wrapped({row::price, 3}, "from the first sheet", look::note_apart);
    const std::string typed = page_->at(typed_price_),
                      there = "IF(ISNUMBER(" + typed + ")," + typed + ",\"\")";
    if (f_.expected_price)
      sheet.formula({row::price, 1}, there, *f_.expected_price);
    else
      sheet.formula_text({row::price, 1}, there, "", look::money);
    const std::string p = b(row::price);
    when_priced(row::cash_profit, "Cash profit then",
                rounded(p + "-" + rounded(p + "*" + b(row::rate)) + "-(" + net_formula() + ")"), cash_at(net),
                "before own hours");
  }

  // What of the cost its parts have not brought yet, beside what they should still bring.
  void write_pieces() {
    // Recoveries beyond the cost that there was are income, and cover no cost that comes later.
    const Money beyond = f_.not_yet_recovered - (t_.spent - f_.recovered);
    std::string left = b(row::spent) + "-" + b(row::recovered);
    if (!is_zero(beyond)) {
      first_->text({row::beyond_cost, 0}, "Of it beyond the cost");
      first_->money({row::beyond_cost, 1}, beyond, look::money_input);
      first_->wrapped({row::beyond_cost, 3}, "income", look::note_apart);
      left += "+" + b(row::beyond_cost);
    }
    line(row::not_yet_recovered, "Not yet recovered", rounded(left), f_.not_yet_recovered,
         "cost so far less what its parts brought", true);
    first_->text({row::still_brings, 0}, "Still expected for its parts");
    first_->money({row::still_brings, 1}, f_.still_brings, look::money_input);
    first_->wrapped({row::still_brings, 3}, "as said of it, less what was recovered since", look::note_apart);
    line(row::more_than_left, "More than is not yet recovered",
         rounded(b(row::still_brings) + "-" + b(row::not_yet_recovered)),
         f_.still_brings - f_.not_yet_recovered, "below zero: less", true);
  }

  void write_hours_on_first(Money with_hours, Money own_value, Money net) {
    Sheet& sheet = *first_;
    sheet.headings({row::hours - 1, 0}, {"Own hours", "", "", ""}, 1);
    hours_line(row::hours, "Own hours so far", 2, t_.hours, "");
    if (!ended()) hours_line(row::hours_left, "Own hours to complete", 3, t_.hours_left, "");
    hours_line(row::hours_at_end, "Own hours at completion", 4, t_.hours_at_end(), "");
    if (f_.budget_on) hours_line(row::hours_budget, "Budget", 1, t_.hours_budget, "");
    sheet.text({row::hour, 0}, "Shop's hour");
    sheet.money({row::hour, 1}, f_.hour, look::money_input);
    line(row::own_value, "Own hours at the shop's hour", rounded(b(row::hours_at_end) + "*" + b(row::hour)),
         own_value, "no money moves");
    if (over()) return;
    when_priced(row::profit, "Profit then, after own hours",
                rounded(b(row::cash_profit) + "-" + b(row::own_value)), cash_at(net) - own_value, "");
    line(row::break_even_with_hours, "Break-even price, own hours paid",
         price_for(net_formula() + "+" + b(row::own_value)), with_hours,
         "the profit after own hours is zero; rounded up", true);
  }

  Money repair_over() const { return t_.at_completion() - t_.budget - purchase_over_; }
  std::string at(std::uint32_t row_number) const { return first_->at({row_number, 1}); }
  // "Over budget 61.37" or "Under budget 588.63": a figure with a sign of its own would be read twice.
  void over_or_under(const char* what, std::uint32_t of, Money over_by, const std::string& says) {
    const std::string name = std::string(", ") + what;
    head_->figure({"IF(" + at(of) + "<0,\"Under budget" + name + "\",\"Over budget" + name + "\")",
                   (is_negative(over_by) ? "Under budget" : "Over budget") + name},
                  "ABS(" + at(of) + ")", std::optional(is_negative(over_by) ? -over_by : over_by), says);
  }

  void write_first() {
    Head& page = *head_;
    const Money net =
        t_.at_completion() - f_.recovered - f_.deposit_kept + f_.selling_costs_so_far + f_.selling_costs;
    page.answer(ended()       ? "Cost at completion"
                : in_pieces() ? "Not yet recovered"
                              : "Break-even price now",
                at(ended()       ? row::at_completion
                   : in_pieces() ? row::not_yet_recovered
                                 : row::break_even),
                ended()       ? t_.at_completion()
                : in_pieces() ? f_.not_yet_recovered
                              : price_for(net),
                "");
    if (!ended())
      page.figure(in_pieces() ? "Still expected for its parts" : "Still to be spent",
                  at(in_pieces() ? row::still_brings : row::to_complete),
                  std::optional(in_pieces() ? f_.still_brings : t_.to_complete),
                  in_pieces() ? "as said of it" : "cost to complete");
    page.figure(over() ? "Own hours" : "Own hours to complete", at(over() ? row::hours : row::hours_left),
                (over() ? t_.hours : t_.hours_left).approximately(), {Form::decimal, Role::figure}, "");
    if (f_.budget_on && purchase_row_) {
      over_or_under("the purchase", row::over_purchase, purchase_over_,
                    "the price paid against the one in the budget");
      over_or_under("the repair", row::over_repair, repair_over(), "all but the purchase, at completion");
    } else if (f_.budget_on) {
      over_or_under("all of it", row::over, t_.at_completion() - t_.budget, "at completion");
    }
    page.when_changed("what is said of the day above is of the book as it was.");
    if (!f_.hours.empty()) picture(page);
    page.list("Open: ", in_words(f_.waiting, f_.currency), 5);
    page.legend("also on the sheets Account, Costs and Hours. The rest follows.");
    page.close({cautions::of_a_job.begin(), cautions::of_a_job.end()});
  }

  void picture(Head& page) {
    Chart chart;
    chart.title = f_.budget_on ? "Own hours: budget, and so far with what is to come" : "Own hours";
    chart.across = "hours";
    chart.across_format = "0";
    chart.from_zero = true;
    chart.gap = 40;
    chart.says = "Own hours by operation: " + t_.hours_at_end().shown() + " at completion" +
                 (f_.budget_on ? ", " + t_.hours_budget.shown() + " in the budget" : std::string());
    const std::uint32_t last = 3 + drawn(chart, operations_.size(), 30);
    const std::string names = book_.labels({operations_.begin(), operations_.begin() + (last - 3)});
    if (f_.budget_on) chart.series.push_back({"budget", names, hours_->at({4, 1}, {last, 1}), Paint::light});
    chart.series.push_back({"at completion", names, hours_->at({4, 4}, {last, 4}), Paint::striped});
    page.picture(chart, std::max(3 + static_cast<int>(last), 12));
  }

  const JobFigures& f_;
  Workbook book_;
  Sheet *page_ = nullptr, *first_ = nullptr, *costs_ = nullptr, *hours_ = nullptr, *due_ = nullptr,
        *may_go_back_ = nullptr, *findings_ = nullptr;
  std::optional<Head> head_;
  Cell typed_price_;
  std::optional<std::uint32_t> purchase_row_;
  Money purchase_over_;
  std::vector<std::string> operations_;
  Totals t_;
  std::uint32_t costs_total_ = 0, hours_total_ = 0;
  Cell due_total_;
};

}  // namespace

void write_job(const JobFigures& figures, const std::filesystem::path& out) { JobBook(figures, out).write(); }

}  // namespace nonrunner::reports
