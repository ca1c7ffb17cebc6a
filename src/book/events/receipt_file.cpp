// The fields of a receipt and of its lines; the rules of the book are in receipt.cpp.
#include <fmt/format.h>

#include <algorithm>

#include "book/events/fields.h"
#include "book/events/receipt.h"
#include "book/ledger/marks.h"

namespace nonrunner::book {

const std::vector<std::string>& line_kinds() {
  static const std::vector<std::string> kinds = {"part",  "consumable", "sublet",   "fee",
                                                 "stock", "tool",       "overhead", "private"};
  return kinds;
}

const std::vector<std::string>& line_sources() {
  static const std::vector<std::string> sources = {"new", "salvage", "reman"};
  return sources;
}

namespace {

// `for` names a line of the budget; of a line shared by cars one for each.
void read_under(const Table& table, ReceiptLine& line) {
  const Value* under = table.find("for");
  if (!under) return;
  const auto name = [](const std::string& text) { return text == under_none ? std::string() : text; };
  if (under->kind == Value::Kind::table) {
    const auto each = table.table("for", "for in " + table.name());
    for (const auto& entry : each->value().entries) {
      const std::string& vehicle = entry.first;
      if (std::none_of(line.shares.begin(), line.shares.end(),
                       [&](const Share& share) { return share.vehicle == vehicle; }))
        each->refuse_whole(fmt::format("{} names {}, which is no car of this line", each->name(), vehicle),
                           vehicle);
      line.under[vehicle] = name(each->text(vehicle));
    }
  } else {
    const std::string text = table.text("for");
    if (line.shares.size() != 1)
      table.refuse("for", "a line of the budget for each car, such as { pip = \"fees\" }");
    line.under[line.shares.front().vehicle] = name(text);
  }
}

void write_under(EventText& event, const ReceiptLine& line) {
  const auto name = [](const std::string& text) { return text.empty() ? std::string(under_none) : text; };
  if (line.under.empty()) return;
  if (line.under.size() == 1 && line.shares.size() == 1) {
    event.text("for", name(line.under.begin()->second));
    return;
  }
  EventText under(Currency{});
  for (const auto& [vehicle, said] : line.under) under.text(vehicle, name(said));
  event.table("for", under);
}

// What goes back says which line it was bought with, and then little else.
void check_what_goes_back(const Table& table, const ReceiptLine& line) {
  if (table.has("core_of") && table.has("return_of"))
    table.refuse_whole(table.name() + " has both \"core_of\" and \"return_of\", expected one of them",
                       "return_of");
  if (!table.has("return_of")) return;
  for (const Described& other : described(line))
    if (table.has(other.key) && other.key != "return_of" && other.key != "what" && other.key != "qty" &&
        other.key != "unit" && other.key != "amount" && other.key != "taxed" && other.key != "for" &&
        other.key != "more" && other.key != "from" && other.key != "out_of")
      table.refuse_whole(
          fmt::format("{} gives back an earlier line, expected beside \"return_of\" only what, "
                      "qty, unit or amount, taxed, and from; found \"{}\"",
                      table.name(), other.key),
          other.key);
}

// The shop's own accounts may be named where the kind says the same.
std::string own_account(const std::string& kind) {
  return kind == "tool" ? "tools" : kind == "private" ? "owner" : kind;
}

const std::vector<std::string>& tool_words() {
  static const std::vector<std::string> words = {"asset", "expense"};
  return words;
}

}  // namespace

void fields(ReceiptLine& line, Fields& f) {
  bool back = !line.core_of.empty() || !line.return_of.empty();
  f.text({"id", "your own name for the line (else made up)", Need::may}, Text::name, line.id);
  f.text({"what", "what was bought"}, Text::words, line.what);
  f.quantity({"qty", "how many (else 1)", Need::kept}, line.quantity, Quantity::of(1000));
  f.price({"unit", "the price of one, before tax", Need::may}, line.unit);
  f.money(
      {"amount", "or that of all of them, \"3 for 10.00\"; below 0: a coupon, or what goes back", Need::may},
      line.amount);
  f.rule([&](const Table& table) {
    line.place = table.place();
    check_what_goes_back(table, line);
    back = table.has("core_of") || table.has("return_of");
    if (back) line.kind = "part";
  });
  f.text({"kind", "what it is to the shop", back ? Need::may : Need::must, &line_kinds()}, Text::choice,
         line.kind);
  f.text({"source", "where it comes from", Need::may, &line_sources()}, Text::choice, line.source);
  f.shares({"to", "the car that it is for", Need::may}, {"share", "or several, by weight", Need::may},
           line.shares, own_account(line.kind));
  f.text({"stock", "of the kind stock: the shelf that it goes to", Need::may}, Text::item, line.stock);
  f.quantity({"gives", "used units in each piece bought: a box of 100 (else 1)", Need::may}, line.gives,
             Quantity::of(1000));
  f.money({"core", "deposit for each piece, to come back with the old part", Need::may}, line.core);
  f.day({"core_by", "the last day for it", Need::may}, line.core_by);
  f.flag({"taxed", "the paper's tax lies on it too", Need::may}, line.taxed, false);
  f.flag({"tax_on_core", "and on its deposit", Need::may}, line.tax_on_core, false);
  f.text({"core_of", "an old part handed over the counter for the deposit of this line", Need::may},
         Text::line, line.core_of);
  f.money({"deposit", "what of that line's deposit it carries, where it does not part evenly (else reckoned)",
           Need::may},
          line.deposit);
  f.text({"return_of", "goods of this earlier line given back on this paper", Need::may}, Text::line,
         line.return_of);
  f.text({"from", "the car that they come off, where pieces were moved", Need::may}, Text::tag, line.from);
  std::vector<OutOf> parts = line.out_of;
  f.rows<OutOf>(
      {"out_of", "what comes out of the cars that they were charged or moved to (else reckoned)", Need::may},
      "{ vehicle, amount } in out_of", parts,
      [](std::size_t at) { return "car " + std::to_string(at) + " of out_of"; });
  std::erase_if(parts, [](const OutOf& part) { return part.vehicle.empty(); });  // only described
  line.out_of = parts;
  f.flag({"more", "more is to come under its line of the budget", Need::may}, line.more, false);
  f.flag({"unnamed", "kept without a word: its name is to come", Need::may}, line.unnamed, false);
  f.other(
      {"for", "the line of the budget that it stands under, or none; of several cars { TAG = name }",
       Need::may},
      Holds::text, "a name", [&](const Table& table, const Currency&) { read_under(table, line); },
      [&](EventText& event) { write_under(event, line); });
}

void fields(Receipt& receipt, Fields& f) {
  f.day({"date", "the day printed on it"}, receipt.day);
  bool whole = receipt.on_paper && receipt.itemised;
  f.rule(
      [&](const Table& table) { whole = table.flag_or("paper", true) && table.flag_or("itemised", true); });
  f.text({"supplier", "who gave it", whole ? Need::must : Need::may}, Text::supplier, receipt.supplier);
  f.text({"number", "its number, as printed", Need::may}, Text::words, receipt.number);
  std::string all;
  f.purses({"paid", "what each purse paid, or the name of the one that paid all of it", Need::may},
           receipt.paid, all);
  f.money({"tax", "of the whole paper, spread over the taxed lines", Need::may}, receipt.tax);
  f.money({"shipping", "spread over all lines", Need::may}, receipt.shipping);
  f.money({"discount", "spread over all lines", Need::may}, receipt.discount);
  f.money({"total", "as printed: lines + tax + shipping - discount"}, receipt.total);
  f.day({"back_by", "the last day for returns", Need::may}, receipt.back_by);
  EntryId replaces = receipt.replaces.value_or(0);
  f.entry({"replaces", "the quick line whose place it takes", Need::may}, replaces);
  if (replaces != 0) receipt.replaces = replaces;
  f.flag({"later", "what it replaces stays where it stood, in a period that is closed", Need::may},
         receipt.later, false);
  f.flag({"on_account", "what is not paid stays owed to the supplier", Need::may}, receipt.on_account, false);
  f.flag({"again", "it is another one, though it looks like one that is there", Need::may}, receipt.again,
         false);
  f.flag({"itemised", "false: a quick line, which waits for its paper", Need::may}, receipt.itemised, true);
  f.flag({"paper", "false: there was none, and none is waited for", Need::may}, receipt.on_paper, true);
  f.text({"tools", "what its tools are to the shop (else as it has set)", Need::may, &tool_words()},
         Text::choice, receipt.tools);
  f.rule([&](const Table& table) {
    if (!all.empty()) receipt.paid.emplace_back(all, receipt.total);
    // An even exchange moves no money.
    if (!table.has("paid") && !receipt.on_account && !is_zero(receipt.total))
      table.refuse("paid", "what each purse paid, such as { cash = 27.16 }, or on_account = true");
  });
  f.rows<ReceiptLine>({"line", "what stands on it", Need::kept}, "[[line]]", receipt.lines,
                      [](std::size_t at) { return "line " + std::to_string(at) + " of the receipt"; });
}

}  // namespace nonrunner::book
