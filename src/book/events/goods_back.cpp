#include "book/events/goods_back.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "book/events/core_back.h"
#include "book/events/fields.h"
#include "book/events/shelf.h"
#include "book/ledger/checks.h"
#include "book/ledger/moved.h"
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
  f.text({"from",
          "the car that it comes off: of a tool where the book does not know it, of a part where pieces were "
          "moved",
          Need::may},
         Text::tag, back.from);
  f.money({"on_account",
           "what of it lowers what is owed to the supplier (else off what is owed where the paper "
           "was on account)",
           Need::may},
          back.on_account);
  f.text({"purse", "where the rest went (else the purse that paid)", Need::may}, Text::purse, back.purse);
  f.quantity({"cores", "of how many pieces the core comes along (else as many as are out)", Need::may},
             back.cores, Quantity{});
  f.money({"deposit", "what of the line's deposit they carry, where it does not part evenly (else reckoned)",
           Need::may},
          back.deposit);
  f.rows<OutOf>(
      {"out_of", "what comes out of the cars that it was charged or moved to (else reckoned)", Need::may},
      "{ vehicle, amount } in out_of", back.out_of,
      [](std::size_t at) { return "car " + std::to_string(at) + " of out_of"; });
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

// What may be given back for the pieces. A book that is restored is taken as it was: an older version gave back up to
// all that the line had cost before the discount, and was left of it.
Refund most_given_back(const Recording& recording, const Line& line, Quantity pieces, Money over) {
  const Refund full = full_refund(line, pieces);
  Refund most{std::max(full.goods, Money{}), std::max(full.tax, Money{}), full.cores};
  if (!is_zero(most.tax)) most.tax += over;
  if (is_entered_now(recording)) return most;
  const auto [goods, tax] = *first<Money, Money>(
      recording.book(),
      "SELECT coalesce(sum(g.goods), 0), coalesce(sum(g.tax), 0) FROM given_back g JOIN live_entry USING "
      "(entry) WHERE g.line = :line AND g.what = 'goods'",
      {{":line", line.number}});
  most.goods = std::max(most.goods, line.amount - goods);
  most.tax = std::max(most.tax, line.tax - line.core_tax - tax);
  return most;
}

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
  const Refund most = most_given_back(recording, line, back.quantity, over);
  if (is_negative(back.goods) || back.goods > most.goods)
    throw Refusal(fmt::format("{}: {} for the goods of {}, expected 0 to {}", event,
                              back.goods.plain(currency), named, most.goods.plain(currency)));
  if (is_negative(back.tax) || back.tax > most.tax)
    throw Refusal(fmt::format("{}: {} of tax for {}, expected 0 to {}", event, back.tax.plain(currency),
                              named, most.tax.plain(currency)));
  if (is_negative(back.restocking) || back.restocking > back.goods + back.tax)
    throw Refusal(fmt::format("{}: a restocking fee of {} for {}, expected 0 to {}, what comes back", event,
                              back.restocking.plain(currency), named,
                              (back.goods + back.tax).plain(currency)));
}

Money refund_of(const GoodsBack& back) { return back.goods + back.tax - back.restocking; }
std::string said_of(const Line& line, const GoodsBack& back) {
  return line.what + " went back" + (is_zero(back.restocking) ? "" : ", restocking kept");
}

bool is_a_tool(const Line& line) { return line.kind == "tool" && line.shares.empty(); }

// What may come out of the cars that the line was charged or moved to, car by car.
std::map<std::string, Money> may_come_out(const Book& book, const Line& line, Money refund, Day day) {
  auto charged = charged_to(book, line, day);
  // A part of one piece stands in one car: of what it was charged to those that it has left since nothing comes.
  const auto holder = line.shares.empty() ? std::nullopt : holder_of(book, line.number, day);
  if (!is_a_tool(line) && !is_of_several(line)) {
    std::erase_if(charged, [&](const auto& each) { return holder != each.first; });
    // It stands there whole, whatever it left the car for before.
    for (auto& [vehicle, amount] : charged)
      amount = std::max(amount, std::min(refund, moved_into(book, line, vehicle, day)));
  }
  // What came home is among the pieces that were not moved (at_first below).
  if (is_of_several(line))
    for (const Share& share : line.shares) charged.erase(share.vehicle);
  return charged;
}

