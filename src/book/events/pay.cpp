#include "book/events/pay.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "exact/ends.h"
#include "exact/nearest.h"

namespace nonrunner::book {

void fields(Pay& pay, Fields& f) {
  f.day({"date", "the day of it"}, pay.day);
  if (!pay.sales_tax) f.text({"supplier", "who is owed it"}, Text::supplier, pay.supplier);
  f.money({"amount", "how much"}, pay.amount);
  f.text({"purse", "the purse that pays"}, Text::purse, pay.purse);
}

EntryId record(Recording& recording, const Pay& pay) {
  const Book& book = recording.book();
  const bool tax = pay.sales_tax;
  const std::string name = tax ? "sales tax paid" : "pay";
  expect_positive(recording, name, "the amount", pay.amount);
  const char* kind = tax ? account::sales_tax : account::payable;
  const Money owed = -balance_of(book, kind, pay.supplier).amount;
  const std::vector<std::string> known = names_of(book, account::payable);
  const bool is_known = std::find(known.begin(), known.end(), pay.supplier) != known.end();
  if (pay.amount > owed)
    throw Refusal(fmt::format("{}: {}, but {} is owed{}{}", name, pay.amount.plain(recording.currency()),
                              owed.plain(recording.currency()), tax ? "" : " to \"" + pay.supplier + "\"",
                              tax || is_known ? "" : did_you_mean(pay.supplier, known)));
  meet_purse(recording, name, pay.purse);
  Draft draft(recording, name, pay.day);
  write(draft, recording.currency(), pay);
  draft.post(kind, pay.supplier, pay.amount);
  draft.post(account::purse, pay.purse, -pay.amount);
  return draft.record();
}

}  // namespace nonrunner::book
