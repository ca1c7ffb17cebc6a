#include "book/events/goods_back.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/fields.h"
#include "book/events/shelf.h"
#include "book/ledger/checks.h"
#include "exact/ends.h"
#include "exact/spread.h"

namespace nonrunner::book {

void fields(GoodsBack& back, Fields& f) {
  f.day({"date", "the day of it"}, back.day);
  f.text({"line", "the line that it was bought with"}, Text::line, back.line);
  f.quantity({"qty", "how many pieces (else 1)", Need::kept}, back.quantity, Quantity::of(1000));
  f.money({"goods", "the price given back, before tax"}, back.goods);
  f.money({"tax", "the tax given back (else none)", Need::kept}, back.tax);
  f.money({"restocking", "what the shop kept (else nothing)", Need::kept}, back.restocking);
  f.money({"on_account",
           "what of it lowers what is owed to the supplier (else off what is owed where the paper "
           "was on account)",
           Need::may},
          back.on_account);
  f.text({"purse", "where the rest went (else the purse that paid)", Need::may}, Text::purse, back.purse);
}

Refund full_refund(const Line& line, Quantity quantity) {
  const std::int64_t all = line.quantity.thousandths(), before = line.goods_back.thousandths();
  const Money tax = line.tax - line.core_tax;
  // The last return takes the rest, whatever the earlier ones took.
  if (before + quantity.thousandths() >= all)
    return {line.amount - line.goods_back_amount, tax - line.goods_back_tax};
  return {step_share(line.amount, all, before, quantity.thousandths()),
          step_share(tax, all, before, quantity.thousandths())};
}

namespace {

void check(const Recording& recording, const std::string& event, const Line& line, const GoodsBack& back,
           Money tax_left) {
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
  const Money goods_left = std::max(line.amount - line.goods_back_amount, Money{});
  if (is_negative(back.goods) || back.goods > goods_left)
    throw Refusal(fmt::format("{}: {} for the goods of {}, expected 0 to {}", event,
                              back.goods.plain(currency), named, goods_left.plain(currency)));
  if (is_negative(back.tax) || back.tax > tax_left)
    throw Refusal(fmt::format("{}: {} of tax for {}, expected 0 to {}", event, back.tax.plain(currency),
                              named, tax_left.plain(currency)));
  if (is_negative(back.restocking) || back.restocking > back.goods + back.tax)
    throw Refusal(fmt::format("{}: a restocking fee of {} for {}, expected 0 to {}, what comes back", event,
                              back.restocking.plain(currency), named,
                              (back.goods + back.tax).plain(currency)));
}

// The books' side: off the accounts that carry the line.
void post_goods(Draft& draft, Recording& recording, const std::string& event, const Line& line,
                const GoodsBack& back, Money tax_left) {
  const Money refund = back.goods + back.tax - back.restocking;
  for (const Share& share : line.shares) draft.mention(share.vehicle);
  if (line.kind == "stock") {
    const Quantity pieces = Quantity::of(
        scaled(back.quantity.thousandths(), line.gives.thousandths(), 1000, Rounding::half_away));
    const Money value = value_off_shelf(recording.book(), event, line.stock, pieces);
    draft.post(account::stock, line.stock, -value, Quantity{} - pieces);
    draft.post(account::overhead, "", value - refund);
  } else {
    post_to_line(draft, recording.book(), line, -refund);
  }
  draft.detail("given_back",
               {line.number, std::string("goods"), back.quantity.thousandths(), back.goods.minor(),
                std::min(back.tax, tax_left).minor(), back.restocking.minor()});
}

Money tax_left_of(const Line& line) {
  return std::max(line.tax - line.core_tax - line.goods_back_tax, Money{});
}

}  // namespace

Money post_goods_back(Draft& draft, Recording& recording, const std::string& event, const GoodsBack& back) {
  const Line line = expect_line(recording.book(), event, back.line);
  const Money left = tax_left_of(line), cent = Money::of_minor(1);
  check(recording, event, line, back, is_zero(left) ? left : left + cent);
  post_goods(draft, recording, event, line, back, left);
  return back.goods + back.tax - back.restocking;
}

EntryId record(Recording& recording, const GoodsBack& back) {
  const Line line = expect_line(recording.book(), "return", back.line);
  const Money tax_left = tax_left_of(line);
  check(recording, "return", line, back, tax_left);
  const Money refund = back.goods + back.tax - back.restocking;
  const MoneyBack money = money_back(recording.book(), "return", line, refund, back.purse, back.on_account);
  Draft draft(recording, "return", back.day);
  GoodsBack kept = back;
  keep(money, kept.on_account, kept.purse);
  write(draft, recording.currency(), kept);
  post(draft, recording, "return", line, money);
  post_goods(draft, recording, "return", line, back, tax_left);
  return draft.record();
}

}  // namespace nonrunner::book
