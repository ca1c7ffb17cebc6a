#include "book/ledger/day_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "book/ledger/details.h"
#include "book/ledger/line.h"
#include "book/ledger/names.h"
#include "book/ledger/query.h"
#include "exact/decimal.h"
#include "exact/hint.h"

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
  return first<std::int64_t>(book, "SELECT account FROM account WHERE kind = :kind AND name = :name",
                             {{":kind", kind}, {":name", name}})
      .value();
}

// Parts of the car were moved to another car or to the shelf, by an entry that counts.
bool parts_moved_out(const Book& book, const std::string& tag) {
  return *first<bool>(
      book,
      "SELECT EXISTS (SELECT 1 FROM mention m JOIN live_entry e USING (entry) JOIN posting p USING (entry) "
      "JOIN account a USING (account) WHERE m.vehicle = :tag AND e.kind IN ('transfer', 'shelve') AND a.kind "
      "= 'vehicle cost' AND a.name = :tag AND p.amount < 0)",
      {{":tag", tag}});
}

// "entry 7, draw": the last one on that day that takes something from the account.
std::string on_it(const Book& book, std::int64_t account, std::int64_t sign, const std::string& day) {
  const auto found = first<EntryId, std::string>(
      book,
      "SELECT e.entry, e.kind FROM posting p JOIN entry e USING (entry) WHERE p.account = :account AND e.day "
      "= :day AND p.amount * :sign < 0 ORDER BY e.entry DESC LIMIT 1",
      {{":account", account}, {":day", day}, {":sign", sign}});
  return found ? fmt::format(" (entry {}, {})", std::get<0>(*found), std::get<1>(*found)) : "";
}

void check_account(const Recording& recording, const Entry& entry, const Holder& holder,
                   const std::string& name) {
  const Book& book = recording.book();
  const std::int64_t account = account_of(book, holder.kind, name);
  // Each day from the entry's on, with what the account holds at its end.
  const auto found = first<std::string, std::int64_t>(
      book,
      "SELECT day, total * :sign FROM (SELECT day, sum(sum(amount)) OVER (ORDER BY day) AS total FROM "
      "account_day WHERE account = :account GROUP BY day) WHERE day >= :from AND total * :sign < 0 LIMIT 1",
      {{":account", account}, {":from", entry.day}, {":sign", holder.sign}});
  if (!found) return;
  const auto& [day, total] = *found;
  throw Refusal(fmt::format("{}: on {} {} would be {}{}, expected 0 or more; nothing was recorded",
                            entry.kind, day, fmt::format(fmt::runtime(holder.called), name),
                            unscaled(total, recording.currency().digits),
                            on_it(book, account, holder.sign, day)));
}

}  // namespace

namespace {
// A line is not named on a day on which its paper does not count yet.
void check_lines(const Recording& recording, const Entry& entry) {
  const std::size_t back = detail_table("given_back"), charged = detail_table("charged");
  for (const Detail& detail : entry.details) {
    if (detail.table != back && detail.table != charged) continue;
    const auto paper = first<std::string, Day, EntryId>(
        recording.book(),
        "SELECT l.id, e.day, e.entry FROM line l JOIN entry e USING (entry) WHERE l.line = :line",
        {{":line", number_in(detail, detail.table == back ? std::size_t{cells::given_back::line}
                                                          : std::size_t{cells::charged::line})}});
    const auto& [id, day, bought] = paper.value();
    if (entry.day < day)
      throw Refusal(
          fmt::format("{}: on {} there is no line {} yet, its paper (entry {}) counts from {}; expected that "
                      "day or a later one",
                      entry.kind, entry.day.iso(), id, bought, day.iso()));
  }
}
}  // namespace

namespace {
bool is_the_same(const Line& line, const Line& was) {
  const auto same = [](const Share& a, const Share& b) {
    return a.vehicle == b.vehicle && a.weight == b.weight;
  };
  return line.kind == was.kind && line.stock == was.stock && line.quantity == was.quantity &&
         line.amount == was.amount &&
         std::equal(line.shares.begin(), line.shares.end(), was.shares.begin(), was.shares.end(), same);
}

// What went back of a line for some days only counts on these days: the paper that takes the place of its own has the line
// as it was.
void check_went_back(const Recording& recording, const Entry& reversal) {
  const Book& book = recording.book();
  struct Back {
    EntryId entry;
    Day from, until;
    std::int64_t line;
  };
  std::vector<Back> all;
  each<EntryId, Day, Day, std::int64_t>(book,
                                        "SELECT e.entry, e.day, v.day, l.line FROM line o JOIN line l ON "
                                        "l.id = o.id JOIN given_back g ON g.line = "
                                        "l.line JOIN entry e ON e.entry = g.entry JOIN entry v ON v.voids = "
                                        "e.entry WHERE o.entry = :voided AND "
                                        "v.day > e.day AND v.day > :from",
                                        {{":voided", *reversal.voids}, {":from", reversal.day}},
                                        [&](EntryId entry, Day from, Day until, std::int64_t line) {
                                          all.push_back({entry, from, until, line});
                                        });
  for (const Back& back : all) {
    const Line was = line_by_number(book, back.line);
    const auto now = find_line(book, was.id);
    if (now && now->day <= back.from && is_the_same(*now, was)) continue;
    throw Refusal(fmt::format(
        "{}: of line {} something went back from {} until {} (entry {}), expected that line as it "
        "was on these days; enter what differs as a paper of its own",
        reversal.kind, was.id, back.from.iso(), back.until.iso(), back.entry));
  }
}

// The purchases of the car count, one after another, on all days from its end to that on which the end was taken back.
bool bought_throughout(const std::vector<Turn>& turns, const Turn& end) {
  Day day = end.from;
  while (true) {
    std::optional<Day> until;
    bool covered = false;
    for (const Turn& turn : turns) {
      if (turn.turn != "bought" || turn.from > day || (turn.until && *turn.until <= day)) continue;
      covered = true;
      until = turn.until;
      if (!until) return true;
    }
    if (!covered) return false;
    if (end.until && *until >= *end.until) return true;
    day = *until;
  }
}

// A purchase that was taken back carried what became of the car.
void check_ends(const Recording& recording, const Entry& entry) {
  if (!entry.voids || load_entry(recording.book(), *entry.voids).kind != "buy") return;
  for (const std::string& tag : mentioned_in(entry)) {
    const std::vector<Turn> turns = turns_of(recording.book(), tag);
    for (const Turn& end : turns) {
      if (!end.ends() || bought_throughout(turns, end)) continue;
      const std::string what =
          fmt::format("{}: {} was {} on {} (entry {})", entry.kind, tag, end.turn, end.from.iso(), end.entry);
      if (end.until)
        throw Refusal(fmt::format("{}, and that stood until {}; expected that it was bought by {}", what,
                                  end.until->iso(), end.from.iso()));
      throw hinted<Refusal>(
          fmt::format("{}, expected that it was bought by then; else void that first", what),
          {Action::void_entry, {{"entry", std::to_string(end.entry)}}});
    }
  }
}

}  // namespace

void check_days(Recording& recording, const Entry& entry) {
  check_lines(recording, entry);
  check_ends(recording, entry);
  if (entry.voids) check_went_back(recording, entry);
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