// What comes out of which car, as it is said or reckoned. What is reckoned is stored with the event, so that what is
// typed later for an earlier day changes nothing of it; where a car is named its name is.
std::vector<OutOf> parts_out_of(const Recording& recording, const std::string& event, const Line& line,
                                const GoodsBack& back, Day day) {
  const Money refund = refund_of(back);
  if (!back.from.empty() && is_a_tool(line)) {  // a part stands where the book says
    know_vehicle(recording.book(), event, back.from);
    return {{back.from, refund}};
  }
  auto charged = may_come_out(recording.book(), line, refund, day);
  std::vector<OutOf> parts;
  Money left = refund;
  const Book& book = recording.book();
  const auto at_first = [&] {
    return std::min(stands_at_first(book, line, day), stands_at_first(book, line, {}));
  };
  if (!back.from.empty() && !line.shares.empty()) {
    if (recording.wary) know_vehicle(book, event, back.from);
    const bool own = std::any_of(line.shares.begin(), line.shares.end(),
                                 [&](const Share& share) { return share.vehicle == back.from; });
    if (own && line.shares.size() > 1 && recording.wary)
      throw Refusal(fmt::format(
          "{}: {} alone for line {} (\"{}\"), which {} cars share; expected no car: what goes back "
          "comes off all of them by their shares",
          event, back.from, back.line, line.what, line.shares.size()));
    const auto moved_there = charged.find(back.from);
    const Money most = own ? at_first() : moved_there == charged.end() ? Money{} : moved_there->second;
    if (refund <= most) return own || is_zero(refund) ? parts : std::vector<OutOf>{{back.from, refund}};
    if (recording.wary)  // a book that is restored is taken as it was
      throw Refusal(
          fmt::format("{}: {} of line {} (\"{}\") out of {}, expected at most {}, which stands there", event,
                      refund.plain(recording.currency()), back.line, line.what, back.from,
                      most.plain(recording.currency())));
  }
  if (back.out_of.empty()) {
    // Of several pieces those that were not moved go back first; a single one is where it was moved to.
    if (!charged.empty() && !is_a_tool(line) && is_of_several(line)) left -= std::min(left, at_first());
    for (const auto& [vehicle, amount] : charged)
      if (left > Money{}) {
        parts.push_back({vehicle, std::min(amount, left)});
        left -= parts.back().amount;
      }
    return parts;
  }
  for (const auto& [vehicle, amount] : back.out_of) {
    const Money most = std::min(charged[vehicle], left);
    // A book that is restored is taken as it was.
    if ((recording.wary || is_a_tool(line)) && (amount <= Money{} || amount > most))
      throw Refusal(fmt::format(
          "{}: {} of line {} (\"{}\") out of {}, expected more than 0 and at most {}, which it is charged",
          event, amount.plain(recording.currency()), back.line, line.what, vehicle,
          most.plain(recording.currency())));
    charged[vehicle] -= amount;
    left -= amount;
  }
  return back.out_of;
}

// Out of the cars that it was charged or moved to, as far as it was. Gives what is left of the refund.
Money take_out_of_cars(Draft& draft, const Line& line, const GoodsBack& back,
                       const std::vector<OutOf>& parts) {
  Money left = refund_of(back);
  for (const auto& [vehicle, amount] : parts) {
    draft.mention(vehicle);
    draft.post(account::vehicle_cost, vehicle, -amount);
    draft.purpose({vehicle, "other cost", said_of(line, back), line.number, {}, amount, {}});
    draft.detail("charged", {line.number, vehicle, (-amount).minor()});
    left -= amount;
  }
  return left;
}

// The rest of a tool's comes out of the tools.
void post_tools(Draft& draft, const Recording& recording, const std::string& event, const Line& line,
                Money left) {
  const Money held =
      balance_of(recording.book(), account::tools, line.tools_kept ? account::tools_kept : "").amount;
  if (left > std::max(held, Money{}))
    throw Refusal(fmt::format(
        "{}: {} for line {} (\"{}\"), but the tools hold {} of their cost; say by \"from\" which car it was "
        "charged to",
        event, left.plain(recording.currency()), line.id, line.what, held.plain(recording.currency())));
  draft.post(account::tools, line.tools_kept ? account::tools_kept : "", -left);
}

