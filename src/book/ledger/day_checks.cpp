#include "book/ledger/day_checks.h"

#include <fmt/format.h>

#include <set>

#include "exact/ends.h"

namespace nonrunner::book {

namespace {

// A kind of account that holds something, how it is called, and by which sign it holds it.
struct Holder {
  const char* kind;
  std::int64_t sign;
  const char* called;  // {} is its name
};
const Holder holders[] = {
    {account::core_deposit, 1, "the deposit on the core of line {}"},
    {account::tool_deposit, 1, "the deposit on \"{}\""},
    {account::buyer_deposit, -1, "the deposit held for {}"},
    {account::payable, -1, "what is owed to \"{}\""},
    {account::sales_tax, -1, "the sales tax that is owed{}"},
    {account::recovered, -1, "what was recovered from {}"},
    {account::vehicle_cost, 1, "what was put into {}"},
};

std::int64_t account_of(const Book& book, const std::string& kind, const std::string& name) {
  auto& find = book.query("SELECT account FROM account WHERE kind = ? AND name = ?");
  find.bind(1, kind);
  find.bind(2, name);
  find.executeStep();
  const std::int64_t account = find.getColumn(0).getInt64();
  find.tryReset();
  return account;
}

// Parts of the car were moved to another car or to the shelf, by an entry that counts.
bool parts_moved_out(const Book& book, const std::string& tag) {
  auto& moved = book.query(
      "SELECT EXISTS (SELECT 1 FROM mention m JOIN live_entry e USING (entry) JOIN posting p USING (entry) "
      "JOIN "
      "account a USING (account) WHERE m.vehicle = ?1 AND e.kind IN ('transfer', 'shelve') AND a.kind = "
      "'vehicle cost' AND a.name = ?1 AND p.amount < 0)");
  moved.bind(1, tag);
  moved.executeStep();
  const bool any = moved.getColumn(0).getInt() != 0;
  moved.tryReset();
  return any;
}

// "entry 7, draw": the last one on that day that takes something from the account.
std::string on_it(const Book& book, std::int64_t account, std::int64_t sign, const std::string& day) {
  auto& find = book.query(
      "SELECT e.entry, e.kind FROM posting p JOIN entry e USING (entry) WHERE p.account = ?1 AND e.day = ?2 "
      "AND p.amount * ?3 < 0 ORDER BY e.entry DESC LIMIT 1");
  find.bind(1, account);
  find.bind(2, day);
  find.bind(3, sign);
  std::string found;
  if (find.executeStep())
    found = fmt::format(" (entry {}, {})", find.getColumn(0).getInt64(), find.getColumn(1).getString());
  find.tryReset();
  return found;
}

void check_account(const Recording& recording, const Entry& entry, const Holder& holder,
                   const std::string& name) {
  const Book& book = recording.book();
  const std::int64_t account = account_of(book, holder.kind, name);
  // Each day from the entry's on, with what the account holds at its end.
  auto& days = book.query(
      "SELECT day, total FROM (SELECT day, sum(sum(amount)) OVER (ORDER BY day) AS total FROM account_day "
      "WHERE account = ?1 GROUP BY day) WHERE day >= ?2 AND total * ?3 < 0 LIMIT 1");
  days.bind(1, account);
  days.bind(2, entry.day.iso());
  days.bind(3, holder.sign);
  if (!days.executeStep()) return;
  const std::string day = days.getColumn(0).getString();
  const std::int64_t total = days.getColumn(1).getInt64() * holder.sign;
  days.tryReset();
  throw Refusal(fmt::format("{}: on {} {} would be {}{}, expected 0 or more; nothing was recorded",
                            entry.kind, day, fmt::format(fmt::runtime(holder.called), name),
                            Money::of_minor(total).plain(recording.currency()),
                            on_it(book, account, holder.sign, day)));
}

}  // namespace

namespace {
// A line is not named on a day on which its paper does not count yet.
void check_lines(const Recording& recording, const Entry& entry) {
  const std::size_t back = detail_table("given_back"), charged = detail_table("charged");
  for (const Detail& detail : entry.details) {
    if (detail.table != back && detail.table != charged) continue;
    auto& paper = recording.book().query(
        "SELECT l.id, e.day, e.entry FROM line l JOIN entry e USING (entry) WHERE l.line = ?");
    paper.bind(1, std::get<std::int64_t>(detail.cells[0]));
    paper.executeStep();
    const std::string id = paper.getColumn(0).getString(), day = paper.getColumn(1).getString();
    const EntryId bought = paper.getColumn(2).getInt64();
    paper.tryReset();
    if (entry.day.iso() < day)
      throw Refusal(
          fmt::format("{}: on {} there is no line {} yet, its paper (entry {}) counts from {}; expected that "
                      "day or a later one",
                      entry.kind, entry.day.iso(), id, bought, day));
  }
}
}  // namespace

void check_days(Recording& recording, const Entry& entry) {
  check_lines(recording, entry);
  std::set<std::pair<std::string, std::string>> looked_at;
  for (const Posting& posting : entry.postings)
    for (const Holder& holder : holders) {
      if (posting.kind != holder.kind) continue;
      const bool takes = posting.amount.minor() * holder.sign < 0;
      if (!takes || !looked_at.insert({posting.kind, posting.name}).second) continue;
      if (posting.kind == account::vehicle_cost && !parts_moved_out(recording.book(), posting.name)) continue;
      check_account(recording, entry, holder, posting.name);
    }
}

}  // namespace nonrunner::book
