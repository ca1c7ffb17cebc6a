// Where the money went: each kind of money, and the way from the sale price down to the profit.
#include <algorithm>

#include "exact/decimal.h"
#include "reports/profit/parts.h"

namespace nonrunner::reports::profit {

namespace {

constexpr std::uint16_t all = 1, by_sale = 2, later = 3, share = 4;
constexpr std::uint32_t picture = 3, picture_rows = 15, kinds_row = picture + picture_rows + 2;

bool comes_in(std::size_t kind) {
  return kind == index(ProfitKind::recovered) || kind == index(ProfitKind::deposit_kept) ||
         kind == index(ProfitKind::sale);
}

std::string sum_of_kind(const Parts& parts, const std::string& kind_cell, const char* when, bool in) {
  const auto range = [&](std::uint16_t col) {
    return parts.entries->at({parts.line_first.row, col}, {parts.line_last.row, col});
  };
  const std::string rest =
      "," + range(column::kind) + "," + kind_cell + "," + range(column::when) + ",\"" + when + "\")";
  const std::string in_sum = "SUMIFS(" + range(column::in) + rest,
                    out_sum = "SUMIFS(" + range(column::out) + rest;
  return parts.rounded(in ? in_sum + "-" + out_sum : out_sum + "-" + in_sum);
}

std::uint32_t write_kinds(Parts& parts) {
  Sheet& sheet = *parts.money;
  sheet.headings({kinds_row - 1, 0},
                 {"Kind", "In all", parts.finished() ? "To its end" : "To the sale", "After it",
                  "Share of what was put in"},
                 1);
  parts.kind_first = {kinds_row, 0};
  Money put_in;
  for (std::size_t kind = 0; kind <= index(ProfitKind::other_cost); ++kind)
    put_in -= parts.sums.to_sale[kind] + parts.sums.after[kind];
  const std::uint32_t last_cost = kinds_row + static_cast<std::uint32_t>(index(ProfitKind::other_cost));
  for (std::size_t kind = 0; kind < index(ProfitKind::due_back); ++kind) {
    const std::uint32_t at = kinds_row + static_cast<std::uint32_t>(kind);
    const bool in = comes_in(kind);
    const Money before = in ? parts.sums.to_sale[kind] : -parts.sums.to_sale[kind];
    const Money after = in ? parts.sums.after[kind] : -parts.sums.after[kind];
    const std::string kind_cell = "$A$" + std::to_string(at + 1);
    sheet.text({at, 0}, name_of(static_cast<ProfitKind>(kind)));
    sheet.formula({at, by_sale}, sum_of_kind(parts, kind_cell, parts.until_then(), in), before);
    sheet.formula({at, later}, sum_of_kind(parts, kind_cell, after_it, in), after);
    sheet.formula({at, all}, parts.rounded(here(Cell{at, by_sale}) + "+" + here(Cell{at, later})),
                  before + after);
    if (kind > index(ProfitKind::other_cost)) {
      sheet.text({at, share}, in ? "comes in" : "for the sale",
                 {Form::text, Role::note, false, look::Side::right});
      continue;
    }
    const std::string whole =
        "SUM($B$" + std::to_string(kinds_row + 1) + ":$B$" + std::to_string(last_cost + 1) + ")";
    const double part = is_zero(put_in) ? 0
                                        : number_of(before + after, parts.figures.currency) /
                                              number_of(put_in, parts.figures.currency);
    sheet.formula({at, share}, "IF(" + whole + "=0,0," + here(Cell{at, all}) + "/" + whole + ")", part,
                  look::percent);
  }
  Chart chart;
  chart.title = "What was put in, by kind";
  chart.across = parts.figures.currency.code;
  chart.says = "What was put into the vehicle, by kind of money: " + put_in.shown(parts.figures.currency) +
               " " + parts.figures.currency.code + " in all";
  chart.legend = false;
  chart.from_zero = true;
  chart.across_format = "#,##0";
  chart.series.push_back({"put in", sheet.at({kinds_row, 0}, {last_cost, 0}),
                          sheet.at({kinds_row, all}, {last_cost, all}), Paint::strong, Mark::none, false,
                          true, true});
  const std::uint32_t below = kinds_row + static_cast<std::uint32_t>(index(ProfitKind::due_back)) + 1;
  sheet.chart({picture, 0}, chart, 5, picture_rows);
  return below + 1;
}

struct Step {
  std::string name, formula;
  Money amount;
  bool stands = false;  // a total that stands on the ground
  bool in = false;
  const char* without = nullptr;  // its name where there is no sale price yet
  bool needs_price = false;       // nothing without one
};

// As a step: which way it goes, in words.
std::string word(ProfitKind kind) {
  if (kind == ProfitKind::sale) return "sale price";
  return (comes_in(index(kind)) ? "plus " : "less ") + std::string(name_of(kind));
}

// From the sale price to the profit, leaving out what is zero now and not asked for.
std::vector<Step> steps(const Parts& parts) {
  std::vector<Step> list;
  const Sums& sums = parts.sums;
  const auto kind_row = [&](std::size_t kind) { return "$B$" + std::to_string(kinds_row + kind + 1); };
  const auto add = [&](ProfitKind kind) {
    const Money amount = sums.to_sale[index(kind)] + sums.after[index(kind)];
    const bool in = comes_in(index(kind));
    if (is_zero(amount) && kind != ProfitKind::sale) return;
    if (kind == ProfitKind::sale && !sums.priced && !parts.owned()) return;
    list.push_back({word(kind), (in ? "" : "-") + kind_row(index(kind)), amount, false, in,
                    kind == ProfitKind::sale ? "no sale price yet" : nullptr, false});
  };
  for (const ProfitKind kind : {ProfitKind::sale, ProfitKind::recovered, ProfitKind::deposit_kept}) add(kind);
  for (std::size_t kind = 0; kind <= index(ProfitKind::other_cost); ++kind)
    add(static_cast<ProfitKind>(kind));
  add(ProfitKind::selling_cost);
  if (parts.owned() && parts.figures.commission_rate.billionths() > 0)
    list.push_back({word(ProfitKind::commission), "-" + kind_row(index(ProfitKind::commission)), Money(),
                    false, false, nullptr, false});
  else
    add(ProfitKind::commission);
  list.push_back({"cash profit", "", sums.final.cash_profit, true, false, "spent so far, net", false});
  list.push_back({"less own hours", "-" + parts.result_at(row::own_value), -sums.final.own_value, false,
                  false, "", true});
  list.push_back({"profit after own hours", "", sums.final.profit, true, false, "", true});
  return list;
}

// "less purchase  1,050": with the amount, to the unit of money, that a bar on both sides of zero could not
// show.
std::string named(const std::string& name, Money amount, Currency currency) {
  std::int64_t unit = 1;
  for (; currency.digits > 0; --currency.digits) unit *= 10;
  const Money whole = Money::of_minor(scaled(amount.minor(), 1, unit, Rounding::half_away));
  return is_zero(whole) ? name : name + "  " + whole.shown(currency);
}

// A step stands as a bar from where the one before ended to where it ends, stacked on an unseen bar; above
// and below zero are stacked apart, so that a bar may cross it.
void write_bars(Parts& parts, std::uint32_t at, const Step& step, Money from, Money to) {
  Sheet& sheet = *parts.money;
  const std::string low = "MIN(" + here(Cell{at, 2}) + "," + here(Cell{at, 3}) + ")",
                    high = "MAX(" + here(Cell{at, 2}) + "," + here(Cell{at, 3}) + ")";
  const Money lowest = std::min(from, to), highest = std::max(from, to), zero;
  const Money base = std::max(zero, lowest), above = std::max(zero, highest) - base;
  const Money base_below = std::min(zero, highest), below = std::min(zero, lowest) - base_below;
  const Cell stand{at, bridge_bars}, stand_below = stand.right(4),
                                     seen = stand.right(step.stands ? 3
                                                        : step.in   ? 1
                                                                    : 2);
  sheet.formula(stand, "MAX(0," + low + ")", base, look::money_note);
  sheet.formula(stand_below, "MIN(0," + high + ")", base_below, look::money_note);
  sheet.formula(seen, parts.rounded("MAX(0," + high + ")-" + here(stand)), above, look::money_note);
  sheet.formula(seen.right(4), parts.rounded("MIN(0," + low + ")-" + here(stand_below)), below,
                look::money_note);
}

// Which way it goes is in the name, so that the amount beside it needs no sign.
void write_name(Parts& parts, std::uint32_t at, const Step& step, Money amount_now, bool open) {
  const std::string name_cell = here(Cell{at, 0}), sign = step.stands || step.in ? "" : "-";
  const std::string whole = "ROUND(" + sign + here(Cell{at, 1}) + ",0)";
  parts.money->formula_text(
      {at, bridge_name},
      "IF(" + whole + "=0," + name_cell + "," + name_cell + "&\"  \"&FIXED(" + whole + ",0))",
      named(open && step.without ? step.without : step.name,
            step.stands || step.in ? amount_now : -amount_now, parts.figures.currency),
      look::note);
}

void write_bridge(Parts& parts, std::uint32_t top) {
  Sheet& sheet = *parts.money;
  sheet.text({top, 0}, parts.way() + (parts.owned() ? "; without one, what was spent so far" : ""),
             look::section);
  sheet.headings({top + 1, 0},
                 {"Step", "Amount", "From", "To", "", "Its name", "Unseen", "Comes in", "Goes out", "Is left",
                  "Unseen below 0", "In below 0", "Out below 0", "Left below 0"},
                 1);
  const std::vector<Step> list = steps(parts);
  std::uint32_t at = top + 2;
  parts.bridge_first = {at, 0};
  Money from, to;
  const bool open = parts.owned() && !parts.sums.priced;
  for (std::size_t i = 0; i < list.size(); ++i, ++at) {
    const Step& step = list[i];
    const std::string before = i == 0 ? "0" : here(Cell{at - 1, 3});
    // Without a sale price there is no profit and no loss: what was spent is called that.
    const bool nothing = open && step.needs_price;
    from = step.stands || nothing ? Money() : to;
    if (nothing)
      to = Money();
    else if (!step.stands)
      to += step.amount;
    const std::string priced = "IF(ISNUMBER(" + parts.result_at(row::price) + "),";
    // What needs a price shows nothing without one: no zero, and no rule above it.
    const bool may_be_nothing = parts.owned() && step.needs_price;
    const bool has_rule = step.stands && !may_be_nothing;
    const Look name_look = has_rule ? look::total : look::text;
    if (parts.owned() && step.without)
      sheet.formula_text({at, 0}, priced + "\"" + step.name + "\",\"" + step.without + "\")",
                         open ? step.without : step.name, name_look);
    else
      sheet.text({at, 0}, step.name, name_look);
    const std::string amount = step.stands ? before : step.formula;
    const Look figure{may_be_nothing ? Form::money_or_nothing : Form::money,
                      has_rule ? Role::total : Role::plain},
        place{figure.form};
    sheet.formula({at, 1}, may_be_nothing ? priced + amount + ",0)" : amount,
                  nothing       ? Money()
                  : step.stands ? to
                                : step.amount,
                  figure);
    sheet.formula({at, 2},
                  step.stands      ? "0"
                  : may_be_nothing ? priced + before + ",0)"
                                   : before,
                  from, place);
    sheet.formula(
        {at, 3}, step.stands ? here(Cell{at, 1}) : parts.rounded(here(Cell{at, 2}) + "+" + here(Cell{at, 1})),
        to, place);
    write_bars(parts, at, step, from, to);
    write_name(parts, at, step, nothing ? Money() : step.stands ? to : step.amount, open);
  }
  parts.bridge_last = {at - 1, 0};
  sheet.hidden_columns(bridge_name, bridge_bars + 7);  // they only draw the picture on the first sheet
}

}  // namespace

void write_money(Parts& parts) {
  Sheet& sheet = *parts.money;
  sheet.printed_columns(5);
  sheet.one_page();
  sheet.widths({30, 18, 18, 18, 20, 30, 17, 17, 17, 17, 17, 17, 17, 17});
  sheet.text({0, 0}, "Where the money went", look::title);
  sheet.across(
      {1, 0}, 5,
      "Added up from the sheet Entries; costs and money that comes in both stand as positive figures.",
      look::note);
  write_bridge(parts, write_kinds(parts));
}

}  // namespace nonrunner::reports::profit
