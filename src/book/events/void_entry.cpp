#include "book/events/void_entry.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "book/events/fields.h"
#include "book/events/recover.h"
#include "book/events/sell.h"
#include "book/events/selling_cost.h"
#include "book/ledger/checks.h"
#include "book/ledger/day_checks.h"
#include "book/ledger/details.h"
#include "book/ledger/query.h"
#include "exact/hint.h"
#include "text/toml.h"

namespace nonrunner::book {

namespace {

void refuse_resting(EntryId entry, EntryId later, const std::string& what) {
  throw hinted<Refusal>(
      fmt::format("void: entry {} {} rests on entry {}; void that first", later, what, entry),
      {Action::void_entry, {{"entry", std::to_string(later)}}});
}

// What became of a car that was taken back later stood until then, and is not voided once more.
void refuse_end(EntryId entry, const Turn& end) {
  if (!end.until) refuse_resting(entry, end.entry, "(what became of the car)");
  throw hinted<Refusal>(
      fmt::format(
          "void: entry {} (what became of the car) rested on entry {} until {}; that counts until then at "
          "least",
          end.entry, entry, end.until->iso()),
      {Action::void_entry, {{"entry", std::to_string(entry)}, {"later", end.until->iso()}}});
}

// How an account is called in a sentence; {} is its name.
std::string called(const std::string& kind, const std::string& name) {
  const std::string quoted = "\"" + name + "\"";
  if (kind == account::payable) return "what is owed to " + quoted;
  if (kind == account::sales_tax) return "the sales tax that is owed";
  if (kind == account::buyer_deposit) return "the deposit held for " + name;
  if (kind == account::core_deposit) return "the deposit on the core of line " + name;
  if (kind == account::tool_deposit) return "the deposit on " + quoted;
  if (kind == account::recovered) return "what was recovered from " + name;
  return "the tools";
}

// Names the last entry that counts and takes from the account what `entry` brought there.
[[noreturn]] void refuse_used(const Book& book, const Entry& entry, const std::string& kind,
                              const std::string& name) {
  const std::int64_t brought = [&] {
    std::int64_t sum = 0;
    for (const Posting& posting : entry.postings)
      if (posting.kind == kind && posting.name == name) sum += posting.amount.minor();
    return sum;
  }();
  const std::string what =
      fmt::format("void: what entry {} brought to {} is used already", entry.id, called(kind, name));
  const auto user = first<EntryId, std::string>(
      book,
      "SELECT e.entry, e.kind FROM posting p JOIN live_entry USING (entry) JOIN entry e USING (entry) JOIN "
      "account a "
      "USING (account) WHERE a.kind = :kind AND a.name = :name AND e.entry <> :entry AND p.amount * :brought "
      "< 0 "
      "ORDER BY e.entry DESC LIMIT 1",
      {{":kind", kind}, {":name", name}, {":entry", entry.id}, {":brought", brought < 0 ? -1 : 1}});
  if (!user) throw Refusal(what + ", expected that it is all there; void that use first");
  const auto& [id, word] = *user;
  throw hinted<Refusal>(fmt::format("{}, by entry {} ({}); void that first", what, id, word),
                        {Action::void_entry, {{"entry", std::to_string(id)}}});
}

// The turns of cars that the entry is.
std::vector<std::pair<std::string, std::string>> turns_in(const Entry& entry) {
  std::vector<std::pair<std::string, std::string>> all;
  const std::size_t life = detail_table("life");
  for (const Detail& detail : entry.details)
    if (detail.table == life)
      all.emplace_back(text_in(detail, cells::life::vehicle), text_in(detail, cells::life::turn));
  return all;
}

// In minor units as it stands there: a book of before may hold more than money can say, and what is in the way has to be
// voided.
std::int64_t balance_as_kept(const Book& book, const std::string& kind, const std::string& name) {
  return first<std::int64_t>(book,
                             "SELECT b.amount FROM balance b JOIN account a USING (account) WHERE a.kind = "
                             ":kind AND a.name = :name",
                             {{":kind", kind}, {":name", name}})
      .value_or(0);
}

// Refusal 4: what came later and would lose its ground. Where another paper takes its place, what went back for some days
// only may rest on that (day_checks.h).
void check_nothing_went_back(const Book& book, const Entry& entry, Day from, bool makes_way) {
  if (const auto later = first<EntryId>(
          book,
          "SELECT g.entry FROM given_back g JOIN entry e USING (entry) LEFT JOIN entry v ON v.voids = "
          "e.entry "
          "JOIN line l ON l.line = g.line WHERE l.entry = :entry AND (v.day IS NULL OR (NOT :makes_way AND "
          "v.day > e.day AND v.day > :from)) LIMIT 1",
          {{":entry", entry.id}, {":from", from}, {":makes_way", makes_way ? 1 : 0}}))
    refuse_resting(entry.id, *later, "(something that went back or to the shelf)");
}

void check_nothing_rests(Recording& recording, const Entry& entry, Day from, bool replaced) {
  const Book& book = recording.book();
  check_nothing_went_back(book, entry, from, false);
  // A purchase: what became of the car rests on it, on the days from that on which it is taken back.
  for (const auto& [tag, turn] : turns_in(entry))
    for (const Turn& each : turn == "bought" ? turns_of(book, tag) : std::vector<Turn>())
      if (each.ends() && each.counts_at_or_after(from)) refuse_end(entry.id, each);
  std::map<std::pair<std::string, std::string>, std::int64_t> moved;
  for (const Posting& posting : entry.postings) moved[{posting.kind, posting.name}] += posting.amount.minor();
  for (const auto& [account, sum] : moved) {
    const std::int64_t left = balance_as_kept(book, account.first, account.second) - sum;
    const bool not_below_zero =
        account.first == account::core_deposit || account.first == account::tool_deposit;
    // What was charged to a car of the tools that the entry brought.
    if (account.first == account::tools && sum > 0 && left < 0 && !replaced)
      refuse_used(book, entry, account.first, account.second);
    const bool not_above_zero =
        account.first == account::buyer_deposit ||
        (!replaced && (account.first == account::payable || account.first == account::sales_tax));
    if ((not_below_zero && left < 0) || (not_above_zero && left > 0))
      refuse_used(book, entry, account.first, account.second);
  }
  if (entry.kind == "recover")
    for (const auto& [account, sum] : moved)
      if (account.first == account::recovered && recovered_in_all(book, account.second).minor() + sum < 0)
        refuse_used(book, entry, account.first, account.second);
}

bool is_later(const Recording& recording, const Entry& entry, const Void& request) {
  const auto closed = closed_until(recording.book());
  return request.later || (closed && entry.day <= *closed);
}

// The days under which the postings of an entry stand, by their place in it.
std::map<std::int64_t, Day> standing(const Book& book, EntryId entry) {
  std::map<std::int64_t, Day> all;
  each<std::int64_t, Day>(book, "SELECT seq, stands FROM counted WHERE entry = :entry", {{":entry", entry}},
                          [&](std::int64_t seq, Day stands) { all[seq] = stands; });
  return all;
}

void take_back_shelf(Draft& draft, const Book& book, EntryId entry) {
  rows(book,
       "SELECT item, what, about, vehicle, line, -quantity, -amount, said FROM shelf WHERE entry = :entry "
       "ORDER "
       "BY rowid",
       {{":entry", entry}}, [&](const Row& row) {
         std::vector<Cell> cells;
         for (int i = 0; i < 8; ++i) cells.push_back(row.cell(i));
         draft.detail("shelf", std::move(cells));
       });
}

EntryId reverse(Recording& recording, const Entry& entry, const Void& request, bool later) {
  Draft draft(recording, "void", request.day);
  // What stays paid stands in the book as entries of its own, which an export writes as well.
  Void kept{request.day, entry.id, request.why, later, {}};
  kept.makes_way = request.makes_way;
  if (request.stays) kept.stays.emplace();
  write(draft, recording.currency(), kept);
  if (!later) draft.bears(entry.day);
  draft.voids(entry.id);
  const char* how = how_it_makes_way(request.makes_way, request.why);
  // To a paper nothing but a quick line gives its place, whatever an events file says.
  if (how == how::gives_place &&
      !first<EntryId>(recording.book(), "SELECT entry FROM paper WHERE entry = :entry AND itemised = 0",
                      {{":entry", entry.id}}))
    how = nullptr;
  if (how) draft.takes_place(entry.id, how);
  const auto stands = standing(recording.book(), entry.id);
  std::int64_t seq = 0;
  for (const Posting& posting : entry.postings) {
    const auto stood = stands.find(++seq);
    draft.post(posting.kind, posting.name, -posting.amount,
               posting.quantity ? std::optional(Quantity{} - *posting.quantity)
                                : (is_zero(posting.amount) ? std::optional(Quantity{}) : std::nullopt),
               stood == stands.end() ? entry.day : stood->second);
  }
  for (const std::string& vehicle : mentioned_in(entry)) draft.mention(vehicle);
  take_back_shelf(draft, recording.book(), entry.id);
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
  if (entry.kind == "close")
    throw Refusal(fmt::format("{}: entry {} ends the period up to {}, and that is not taken back", event, id,
                              entry.day.iso()));
  if (entry.kind == "average")
    throw Refusal(fmt::format(
        "{}: entry {} follows from what was drawn and bought; void one of these instead", event, id));
  if (const auto by =
          first<EntryId>(recording.book(), "SELECT entry FROM entry WHERE voids = :entry", {{":entry", id}}))
    throw Refusal(fmt::format("{}: entry {} was voided already, by entry {}", event, id, *by));
  return entry;
}

}  // namespace

void fields(Void& request, Fields& f) {
  f.day({"date", "the day of it"}, request.day);
  f.entry({"entry", "the entry that is taken back"}, request.entry);
  f.text({"why", "the reason"}, Text::words, request.why);
  f.flag({"later", "it counted until this day, as a sale that falls through does (else it never was)",
          Need::may},
         request.later, false);
  f.flag(
      {"makes_way", "an entry that follows takes its place: what rests on it is looked at then", Need::may},
      request.makes_way, false);
  f.other(
      {"stays", "of a sale taken back later: the costs that stay paid (else all)", Need::may}, Holds::texts,
      "a list of names of costs",
      [&](const Table& table, const Currency&) {
        const Value* stays = table.find("stays");
        if (stays == nullptr) return;
        if (stays->kind != Value::Kind::array) table.refuse("stays", "a list of names of costs, [] for none");
        request.stays.emplace();
        for (const Value& name : stays->items) request.stays->push_back(name.text);
      },
      [&](EventText& text) {
        if (request.stays) text.list("stays", {});
      });
}

const char* how_it_makes_way(bool makes_way, const std::string& why) {
  if (!makes_way) return nullptr;
  return why == to_put_right ? how::makes_way : why == by_full_paper ? how::gives_place : nullptr;
}

std::string turn_of(const Book& book, EntryId entry) {
  return first<std::string>(book, "SELECT turn FROM life WHERE entry = :entry", {{":entry", entry}})
      .value_or("");
}

std::vector<NamedAmount> paid_to_others(const Book& book, EntryId sale) {
  const Entry entry = load_entry(book, sale);
  if (entry.kind != "sell") return {};
  Value value = *kept_event(entry.event).find("e");
  // What the recording wrote beside the sale's own keys.
  std::erase_if(value.entries,
                [](const auto& each) { return each.first == "kept_as" || each.first == "corrects"; });
  const Sale told = read<Sale>(Table(value, "entry", "the sale"), book.currency());
  std::vector<NamedAmount> paid;
  for (NamedAmount cost : told.costs) {
    if (cost.name == "commission") continue;  // it goes back with the price
    if (cost.purse.empty()) cost.purse = told.purse;
    paid.push_back(std::move(cost));
  }
  return paid;
}

namespace {

// Of a sale taken back later: what others got stays paid, as a cost of selling the car. Of one that never
// was: it goes with it, and is named.
void keep_paid(Recording& recording, const Entry& entry, const Void& request, bool later) {
  const std::vector<NamedAmount> paid = paid_to_others(recording.book(), entry.id);
  const auto named = [&](const NamedAmount& cost) {
    return fmt::format("{} for {} from {}", cost.amount.shown(recording.currency()), cost.name, cost.purse);
  };
  if (request.stays)
    for (const std::string& name : *request.stays)
      if (std::none_of(paid.begin(), paid.end(), [&](const NamedAmount& cost) { return cost.name == name; }))
        throw Refusal(fmt::format("void: entry {} has no cost \"{}\" that could stay{}", entry.id, name,
                                  paid.empty() ? "" : "; it has: " + paid.front().name));
  const std::string tag = turns_in(entry).front().first;
  for (const NamedAmount& cost : paid) {
    const bool stays = later && (!request.stays || std::find(request.stays->begin(), request.stays->end(),
                                                             cost.name) != request.stays->end());
    recording.remarks().push_back(stays ? "stays paid: " + named(cost) : "goes back with it: " + named(cost));
    if (stays) record(recording, SellingCost{request.day, tag, cost.name, cost.amount, cost.purse});
  }
}

}  // namespace

namespace {
// Whether its shelves are settled before what takes its place is there, since what is drawn next is reckoned from them; only
// what a paper put there may be gone until then.
bool settles_at_once(const Entry& entry) {
  const std::size_t shelf = detail_table("shelf");
  return entry.kind != "receipt" && std::any_of(entry.details.begin(), entry.details.end(),
                                                [&](const Detail& each) { return each.table == shelf; });
}
}  // namespace

EntryId record(Recording& recording, const Void& given) {
  const Entry entry = expect_voidable(recording, given.entry, "void");
  Void request = given;
  request.day = open_day(recording.book(), given.day);
  const bool later = is_later(recording, entry, request);
  const Day from = later ? request.day : entry.day;
  if (request.makes_way)
    check_nothing_went_back(recording.book(), entry, from, true);
  else
    check_nothing_rests(recording, entry, from, false);
  expect_words("void", "the reason", request.why);
  if (later && request.day < entry.day)
    throw Refusal(
        fmt::format("void: the day {} lies before that of entry {}, {}; expected that day or a later one",
                    request.day.iso(), entry.id, entry.day.iso()));
  const bool sale = entry.kind == "sell";
  if (request.stays && !(sale && later))
    throw Refusal(
        fmt::format("void: entry {} is no sale that is taken back later, so nothing of it stays", entry.id));
  if (sale && later && !request.stays) request.stays.emplace();  // for the event: see reverse()
  recording.hold = request.makes_way;
  const EntryId reversal = reverse(recording, entry, request, later);
  recording.hold = false;
  if (request.makes_way && settles_at_once(entry))
    settle_shelves(recording, load_entry(recording.book(), reversal));
  if (sale && !request.makes_way)
    keep_paid(recording, entry, {request.day, request.entry, request.why, request.later, given.stays}, later);
  return reversal;
}

Replaced void_for_replacement(Recording& recording, const Void& request) {
  const Entry entry = expect_voidable(recording, request.entry, "receipt");
  if (entry.kind != "receipt")
    throw hinted<Refusal>(
        fmt::format("receipt: entry {} is \"{}\", expected a receipt that this paper replaces", entry.id,
                    entry.kind),
        {Action::tray, {}});
  Replaced replaced;
  replaced.later = is_later(recording, entry, request);
  // Out of a closed period it goes on the first open day, whenever the paper came.
  const auto closed = closed_until(recording.book());
  replaced.day = !replaced.later ? std::min(entry.day, open_day(recording.book(), request.day))
                 : closed && entry.day <= *closed ? closed->plus(1)
                                                  : request.day;
  check_nothing_rests(recording, entry, replaced.day, true);
  if (replaced.later)
    for (const Posting& posting : entry.postings)
      if (posting.kind == account::vehicle_cost) replaced.cars.push_back(posting.name);
  recording.hold = true;
  Void reversal = request;
  reversal.day = replaced.later ? replaced.day : open_day(recording.book(), request.day);
  reverse(recording, entry, reversal, replaced.later);
  recording.hold = false;
  return replaced;
}

void give_place(Recording& recording, EntryId quick, Day paper) {
  Void request{paper, quick, by_full_paper, false, {}};
  request.makes_way = true;
  void_for_replacement(recording, request);
}

}  // namespace nonrunner::book
