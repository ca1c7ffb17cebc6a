#include "book/events/void_entry.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "book/events/fields.h"
#include "book/events/recover.h"
#include "book/ledger/checks.h"
#include "exact/hint.h"

namespace nonrunner::book {

namespace {

std::optional<EntryId> first_of(SQLite::Statement& query) {
  std::optional<EntryId> entry;
  if (query.executeStep()) entry = query.getColumn(0).getInt64();
  query.tryReset();
  return entry;
}

void refuse_resting(EntryId entry, EntryId later, const std::string& what) {
  throw hinted<Refusal>(
      fmt::format("void: entry {} {} rests on entry {}; void that first", later, what, entry),
      {Action::void_entry, {{"entry", std::to_string(later)}}});
}

void refuse_used(EntryId entry, const std::string& what, const std::string& whose) {
  throw Refusal(fmt::format("void: what entry {} brought to the {}{} is used already; void that use first",
                            entry, what, whose.empty() ? "" : " of \"" + whose + "\""));
}

// Refusal 4: what came later and would lose its ground.
void check_nothing_rests(Recording& recording, const Entry& entry, bool replaced) {
  const Book& book = recording.book();
  auto& back = book.query(
      "SELECT g.entry FROM given_back g JOIN live_entry USING (entry) JOIN line l ON l.line = g.line WHERE "
      "l.entry = ? LIMIT 1");
  back.bind(1, entry.id);
  if (const auto later = first_of(back))
    refuse_resting(entry.id, *later, "(something that went back or to the shelf)");
  // A turning point of a car: a later one that counts rests on it.
  auto& turn = book.query(
      "SELECT later.entry FROM life mine JOIN life later ON later.vehicle = mine.vehicle AND later.entry > "
      "mine.entry "
      "JOIN live_entry e ON e.entry = later.entry WHERE mine.entry = ? LIMIT 1");
  turn.bind(1, entry.id);
  if (const auto later = first_of(turn)) refuse_resting(entry.id, *later, "(what became of the car)");
  // Without its purchase a car that was passed before is passed again, and its inventory has to be empty.
  auto& kept = book.query(
      "SELECT later.entry FROM life mine JOIN life before ON before.vehicle = mine.vehicle AND before.entry "
      "< "
      "mine.entry AND before.turn = 'passed' JOIN live_entry p ON p.entry = before.entry "
      "JOIN account a ON a.name = mine.vehicle AND a.kind IN ('vehicle cost', 'recovered') "
      "JOIN posting q USING (account) JOIN live_entry later ON later.entry = q.entry "
      "WHERE mine.entry = ? AND mine.turn = 'bought' AND q.entry > mine.entry ORDER BY q.entry LIMIT 1");
  kept.bind(1, entry.id);
  if (const auto later = first_of(kept)) refuse_resting(entry.id, *later, "(a cost of the car)");
  // A cost that went with the car when it was sold, passed or finished (or came back to it when it was bought
  // after all) cannot be taken from under the sale.
  auto& gone = book.query(
      "SELECT l.entry FROM posting p JOIN account a USING (account) JOIN life l ON l.vehicle = a.name AND "
      "l.entry > p.entry "
      "JOIN live_entry e ON e.entry = l.entry WHERE p.entry = ? AND ((l.turn IN ('sold', 'finished', "
      "'passed') "
      "AND a.kind IN ('vehicle cost', 'recovered', 'late cost')) OR (l.turn = 'bought' AND a.kind = "
      "'looking')) LIMIT 1");
  gone.bind(1, entry.id);
  if (const auto later = first_of(gone); later && !replaced)
    refuse_resting(entry.id, *later, "(what became of the car)");
  std::map<std::pair<std::string, std::string>, Balance> moved;
  std::map<std::string, Money> carried_by, recovered_from;  // what the entry brought to a car
  for (const Posting& posting : entry.postings) {
    if (posting.kind == account::vehicle_cost || posting.kind == account::recovered)
      carried_by[posting.name] += posting.amount;
    if (posting.kind == account::recovered || posting.kind == account::recovered_income)
      recovered_from[posting.name] -= posting.amount;
    Balance& sum = moved[{posting.kind, posting.name}];
    sum.amount += posting.amount;
    if (posting.quantity) sum.quantity += *posting.quantity;
  }
  for (const auto& [account, sum] : moved) {
    const Balance now = balance_of(book, account.first, account.second);
    const Money left = now.amount - sum.amount;
    const Quantity pieces = now.quantity - sum.quantity;
    if (account.first == account::stock &&
        (pieces < Quantity{} || is_negative(left) || (pieces == Quantity{} && !is_zero(left))))
      throw Refusal(
          fmt::format("void: of the \"{}\" that entry {} brought some is drawn already; void the draws first",
                      account.second, entry.id));
    const bool not_below_zero =
        account.first == account::core_deposit || account.first == account::tool_deposit;
    // What was charged to a car of the tools that the entry brought.
    if (account.first == account::tools && sum.amount > Money{} && is_negative(left) && !replaced)
      refuse_used(entry.id, account.first, account.second);
    const bool not_above_zero =
        account.first == account::buyer_deposit ||
        (!replaced && (account.first == account::payable || account.first == account::sales_tax));
    if ((not_below_zero && is_negative(left)) || (not_above_zero && left > Money{}))
      refuse_used(entry.id, account.first, account.second);
  }
  if (replaced) return;  // the fuller paper brings it again
  for (const auto& [tag, sum] : carried_by)
    if (sum > Money{} && carried(book, tag) - sum < Money{}) refuse_used(entry.id, "cost", tag);
  if (entry.kind == "recover" || entry.kind == "recover back")
    for (const auto& [tag, sum] : recovered_from)
      if (sum > Money{} && recovered_in_all(book, tag) - sum < Money{})
        refuse_used(entry.id, "recovered money", tag);
}

bool is_later(const Recording& recording, const Entry& entry, const Void& request) {
  const auto closed = closed_until(recording.book());
  return request.later || (closed && entry.day <= *closed);
}

EntryId reverse(Recording& recording, const Entry& entry, const Void& request) {
  const bool later = is_later(recording, entry, request);
  Draft draft(recording, "void", request.day);
  write(draft, recording.currency(), Void{request.day, entry.id, request.why, later});
  if (!later) draft.force_day(entry.day);
  draft.voids(entry.id);
  for (const Posting& posting : entry.postings)
    draft.post(posting.kind, posting.name, -posting.amount,
               posting.quantity ? std::optional(Quantity{} - *posting.quantity)
                                : (is_zero(posting.amount) ? std::optional(Quantity{}) : std::nullopt));
  const std::size_t mention = detail_table("mention");
  for (const Detail& detail : entry.details)
    if (detail.table == mention) draft.mention(std::get<std::string>(detail.cells[0]));
  return draft.record();
}

Entry expect_voidable(Recording& recording, EntryId id, const std::string& event) {
  Entry entry = [&] {
    try {
      return load_entry(recording.book(), id);
    } catch (const Refusal& refusal) {
      refuse_as(event + ": " + refusal.what(), refusal);
    }
  }();
  if (entry.voids)
    throw Refusal(fmt::format(
        "{}: entry {} takes back entry {}, and a reversal cannot be voided; make entry {} again instead",
        event, id, *entry.voids, *entry.voids));
  auto& voided = recording.book().query("SELECT entry FROM entry WHERE voids = ?");
  voided.bind(1, id);
  if (const auto by = first_of(voided))
    throw Refusal(fmt::format("{}: entry {} was voided already, by entry {}", event, id, *by));
  return entry;
}

}  // namespace

void fields(Void& request, Fields& f) {
  f.day({"date", "the day of it"}, request.day);
  f.entry({"entry", "the entry that is taken back"}, request.entry);
  f.text({"why", "the reason"}, Text::words, request.why);
  f.flag({"later", "it goes back on its own day, as a sale that falls through does", Need::may},
         request.later, false);
}

EntryId record(Recording& recording, const Void& request) {
  const Entry entry = expect_voidable(recording, request.entry, "void");
  check_nothing_rests(recording, entry, false);
  expect_words("void", "the reason", request.why);
  if (request.later && request.day < entry.day)
    throw Refusal(
        fmt::format("void: the day {} lies before that of entry {}, {}; expected that day or a later one",
                    request.day.iso(), entry.id, entry.day.iso()));
  return reverse(recording, entry, request);
}

Replaced void_for_replacement(Recording& recording, const Void& request) {
  const Entry entry = expect_voidable(recording, request.entry, "receipt");
  if (entry.kind != "receipt")
    throw hinted<Refusal>(
        fmt::format("receipt: entry {} is \"{}\", expected a receipt that this paper replaces", entry.id,
                    entry.kind),
        {Action::tray, {}});
  check_nothing_rests(recording, entry, true);
  Replaced replaced{{}, is_later(recording, entry, request)};
  for (const Posting& posting : entry.postings) {
    const bool cost = posting.kind == account::vehicle_cost, looking = posting.kind == account::looking;
    if (!cost && !looking) continue;
    const Life life = life_of(recording.book(), posting.name);
    if (cost ? cost_account(life.state) != account::vehicle_cost : life.bought > entry.id)
      replaced.gone.push_back(posting);
  }
  reverse(recording, entry, request);
  return replaced;
}

}  // namespace nonrunner::book
