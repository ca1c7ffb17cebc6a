// Reading a receipt from its table in a file; the rules of the book are in receipt.cpp.
#include <fmt/format.h>

#include <algorithm>

#include "book/events/receipt.h"
#include "book/ledger/marks.h"
#include "exact/ends.h"
#include "exact/nearest.h"

namespace nonrunner::book {

namespace {

const std::vector<std::string> kinds = {"part",  "consumable", "sublet",   "fee",
                                        "stock", "tool",       "overhead", "private"};

void read_place_of_cost(const Table& table, ReceiptLine& line) {
  if (table.has("to") && table.has("share"))
    table.refuse_whole(table.name() + " has both \"to\" and \"share\", expected one of them", "share");
  const std::string to = table.text_or("to", "");
  // The shop's own accounts may be named where the kind says the same.
  const bool own = (to == "tools" && line.kind == "tool") || (to == "owner" && line.kind == "private") ||
                   (to == "overhead" && line.kind == "overhead") || (to == "stock" && line.kind == "stock");
  if (!to.empty() && !own) line.shares.push_back({to, 1000});
  if (const auto share = table.table("share", "share in " + table.name())) {
    for (const auto& [vehicle, weight] : share->value().entries) {
      const Quantity parsed = share->quantity(vehicle);
      if (parsed <= Quantity{}) share->refuse(vehicle, "a weight above 0");
      line.shares.push_back({vehicle, parsed.thousandths()});
    }
    if (line.shares.empty()) table.refuse("share", "at least one car with its weight, such as { pip = 1 }");
  }
}

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

ReceiptLine read_line(const Table& table, const Currency& currency) {
  table.only({"id", "what", "qty", "unit", "amount", "kind", "source", "to", "share", "stock", "gives",
              "core", "core_by", "taxed", "tax_on_core", "core_of", "return_of", "for", "more"});
  ReceiptLine line;
  line.place = table.place();
  line.id = table.text_or("id", "");
  line.what = table.text("what");
  if (table.has("qty")) line.quantity = table.quantity("qty");
  if (table.has("unit")) line.unit = table.price("unit", currency);
  if (table.has("amount")) line.amount = table.money("amount", currency);
  line.core_of = table.text_or("core_of", "");
  line.return_of = table.text_or("return_of", "");
  if (!line.core_of.empty() && !line.return_of.empty())
    table.refuse_whole(table.name() + " has both \"core_of\" and \"return_of\", expected one of them",
                       "return_of");
  for (const char* other :
       {"id", "kind", "source", "to", "share", "stock", "gives", "core", "core_by", "tax_on_core"})
    if (!line.return_of.empty() && table.has(other))
      table.refuse_whole(
          fmt::format("{} gives back an earlier line, expected beside \"return_of\" only what, "
                      "qty, unit or amount, and taxed; found \"{}\"",
                      table.name(), other),
          other);
  const bool back = !line.core_of.empty() || !line.return_of.empty();
  line.kind = !back || table.has("kind") ? table.text("kind") : "part";
  if (std::find(kinds.begin(), kinds.end(), line.kind) == kinds.end())
    table.refuse("kind", "part, consumable, sublet, fee, stock, tool, overhead or private" +
                             did_you_mean(line.kind, kinds));
  line.source = table.text_or("source", "");
  if (!line.source.empty() && line.source != "new" && line.source != "salvage" && line.source != "reman")
    table.refuse("source", "new, salvage or reman" + did_you_mean(line.source, {"new", "salvage", "reman"}));
  read_place_of_cost(table, line);
  read_under(table, line);
  line.more = table.flag_or("more", false);
  line.stock = table.text_or("stock", "");
  if (table.has("gives")) line.gives = table.quantity("gives");
  line.core = table.money_or("core", currency, Money{});
  line.core_by = table.day_if("core_by");
  line.taxed = table.flag_or("taxed", false);
  line.tax_on_core = table.flag_or("tax_on_core", false);
  return line;
}

}  // namespace

Receipt read_receipt(const Table& table, const Currency& currency) {
  table.only({"do", "date", "supplier", "number", "paid", "tax", "shipping", "discount", "total", "line",
              "back_by", "replaces", "later", "on_account", "again", "itemised", "paper", "tools"});
  Receipt receipt;
  receipt.day = table.day("date");
  receipt.on_paper = table.flag_or("paper", true);
  receipt.itemised = table.flag_or("itemised", true);
  receipt.supplier =
      receipt.on_paper && receipt.itemised ? table.text("supplier") : table.text_or("supplier", "");
  receipt.number = table.text_or("number", "");
  receipt.tax = table.money_or("tax", currency, Money{});
  receipt.shipping = table.money_or("shipping", currency, Money{});
  receipt.discount = table.money_or("discount", currency, Money{});
  receipt.total = table.money("total", currency);
  receipt.back_by = table.day_if("back_by");
  receipt.on_account = table.flag_or("on_account", false);
  receipt.tools = table.text_or("tools", "");
  if (!receipt.tools.empty() && receipt.tools != "asset" && receipt.tools != "expense")
    table.refuse("tools", "asset or expense" + did_you_mean(receipt.tools, {"asset", "expense"}));
  receipt.later = table.flag_or("later", false);
  receipt.again = table.flag_or("again", false);
  if (table.has("replaces")) receipt.replaces = table.whole("replaces", 1, 2'000'000'000);
  if (const Value* paid = table.find("paid")) {
    if (paid->kind == Value::Kind::text) {  // one purse paid all of it
      receipt.paid.emplace_back(table.text("paid"), receipt.total);
    } else {
      const auto purses = table.table("paid", "paid in " + table.name());
      for (const auto& [purse, amount] : purses->value().entries)
        receipt.paid.emplace_back(purse, purses->money(purse, currency));
    }
  } else if (!receipt.on_account && !is_zero(receipt.total)) {  // an even exchange moves no money
    table.refuse("paid", "what each purse paid, such as { cash = 27.16 }, or on_account = true");
  }
  int number = 0;
  for (Table& each : table.tables("line", "[[line]]")) {
    each.rename("line " + std::to_string(++number) + " of the receipt");
    receipt.lines.push_back(read_line(each, currency));
  }
  return receipt;
}

}  // namespace nonrunner::book
