#include "answers/purse.h"

#include <fmt/format.h>

#include <utility>
#include <vector>

#include "book/ledger/entry.h"
#include "book/ledger/names.h"
#include "book/ledger/query.h"

namespace nonrunner::answers {

std::optional<std::string> only_purse(const book::Book& book) {
  const auto purses = book::names_of(book, book::account::purse);
  if (purses.empty()) return "cash";
  return purses.size() == 1 ? std::optional(purses.front()) : std::nullopt;
}

std::optional<std::string> last_purse(const book::Book& book, const std::string& event,
                                      const std::string& supplier) {
  if (!supplier.empty())
    if (auto name = book::first<std::string>(
            book,
            "SELECT a.name FROM paper r JOIN live_entry e USING (entry) JOIN posting p ON p.entry = e.entry "
            "JOIN "
            "account a ON a.account = p.account WHERE r.supplier = :supplier AND a.kind = 'purse' ORDER BY "
            "e.entry DESC, p.seq LIMIT 1",
            {{":supplier", supplier}}))
      return name;
  return book::first<std::string>(
      book,
      "SELECT a.name FROM live_entry e JOIN posting p ON p.entry = e.entry JOIN account a ON a.account = "
      "p.account WHERE e.kind = :event AND a.kind = 'purse' ORDER BY e.entry DESC, p.seq LIMIT 1",
      {{":event", event}});
}

Question which_purse(const book::Book& book, const std::string& event) {
  Question question{event, "which purse does the money go through", {}, {}};
  int number = 0;
  for (const std::string& purse : book::names_of(book, book::account::purse))
    question.choices.push_back({std::to_string(++number), purse, "purse", purse});
  return question;
}

std::string through_purses(const book::Book& book, std::int64_t entry) {
  if (entry == 0) return "";
  std::vector<std::pair<std::string, Money>> moved;
  for (const book::Posting& posting : book::load_entry(book, entry).postings) {
    if (posting.kind != book::account::purse) continue;
    bool there = false;
    for (auto& [name, amount] : moved)
      if (name == posting.name) {
        amount += posting.amount;
        there = true;
      }
    if (!there) moved.emplace_back(posting.name, posting.amount);
  }
  std::string text;
  for (const auto& [name, amount] : moved) {
    if (is_zero(amount)) continue;
    const bool out = is_negative(amount);
    const std::string much = moved.size() == 1 ? "" : (out ? -amount : amount).shown(book.currency()) + " ";
    text += (text.empty() ? "" : ", ") + much + (out ? "from " : "into ") + name;
  }
  return text;
}

}  // namespace nonrunner::answers
