#include "book/events/sell.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/events/named.h"
#include "book/ledger/checks.h"
#include "book/ledger/query.h"
#include "exact/hint.h"

namespace nonrunner::book {

Commission commission_of(const std::string& text, Money price, const Currency& currency) {
  const auto units = scaled(text, 9);
  const bool is_rate =
      (!text.empty() && text.back() == '%') || (units && *units >= 0 && *units < 1'000'000'000);
  if (!is_rate) return {Money::parse(text, currency), {}};
  const Rate rate = Rate::parse(text);
  return {rate.of(price, Rounding::half_away), rate};
}

namespace {

// A commission as it stands in a file: a share of the price, or an amount.
void read_commission(const Table& table, Sale& sale, const Currency& currency) {
  if (!table.has("commission")) return;
  constexpr auto expected = "a share of the price below 1, such as 0.03, or an amount of money";
  if (table.number("commission") < 0) table.refuse("commission", expected);
  try {
    const Commission said = commission_of(table.find("commission")->text, sale.price, currency);
    sale.commission = said.amount;
    sale.commission_rate = said.rate;
  } catch (const Refusal&) {
    table.refuse("commission", expected);
  }
}

// As the book writes it: beside the amount.
void read_rate(const Table& table, Sale& sale) {
  if (!table.has("commission_rate")) return;
  constexpr auto expected = "a share of the price from 0 up to, not including, 1, such as 0.03";
  table.number("commission_rate");
  try {
    sale.commission_rate = Rate::parse(table.find("commission_rate")->text);
  } catch (const Refusal&) {
    table.refuse("commission_rate", expected);
  }
}

}  // namespace

void fields(Sale& sale, Fields& f) {
  f.day({"date", "the day of it"}, sale.day);
  f.text({"vehicle", "the car"}, Text::tag, sale.vehicle);
  f.money({"price", "what it was sold for, without tax"}, sale.price);
  f.text({"purse", "the purse that took it"}, Text::purse, sale.purse);
  f.money({"deposit_used", "of a deposit that is held", Need::may}, sale.deposit_used);
  f.rows<NamedAmount>({"costs", "costs of selling", Need::may}, "{ name, amount, purse } in costs",
                      sale.costs, [](std::size_t) { return "{ name, amount, purse } in costs"; });
  f.other(
      {"commission", "below 1 a share of the price, else an amount", Need::may}, Holds::fraction,
      "a share or an amount",
      [&](const Table& table, const Currency& currency) { read_commission(table, sale, currency); },
      [&](EventText& text) {
        if (!is_zero(sale.commission)) text.money("commission", sale.commission);
      });
  f.other(
      {"commission_rate", "the share that it was, beside the amount", Need::may}, Holds::fraction, "a share",
      [&](const Table& table, const Currency&) { read_rate(table, sale); },
      [&](EventText& text) {
        if (sale.commission_rate > Rate{}) text.number("commission_rate", sale.commission_rate.plain());
      });
  f.money({"tax", "sales tax collected on top of the price", Need::may}, sale.tax);
  f.text({"to", "who bought it", Need::may}, Text::name, sale.to);
  f.distance({"odometer", "what it stood at", Need::may}, sale.odometer);
}

int sold_in_twelve_months(const Book& book, Day day) {
  return *first<int>(book,
                     "SELECT count(*) FROM life l JOIN live_entry e USING (entry) WHERE l.turn = 'sold' AND "
                     "e.day > :from AND e.day <= :to",
                     {{":from", day.a_year_earlier()}, {":to", day}});
}

namespace {

void remark_on_limit(Recording& recording, Day day) {
  const auto setting = recording.book().setting("dealer-limit");
  if (!setting) return;
  const int limit = std::stoi(*setting), now = sold_in_twelve_months(recording.book(), day);
  if (now >= limit)
    recording.remarks().push_back(
        fmt::format("this is sale {} in twelve months, and your limit is {}: ask whether local law counts "
                    "you as a dealer now",
                    now, limit));
  else if (now + 1 >= limit)
    recording.remarks().push_back(fmt::format(
        "{} sold in twelve months: the next sale reaches your limit of {}; ask what local law says before it",
        now, limit));
}

// In the order of the header's list.
void check(Recording& recording, const Sale& sale) {
  const Book& book = recording.book();
  const Currency& currency = recording.currency();
  const Life life = expect_known(recording, "sell", sale.vehicle);
  expect_not_ended(book, "sell", sale.vehicle, open_day(book, sale.day));
  if (life.state != State::owned)
    throw hinted<Refusal>(
        fmt::format("sell: {} is {}, expected a car that was bought; enter the purchase first", sale.vehicle,
                    shown(life.state)),
        {Action::buy, {{"tag", sale.vehicle}}});
  if (const auto operation = first<std::string>(book, "SELECT operation FROM clock WHERE vehicle = :tag",
                                                {{":tag", sale.vehicle}}))
    throw hinted<Refusal>(
        fmt::format("sell: a clock still runs on {} (\"{}\"); stop it first", sale.vehicle, *operation),
        {Action::stop_clock, {}});
  expect_not_negative(recording, "sell", "the price", sale.price);
  const Day day = open_day(book, sale.day);
  if (day < life.bought_day || (is_entered_now(recording) && sale.day < life.bought_said))
    throw Refusal(fmt::format("sell: the day {} lies before the purchase of {} on {}", sale.day.iso(),
                              sale.vehicle, life.bought_said.iso()));
  for (const NamedAmount& cost : sale.costs)
    expect_not_negative(recording, "sell", "the cost \"" + cost.name + "\"", cost.amount);
  expect_not_negative(recording, "sell", "the tax", sale.tax);
  expect_not_negative(recording, "sell", "the commission", sale.commission);
  if (sale.commission > sale.price)
    throw Refusal(fmt::format("sell: a commission of {} on a price of {}, expected at most the price",
                              sale.commission.plain(currency), sale.price.plain(currency)));
  const Money held = -balance_of(book, account::buyer_deposit, sale.vehicle).amount;
  if (is_negative(sale.deposit_used) || sale.deposit_used > held || sale.deposit_used > sale.price + sale.tax)
    throw Refusal(fmt::format("sell: a deposit of {} is used, expected 0 to {}: {} is held for {}",
                              sale.deposit_used.plain(currency),
                              std::min(held, sale.price + sale.tax).plain(currency), held.plain(currency),
                              sale.vehicle));
}

}  // namespace

EntryId record(Recording& recording, const Sale& sale) {
  check(recording, sale);
  meet_purse(recording, "sell", sale.purse);
  Draft draft(recording, "sell", sale.day);
  draft.mention(sale.vehicle);
  draft.detail("life", {sale.vehicle, std::string("sold")});
  name_facts(draft, "sell", sale.vehicle, {{"buyer", sale.to}}, sale.odometer);
  // Written as an amount, a commission below one unit of money would be read as a rate: it is written as a
  // cost.
  const bool small = sale.commission.minor() < Money::parse("1", recording.currency()).minor();
  Sale kept = sale;
  if (small && !is_zero(sale.commission)) {
    kept.costs.push_back({"commission", sale.commission, ""});
    kept.commission = Money{};
  }
  write(draft, recording.currency(), kept);

  draft.post(account::purse, sale.purse, sale.price + sale.tax - sale.deposit_used);
  draft.post(account::buyer_deposit, sale.vehicle, sale.deposit_used);
  draft.purpose({sale.vehicle, "sale", "sale price", 0, {}, sale.price, {}});
  draft.purpose({sale.vehicle, "due back", "buyer's deposit used", 0, {}, -sale.deposit_used, {}});
  draft.detail("sale", {sale.vehicle, sale.price.minor(), sale.commission_rate.billionths()});
  // A car given away still was sold: its sale stands in the journal with the price 0.
  draft.post(account::sales, sale.vehicle, -sale.price,
             is_zero(sale.price) ? std::optional(Quantity{}) : std::nullopt);
  draft.post(account::sales_tax, "", -sale.tax);
  for (const NamedAmount& cost : sale.costs)
    draft.purpose({sale.vehicle, "selling cost", cost.name, 0, {}, -cost.amount, {}});
  draft.purpose({sale.vehicle, "commission", "commission", 0, {}, -sale.commission, {}});
  std::vector<NamedAmount> costs = sale.costs;
  if (!is_zero(sale.commission)) costs.push_back({"commission", sale.commission, ""});
  for (const NamedAmount& cost : costs) {
    const std::string& purse = cost.purse.empty() ? sale.purse : cost.purse;
    meet_purse(recording, "sell", purse);
    draft.post(account::selling_cost, sale.vehicle, cost.amount);
    draft.post(account::purse, purse, -cost.amount);
  }
  const EntryId entry = draft.record();
  remark_on_limit(recording, sale.day);
  return entry;
}

}  // namespace nonrunner::book
