#include "book/events/goods_back.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "book/events/core_back.h"
#include "book/events/fields.h"
#include "book/events/shelf.h"
#include "book/ledger/checks.h"
#include "book/ledger/query.h"
#include "book/ledger/shelf_days.h"
#include "exact/ends.h"
#include "exact/spread.h"

namespace nonrunner::book {

void fields(GoodsBack& back, Fields& f) {
  f.day({"date", "the day of it"}, back.day);
  f.text({"line", "the line that it was bought with"}, Text::line, back.line);
  f.quantity({"qty", "how many pieces (else 1)", Need::kept}, back.quantity, Quantity::of(1000));
  f.money({"goods", "the price given back, before tax"}, back.goods);
  f.money({"tax", "the tax given back (else none)", Need::kept}, back.tax);
  f.money({"core", "the deposit that comes along, for pieces whose core is still out (else it stays out)",
           Need::may},
          back.core);
  f.money({"restocking", "what the shop kept (else nothing)", Need::kept}, back.restocking);
  f.text({"from", "the car that a tool was charged to, where the book does not know it", Need::may},
         Text::tag, back.from);
  f.money({"on_account",
           "what of it lowers what is owed to the supplier (else off what is owed where the paper "
           "was on account)",
           Need::may},
          back.on_account);
  f.text({"purse", "where the rest went (else the purse that paid)", Need::may}, Text::purse, back.purse);
}

Refund full_refund(const Line& line, Quantity quantity) {
  const std::int64_t all = line.quantity.thousandths(), before = line.goods_back.thousandths();
  const auto step = [&](Money amount) { return step_share(amount, all, before, quantity.thousandths()); };
  Refund refund{step(line.amount - line.discount), step(line.tax - line.core_tax), {}};
  refund.cores = std::min(quantity, line.quantity - line.core_back);
  if (is_zero(line.core)) refund.cores = Quantity{};
  return refund;
}

namespace {

// `over`: what the tax may be above that of the pieces.
void check(const Recording& recording, const std::string& event, const Line& line, const GoodsBack& back,
           Money over) {
  const Currency& currency = recording.currency();
  const std::string named = fmt::format("line {} (\"{}\")", back.line, line.what);
  if (line.left() == Quantity{})
    throw Refusal(fmt::format("{}: all of {} went back already{}", event, named,
                              line.shelved > Quantity{} ? " or to the shelf" : ""));
  if (back.quantity <= Quantity{} || back.quantity > line.left())
    throw Refusal(fmt::format(
        "{}: {} of {}, expected more than 0 and at most {}, as {} of {} went back already{}", event,
        back.quantity.shown(), named, line.left().shown(), line.goods_back.shown(), line.quantity.shown(),
        line.shelved > Quantity{} ? " and " + line.shelved.shown() + " to the shelf" : ""));
  const Refund full = full_refund(line, back.quantity);
  const Money goods = std::max(full.goods, Money{});
  const Money tax = std::max(full.tax, Money{});
  const Money most_tax = is_zero(tax) ? tax : tax + over;
  if (is_negative(back.goods) || back.goods > goods)
    throw Refusal(fmt::format("{}: {} for the goods of {}, expected 0 to {}", event,
                              back.goods.plain(currency), named, goods.plain(currency)));
  if (is_negative(back.tax) || back.tax > most_tax)
    throw Refusal(fmt::format("{}: {} of tax for {}, expected 0 to {}", event, back.tax.plain(currency),
                              named, most_tax.plain(currency)));
  if (is_negative(back.restocking) || back.restocking > back.goods + back.tax)
    throw Refusal(fmt::format("{}: a restocking fee of {} for {}, expected 0 to {}, what comes back", event,
                              back.restocking.plain(currency), named,
                              (back.goods + back.tax).plain(currency)));
}

// What of a tool's line still stands, at the end of the day, in the cars that it was charged to.
std::map<std::string, Money> charged_to(const Book& book, const Line& line, Day day) {
  std::map<std::string, Money> cars;
  each<std::string, Money>(
      book,
      "SELECT c.vehicle, sum(c.amount) FROM charged c JOIN entry e USING (entry) WHERE c.line = :line AND " +
          counts_on(":on") + " GROUP BY c.vehicle",
      {{":line", line.number}, {":on", day}}, [&](const std::string& vehicle, Money amount) {
        if (amount > Money{}) cars[vehicle] = amount;
      });
  return cars;
}

Money refund_of(const GoodsBack& back) { return back.goods + back.tax - back.restocking; }
std::string said_of(const Line& line, const GoodsBack& back) {
  return line.what + " went back" + (is_zero(back.restocking) ? "" : ", restocking kept");
}

// A tool goes back out of the cars that it was charged to, as far as it was; the rest out of the tools.
void post_tool(Draft& draft, Recording& recording, const std::string& event, const Line& line,
               const GoodsBack& back) {
  const Money refund = refund_of(back);
  Money left = refund;
  const auto out_of = [&](const std::string& vehicle, Money amount) {
    draft.mention(vehicle);
    draft.post(account::vehicle_cost, vehicle, -amount);
    draft.purpose({vehicle, "other cost", said_of(line, back), line.number, {}, amount, {}});
    draft.detail("charged", {line.number, vehicle, (-amount).minor()});
    left -= amount;
  };
  if (!back.from.empty()) {
    know_vehicle(recording.book(), event, back.from);
    out_of(back.from, refund);
    return;
  }
  for (const auto& [vehicle, amount] : charged_to(recording.book(), line, draft.day()))
    if (left > Money{}) out_of(vehicle, std::min(amount, left));
  const Money held =
      balance_of(recording.book(), account::tools, line.tools_kept ? account::tools_kept : "").amount;
  if (left > std::max(held, Money{}))
    throw Refusal(fmt::format(
        "{}: {} for line {} (\"{}\"), but the tools hold {} of their cost; say which car it was charged to: "
        "--from TAG",
        event, left.plain(recording.currency()), back.line, line.what, held.plain(recording.currency())));
  draft.post(account::tools, line.tools_kept ? account::tools_kept : "", -left);
}

// The books' side: off the accounts that carry the line.
void post_goods(Draft& draft, Recording& recording, const std::string& event, const Line& line,
                const GoodsBack& back) {
  const Money refund = refund_of(back);
  for (const Share& share : line.shares) draft.mention(share.vehicle);
  if (line.kind == "stock") {
    const Quantity pieces = line.pieces_used(back.quantity);
    expect_on_shelf(recording.book(), event, line.stock, pieces, draft.day());
    const ShelfMove move{"back", "", line.number, Quantity{} - pieces, {}, {}, back.quantity};
    const ShelfChange change = change_of_shelf(recording.book(), event, line.stock, draft.day(), move);
    post_to_shelf(draft, line.stock, move, change);
    draft.post(account::overhead, "", -change.amount - refund);
  } else if (line.kind == "tool" && line.shares.empty()) {
    post_tool(draft, recording, event, line, back);
  } else {
    post_to_line(draft, line, -refund, purpose_of(line), said_of(line, back), Quantity{} - back.quantity);
  }
  const Money tax = std::max(full_refund(line, back.quantity).tax, Money{});
  draft.detail("given_back", {line.number, std::string("goods"), back.quantity.thousandths(),
                              back.goods.minor(), std::min(back.tax, tax).minor(), back.restocking.minor()});
}

}  // namespace

Money post_goods_back(Draft& draft, Recording& recording, const std::string& event, const GoodsBack& back) {
  const Line line = expect_line(recording.book(), event, back.line);
  check(recording, event, line, back, Money::of_minor(1));
  post_goods(draft, recording, event, line, back);
  return refund_of(back);
}

EntryId record(Recording& recording, const GoodsBack& back) {
  const Line line = expect_line(recording.book(), "return", back.line);
  check(recording, "return", line, back, Money{});
  const Money deposit = back.core.value_or(Money{});
  const Quantity cores = full_refund(line, back.quantity).cores;
  if (back.core && cores == Quantity{})
    throw Refusal(fmt::format("return: a deposit of {} for line {} (\"{}\"), of which no core is still out",
                              deposit.plain(recording.currency()), back.line, line.what));
  const Money refund = refund_of(back) + deposit;
  const MoneyBack money = money_back(recording.book(), "return", line, refund, back.purse, back.on_account);
  Draft draft(recording, "return", back.day);
  GoodsBack kept = back;
  keep(money, kept.on_account, kept.purse);
  write(draft, recording.currency(), kept);
  post(draft, recording, "return", line, money);
  post_goods(draft, recording, "return", line, back);
  if (back.core) post_core_back(draft, recording, "return", back.line, cores, deposit);
  return draft.record();
}

}  // namespace nonrunner::book
