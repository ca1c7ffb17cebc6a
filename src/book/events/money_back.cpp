#include "book/events/money_back.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/ledger/names.h"
#include "book/ledger/query.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace {

bool was_on_account(const Entry& paper) {
  return std::any_of(paper.postings.begin(), paper.postings.end(), [](const Posting& posting) {
    return posting.kind == account::payable && is_negative(posting.amount);
  });
}

// The purse that paid the paper; of one that was on account, the purse that last paid the supplier.
std::string purse_that_paid(const Book& book, const Entry& paper, const std::string& supplier) {
  for (const Posting& posting : paper.postings)
    if (posting.kind == account::purse) return posting.name;
  return first<std::string>(
             book,
             "SELECT a.name FROM account s JOIN posting o USING (account) JOIN live_entry e USING (entry) "
             "JOIN "
             "posting p ON p.entry = e.entry JOIN account a ON a.account = p.account WHERE s.kind = "
             "'payable' "
             "AND s.name = :supplier AND e.kind = 'pay' AND a.kind = 'purse' ORDER BY e.entry DESC LIMIT 1",
             {{":supplier", supplier}})
      .value_or("");
}

}  // namespace

MoneyBack money_back(const Book& book, const std::string& event, const Line& line, Money amount,
                     const std::string& purse, std::optional<Money> on_account) {
  const Currency& currency = book.currency();
  const Entry paper = load_entry(book, line.entry);
  const Money owed = -balance_of(book, account::payable, line.supplier).amount;
  const Money most = std::clamp(owed, Money{}, std::max(amount, Money{}));
  MoneyBack back{on_account.value_or(purse.empty() && was_on_account(paper) ? most : Money{}), {}, purse};
  if (is_negative(back.on_account) || back.on_account > most)
    throw Refusal(
        fmt::format("{}: {} off what is owed to \"{}\", expected 0 to {}, as {} comes back and {} is owed",
                    event, back.on_account.plain(currency), line.supplier, most.plain(currency),
                    amount.plain(currency), owed.plain(currency)));
  back.into_purse = amount - back.on_account;
  if (is_zero(back.into_purse) || !purse.empty()) return back;
  back.purse = purse_that_paid(book, paper, line.supplier);
  if (back.purse.empty())
    throw Refusal(fmt::format("{}: {} comes back and no purse took it; say the purse", event,
                              back.into_purse.plain(currency)));
  return back;
}

void keep(const MoneyBack& back, std::optional<Money>& on_account, std::string& purse) {
  on_account.reset();
  if (!is_zero(back.on_account)) on_account = back.on_account;
  purse = back.purse;
}

void post(Draft& draft, Recording& recording, const std::string& event, const Line& line,
          const MoneyBack& back) {
  draft.post(account::payable, line.supplier, back.on_account);
  if (is_zero(back.into_purse)) return;
  meet_purse(recording, event, back.purse);
  draft.post(account::purse, back.purse, back.into_purse);
}

std::string in_words(const MoneyBack& back, const Line& line, const Currency& currency) {
  const std::string off = back.on_account.shown(currency) + " off what is owed to " + line.supplier;
  const std::string into = back.into_purse.shown(currency) + " into " + back.purse;
  if (is_zero(back.on_account)) return back.purse.empty() ? back.into_purse.shown(currency) : into;
  return is_zero(back.into_purse) ? off : off + ", " + into;
}

}  // namespace nonrunner::book
