#include "book/questions/alike.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "book/ledger/query.h"
#include "book/questions/figures.h"
#include "exact/hint.h"
#include "text/counted.h"
#include "text/lower_case.h"

namespace nonrunner::book {

namespace {

constexpr int days_exact = 10, days_near = 3;
constexpr std::size_t most_together = 10;  // of one day and purse: 1,013 sums

struct Parties {
  std::set<std::string> vehicles, purses;
  std::string supplier;
};

Parties of_receipt(const Receipt& receipt) {
  Parties parties;
  for (const ReceiptLine& line : receipt.lines)
    for (const Share& share : line.shares) parties.vehicles.insert(share.vehicle);
  for (const auto& paid : receipt.paid) parties.purses.insert(paid.first);
  parties.supplier = lower_case(receipt.supplier);
  return parties;
}

Parties of_entry(const Book& book, EntryId entry, const std::string& supplier) {
  Parties parties;
  each<std::string>(book, "SELECT vehicle FROM mention WHERE entry = :entry", {{":entry", entry}},
                    [&](const std::string& tag) { parties.vehicles.insert(tag); });
  each<std::string>(book,
                    "SELECT a.name FROM posting p JOIN account a USING (account) WHERE p.entry = :entry AND "
                    "a.kind = 'purse'",
                    {{":entry", entry}}, [&](const std::string& purse) { parties.purses.insert(purse); });
  parties.supplier = lower_case(supplier);
  return parties;
}

bool apart(const std::set<std::string>& one, const std::set<std::string>& other) {
  return !one.empty() && !other.empty() &&
         std::none_of(one.begin(), one.end(), [&](const std::string& each) { return other.contains(each); });
}

bool contradict(const Parties& one, const Parties& other) {
  return apart(one.vehicles, other.vehicles) || apart(one.purses, other.purses) ||
         (!one.supplier.empty() && !other.supplier.empty() && one.supplier != other.supplier);
}

Money size_of(Money amount) { return is_negative(amount) ? -amount : amount; }

bool fits(const Currency& currency, Day paper_day, Money paper, Day day, Money total) {
  const int days = std::abs(days_between(day, paper_day));
  const Money off = size_of(paper - total);
  if (is_zero(off)) return days <= days_exact;
  const Money two_percent = Money::of_minor(size_of(paper).minor() / 50);
  const Money two = Money::parse("2", currency), coin = Money::of_minor(1);
  return days <= days_near && off <= std::max(coin, std::min(two_percent, two));
}

// SQL for "entry e is of the day that was said", :day; where its period was closed it bears another, :bears.
constexpr const char* said_on =
    "e.day IN (:day, :bears) AND coalesce((SELECT d.day FROM printed d WHERE d.entry = e.entry), e.day) = "
    ":day";

// Every choice of two or more among those of one day and purse whose sum fits.
void add_sums(const Book& book, const Receipt& receipt, const std::vector<QuickLines>& group,
              std::vector<QuickLines>& all) {
  if (group.size() < 2 || group.size() > most_together) return;
  for (std::size_t chosen = 1; chosen < (std::size_t{1} << group.size()); ++chosen) {
    QuickLines together{{}, group.front().day, {}};
    for (std::size_t i = 0; i < group.size(); ++i)
      if ((chosen >> i) & 1U) {
        together.entries.push_back(group[i].entries.front());
        together.total += group[i].total;
      }
    if (together.entries.size() > 1 &&
        fits(book.currency(), receipt.day, receipt.total, together.day, together.total))
      all.push_back(std::move(together));
  }
}

// Those that the paper names: each takes a line of its words, case aside. Together where they are not more than the paper.
void add_named(const Receipt& receipt, const std::vector<std::pair<QuickLines, std::string>>& waiting,
               std::vector<QuickLines>& all) {
  std::multiset<std::string> lines;
  for (const ReceiptLine& line : receipt.lines) lines.insert(lower_case(line.what));
  const Money most = receipt.total + receipt.discount;
  std::vector<QuickLines> named;
  QuickLines together{{}, {}, {}};
  for (const auto& [one, what] : waiting) {
    const auto line = lines.find(lower_case(what));
    if (line == lines.end() || one.total > most) continue;
    lines.erase(line);
    named.push_back(one);
    together.entries.push_back(one.entries.front());
    together.total += one.total;
    together.day = std::max(together.day, one.day);
  }
  if (named.size() > 1 && together.total <= most) named.assign(1, together);
  for (QuickLines& each : named)
    if (std::ranges::find(all, each.entries, &QuickLines::entries) == all.end())
      all.push_back(std::move(each));
}

std::string entries_of(const QuickLines& lines) {
  std::string text;
  for (const EntryId entry : lines.entries) text += (text.empty() ? "" : ",") + std::to_string(entry);
  return text;
}

}  // namespace

std::vector<QuickLines> quick_lines_that_fit(const Book& book, const Receipt& receipt) {
  std::vector<QuickLines> all;
  std::vector<std::pair<QuickLines, std::string>> waiting;  // and its words
  std::map<std::pair<Day, std::set<std::string>>, std::vector<QuickLines>> groups;
  const Parties paper = of_receipt(receipt);
  for (const Waiting& each : tray(book)) {
    if (std::abs(days_between(each.day, receipt.day)) > days_exact) continue;
    const Parties parties = of_entry(book, each.entry, each.supplier);
    if (contradict(paper, parties)) continue;
    const QuickLines one{{each.entry}, each.day, each.total};
    waiting.emplace_back(one, each.what);
    groups[{each.day, parties.purses}].push_back(one);
    if (fits(book.currency(), receipt.day, receipt.total, one.day, one.total)) all.push_back(one);
  }
  for (const auto& [key, group] : groups) add_sums(book, receipt, group, all);
  // The paper bears the day of the first of them.
  std::ranges::stable_sort(waiting, {}, [](const auto& each) { return each.first.day; });
  add_named(receipt, waiting, all);
  const auto rank = [&](const QuickLines& lines) {
    return std::tuple(std::abs(days_between(lines.day, receipt.day)), size_of(receipt.total - lines.total),
                      lines.entries);
  };
  std::sort(all.begin(), all.end(),
            [&](const QuickLines& a, const QuickLines& b) { return rank(a) < rank(b); });
  return all;
}

std::optional<EntryId> receipt_like(const Book& book, const Receipt& receipt) {
  const Parties mine = of_receipt(receipt);
  std::vector<std::pair<EntryId, std::string>> found;
  each<EntryId, std::string>(
      book,
      fmt::format(
          // Few of a day come to the same: what they come to is looked at first.
          "SELECT p.entry, p.supplier FROM entry e CROSS JOIN paper p USING (entry) CROSS JOIN live_entry l "
          "USING (entry) WHERE {} AND p.total = :total ORDER BY p.entry",
          said_on),
      {{":day", receipt.day}, {":bears", open_day(book, receipt.day)}, {":total", receipt.total}},
      [&](EntryId entry, const std::string& supplier) { found.emplace_back(entry, supplier); });
  for (const auto& [entry, supplier] : found)
    if (!contradict(mine, of_entry(book, entry, supplier))) return entry;
  return std::nullopt;
}

std::optional<EntryId> hours_like(const Book& book, const Labour& labour) {
  return first<EntryId>(
      book,
      fmt::format(
          "SELECT l.entry FROM labour l JOIN live_entry e USING (entry) WHERE l.vehicle = :tag AND {} "
          "AND l.operation = :operation AND l.own = :own AND l.paid = :paid LIMIT 1",
          said_on),
      {{":tag", labour.vehicle},
       {":day", labour.day},
       {":bears", open_day(book, labour.day)},
       {":operation", labour.operation},
       {":own", labour.own},
       {":paid", labour.paid}});
}

Once once(const Recover& recover) {
  if (recover.back) return {};
  return {"recover",      recover.day, {recover.vehicle}, recover.purse,
          recover.amount, {},          recover.what,      recover.again};
}

Once once(const OwnerMoney& money) {
  return {money.in ? "owner in" : "owner out",     money.day, {}, money.purse,
          money.in ? money.amount : -money.amount, {},        "", money.again};
}

Once once(const BuyerDeposit& deposit) {
  if (deposit.what != BuyerDeposit::What::taken) return {};
  return {"buyer deposit", deposit.day, {deposit.vehicle}, deposit.purse, deposit.amount, {}, "",
          deposit.again};
}

Once once(const Trip& trip) {
  Once one{"trip", trip.day, {}, "", {}, trip.distance, trip.why, trip.again};
  for (const Share& share : trip.shares) one.vehicles.insert(share.vehicle);
  return one;
}

std::optional<EntryId> entry_like(const Book& book, const Once& one) {
  if (one.event.empty()) return std::nullopt;
  std::vector<std::pair<EntryId, std::string>> found;
  each<EntryId, std::string>(
      book,
      fmt::format(
          "SELECT e.entry, coalesce((SELECT u.what FROM purpose u WHERE u.entry = e.entry AND u.kind = "
          "'recovered'), (SELECT n.why FROM errand n WHERE n.entry = e.entry), '') "
          "FROM entry e JOIN live_entry l USING (entry) WHERE {} AND e.kind = :kind AND "
          "coalesce((SELECT sum(t.distance) FROM trip t WHERE t.entry = e.entry), 0) = :distance AND "
          "coalesce((SELECT sum(p.amount) FROM posting p JOIN account a USING (account) WHERE p.entry = "
          "e.entry "
          "AND a.kind = 'purse' AND a.name = :purse), 0) = :into ORDER BY e.entry",
          said_on),
      {{":day", one.day},
       {":bears", open_day(book, one.day)},
       {":kind", one.event},
       {":distance", one.distance.thousandths()},
       {":purse", one.purse},
       {":into", one.into}},
      [&](EntryId entry, const std::string& what) { found.emplace_back(entry, what); });
  for (const auto& [entry, what] : found)
    if ((one.what.empty() || lower_case(what) == lower_case(one.what)) &&
        of_entry(book, entry, "").vehicles == one.vehicles)
      return entry;
  return std::nullopt;
}

std::string called(const Once& one, const Book& book) {
  const bool out = is_negative(one.into);
  const std::string what = one.event == "trip"
                               ? one.distance.shown() + " " + book.distance_unit()
                               : fmt::format("{} {} {}", (out ? -one.into : one.into).shown(book.currency()),
                                             out ? "out of" : "into", one.purse);
  return fmt::format("{}{}{}{} on {}", what, one.what.empty() ? "" : fmt::format(" (\"{}\")", one.what),
                     one.vehicles.empty() ? "" : " for ", fmt::join(one.vehicles, ", "), one.day.iso());
}

Hours own_hours_on(const Book& book, Day day) {
  return *first<Hours>(
      book,
      fmt::format("SELECT coalesce(sum(l.own), 0) FROM entry e JOIN live_entry v USING (entry) JOIN labour l "
                  "ON l.entry = e.entry WHERE {}",
                  said_on),
      {{":day", day}, {":bears", open_day(book, day)}});
}

void expect_no_double(const Recording& recording, const Receipt& receipt) {
  if (!recording.wary || recording.likeness_is_settled || receipt.again || receipt.replaces) return;
  const Book& book = recording.book();
  const std::string total = receipt.total.plain(book.currency());
  if (!receipt.itemised) {
    if (const auto like = receipt_like(book, receipt))
      throw hinted<Refusal>(
          fmt::format("receipt: {} on {} is in the book already, it seems (entry {}); if it is "
                      "another one, say so",
                      total, receipt.day.iso(), *like),
          {Action::allow_again_in_file, {}});
    return;
  }
  if (same_paper(book, receipt)) return;  // is refused for that
  const auto fitting = quick_lines_that_fit(book, receipt);
  if (fitting.empty()) return;
  throw hinted<Refusal>(
      fmt::format("receipt: a paper over {} fits the quick line of {} over {} (entry {}); say "
                  "that it takes its place, or that it is another one",
                  total, fitting.front().day.iso(), fitting.front().total.plain(book.currency()),
                  entries_of(fitting.front())),
      {Action::replace_or_again, {{"entry", entries_of(fitting.front())}}});
}

void expect_no_double(const Recording& recording, const Labour& labour) {
  if (!recording.wary || labour.own == Hours{}) return;
  const Hours already = own_hours_on(recording.book(), labour.day);
  if (already + labour.own > most_hours)
    throw Refusal(
        fmt::format("hours: {} own hours on {} beside {} that are there, expected at most 24 on one day",
                    labour.own.shown(), labour.day.iso(), already.shown()));
  if (labour.again || recording.likeness_is_settled) return;
  if (const auto like = hours_like(recording.book(), labour))
    throw hinted<Refusal>(
        fmt::format("hours: {} on {} for \"{}\" on {} are in the book already (entry {}); if these are "
                    "others, say so",
                    counted(labour.own.shown(), "own hour"), labour.vehicle, labour.operation,
                    labour.day.iso(), *like),
        {Action::allow_again_in_file, {}});
}

void expect_no_double(const Recording& recording, const Once& one) {
  if (!recording.wary || recording.likeness_is_settled || one.again) return;
  if (const auto like = entry_like(recording.book(), one))
    throw hinted<Refusal>(fmt::format("{}: {} is in the book already, it seems (entry {}); if it is "
                                      "another one, say so",
                                      one.event, called(one, recording.book()), *like),
                          {Action::allow_again_in_file, {}});
}

}  // namespace nonrunner::book
