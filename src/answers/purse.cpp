#include "answers/purse.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "book/ledger/entry.h"
#include "book/ledger/names.h"
#include "book/ledger/query.h"
#include "book/ledger/settings.h"

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

std::optional<std::string> purse_of_deposit(const book::Book& book, const std::string& tool) {
  return book::first<std::string>(
      book,
      "SELECT a.name FROM account t JOIN posting d ON d.account = t.account JOIN live_entry e ON e.entry = "
      "d.entry "
      "JOIN posting p ON p.entry = e.entry JOIN account a ON a.account = p.account WHERE t.kind = :deposit "
      "AND "
      "t.name = :tool AND d.amount > 0 AND a.kind = :purse ORDER BY e.day DESC, e.entry DESC LIMIT 1",
      {{":deposit", book::account::tool_deposit}, {":tool", tool}, {":purse", book::account::purse}});
}

Question which_purse(const book::Book& book, const std::string& event) {
  Question question{event, "which purse does the money go through", {}, {}};
  int number = 0;
  for (const std::string& purse : book::names_of(book, book::account::purse))
    question.choices.push_back({std::to_string(++number), purse, "purse", purse});
  return question;
}

MovedThrough through_purses(const book::Book& book, std::int64_t entry) {
  MovedThrough through;
  // In the order in which the entry names them.
  book::each<std::string, Money>(
      book,
      "SELECT a.name, sum(p.amount) FROM posting p JOIN account a USING (account) WHERE p.entry = :entry AND "
      "a.kind = :purse GROUP BY p.account ORDER BY min(p.seq)",
      {{":entry", entry}, {":purse", book::account::purse}}, [&](const std::string& purse, Money amount) {
        through.moved.push_back({purse, amount});
      });
  through.in_several = through.moved.size() > 1;
  std::erase_if(through.moved, [](const Moved& each) { return is_zero(each.amount); });
  return through;
}

std::vector<Moved> overdrawn(const book::Book& book, std::int64_t entry) {
  std::vector<Moved> all;
  // In the order in which the entry names them.
  book::each<std::string, Money>(
      book,
      "SELECT a.name, b.amount FROM posting p JOIN account a USING (account) JOIN balance b USING (account) "
      "WHERE p.entry = :entry AND a.kind = :purse AND b.amount < 0 GROUP BY p.account "
      "HAVING sum(p.amount) < 0 ORDER BY min(p.seq)",
      {{":entry", entry}, {":purse", book::account::purse}}, [&](const std::string& purse, Money left) {
        all.push_back({purse, left});
      });
  std::erase_if(all, [&](const Moved& each) { return book::purse_kind(book, each.purse) == "liability"; });
  return all;
}

}  // namespace nonrunner::answers
