#include "book/events/pay.h"

#include <fmt/format.h>

#include "book/ledger/checks.h"
#include "exact/ends.h"
#include "exact/nearest.h"

namespace nonrunner::book {

Pay read_pay(const Table& table, const Currency& currency, bool sales_tax) {
  if (sales_tax)
    table.only({"do", "date", "amount", "purse"});
  else
    table.only({"do", "date", "supplier", "amount", "purse"});
  return {table.day("date"), sales_tax ? "" : table.text("supplier"), table.money("amount", currency),
          table.text("purse")};
}

EntryId record(Recording& recording, const Pay& pay) {
  const Book& book = recording.book();
  const bool tax = pay.supplier.empty();
  const std::string name = tax ? "sales tax paid" : "pay";
  expect_positive(recording, name, "the amount", pay.amount);
  const char* kind = tax ? account::sales_tax : account::payable;
  const Money owed = -balance_of(book, kind, pay.supplier).amount;
  if (pay.amount > owed)
    throw Refusal(fmt::format(
        "{}: {}, but {} is owed{}{}", name, pay.amount.plain(recording.currency()),
        owed.plain(recording.currency()), tax ? "" : " to \"" + pay.supplier + "\"",
        tax || !is_zero(owed) ? "" : did_you_mean(pay.supplier, names_of(book, account::payable))));
  meet_purse(recording, name, pay.purse);
  Draft draft(recording, name, pay.day);
  draft.event.text("supplier", pay.supplier).money("amount", pay.amount).text("purse", pay.purse);
  draft.post(kind, pay.supplier, pay.amount);
  draft.post(account::purse, pay.purse, -pay.amount);
  return draft.record();
}

}  // namespace nonrunner::book