// The books' side: off the accounts that carry the line; `parts`: out of the cars.
void post_goods(Draft& draft, Recording& recording, const std::string& event, const Line& line,
                const GoodsBack& back, const std::vector<OutOf>& parts) {
  const Money refund = refund_of(back);
  for (const Share& share : line.shares) draft.mention(share.vehicle);
  if (line.kind == "stock") {
    const Quantity pieces = line.pieces_used(back.quantity);
    expect_on_shelf(recording.book(), event, line.stock, pieces, draft.day());
    const ShelfMove move{"back", "", line.number, Quantity{} - pieces, {}, {}, back.quantity};
    const ShelfChange change = change_of_shelf(recording.book(), event, line.stock, draft.day(), move);
    post_to_shelf(draft, line.stock, move, change);
    draft.post(account::overhead, "", -change.amount - refund);
  } else {
    const Money left = take_out_of_cars(draft, line, back, parts);
    if (!is_a_tool(line))
      post_to_line(draft, line, -left, purpose_of(line), said_of(line, back), Quantity{} - back.quantity);
    else if (back.from.empty())
      post_tools(draft, recording, event, line, left);
  }
  const Money tax = std::max(full_refund(line, back.quantity).tax, Money{});
  draft.detail("given_back", {line.number, std::string("goods"), back.quantity.thousandths(),
                              back.goods.minor(), std::min(back.tax, tax).minor(), back.restocking.minor()});
}

}  // namespace

std::vector<OutOf> post_goods_back(Draft& draft, Recording& recording, const std::string& event,
                                   const GoodsBack& given) {
  const Line line = expect_line(recording.book(), event, given.line);
  check(recording, event, line, given, Money::of_minor(1));
  GoodsBack back = given;
  std::vector<OutOf> parts;
  if (line.kind != "stock") parts = parts_out_of(recording, event, line, given, draft.day());
  // A tool out of a car that the book does not know of: its words stay, as `decided` leaves them.
  if (line.kind != "stock" && (given.from.empty() || !is_a_tool(line))) {
    back.out_of = parts;
    if (!parts.empty()) back.from.clear();
  }
  post_goods(draft, recording, event, line, back, parts);
  return back.out_of;
}

namespace {
// What of the core is decided with the event and stored in it, so that another order of typing gives the same.
GoodsBack decided(const Line& line, GoodsBack back) {
  const Quantity out = full_refund(line, back.quantity).cores;
  if (back.core && back.cores > out)
    throw Refusal(fmt::format("return: the core of {} of line {} (\"{}\") comes along, expected at most {}",
                              back.cores.shown(), back.line, line.what, out.shown()));
  const Quantity cores = back.cores > Quantity{} ? back.cores : out;
  back.deposit = back.core ? deposit_decided(line, cores, back.deposit) : std::nullopt;
  back.cores = back.core && cores != back.quantity ? cores : Quantity{};
  return back;
}
}  // namespace

EntryId record(Recording& recording, const GoodsBack& given) {
  const Line line = expect_line(recording.book(), "return", given.line);
  check(recording, "return", line, given, Money{});
  const Money deposit = given.core.value_or(Money{});
  if (given.core && full_refund(line, given.quantity).cores == Quantity{})
    throw Refusal(fmt::format("return: a deposit of {} for line {} (\"{}\"), of which no core is still out",
                              deposit.plain(recording.currency()), given.line, line.what));
  const Money refund = refund_of(given) + deposit;
  const MoneyBack money = money_back(recording.book(), "return", line, refund, given.purse, given.on_account);
  GoodsBack kept = decided(line, given);
  std::vector<OutOf> parts;
  if (line.kind != "stock" || kept.from.empty())
    parts = parts_out_of(recording, "return", line, kept, open_day(recording.book(), kept.day));
  if (kept.from.empty()) kept.out_of = parts;
  Draft draft(recording, "return", kept.day);
  keep(money, kept.on_account, kept.purse);
  write(draft, recording.currency(), kept);
  post(draft, recording, "return", line, money);
  post_goods(draft, recording, "return", line, kept, parts);
  if (kept.core) {
    const Quantity cores = kept.cores > Quantity{} ? kept.cores : kept.quantity;
    post_core_back(draft, recording, "return", {kept.line, cores, deposit, kept.deposit});
  }
  return draft.record();
}

}  // namespace nonrunner::book
