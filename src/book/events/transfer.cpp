#include "book/events/transfer.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/moved.h"
#include "book/ledger/position.h"
#include "book/ledger/query.h"
#include "exact/ends.h"
#include "text/same_name.h"

namespace nonrunner::book {

void fields(Transfer& transfer, Fields& f) {
  f.day({"date", "the day of it"}, transfer.day);
  f.text({"from", "the car that it comes off; or tools: their cost is charged to a car only so"}, Text::tag,
         transfer.from);
  f.text({"to", "the car that it goes to; or overhead: tools kept as an asset that are worn out"}, Text::tag,
         transfer.to);
  f.text({"what", "what is moved"}, Text::words, transfer.what);
  f.money({"amount", "at what cost"}, transfer.amount);
  f.text(
      {"line",
       "the receipt line of the tool, or of the part, whose deposit goes along (else the only one named so)",
       Need::may},
      Text::line, transfer.line);
}

namespace {

// The line of the tool: as it is said, or the only one of that name.
std::optional<Line> line_of_tool(const Book& book, const Transfer& transfer) {
  if (!transfer.line.empty()) {
    Line line = expect_line(book, "transfer", transfer.line);
    if (line.kind != "tool" || !line.shares.empty())
      throw Refusal(fmt::format("transfer: line {} (\"{}\") is no tool of the shop, expected one that is",
                                transfer.line, line.what));
    return line;
  }
  std::vector<std::int64_t> numbers;
  each<std::int64_t>(
      book,
      "SELECT l.line FROM line l JOIN live_entry USING (entry) WHERE l.kind = 'tool' AND lower(l.what) = "
      "lower(:what) AND NOT EXISTS (SELECT 1 FROM share s WHERE s.line = l.line) LIMIT 2",
      {{":what", transfer.what}}, [&](std::int64_t number) { numbers.push_back(number); });
  if (numbers.size() != 1) return std::nullopt;
  return line_by_number(book, numbers.front());
}

// The line that a part came with, which is the car's own or came to it from another one.
Line line_of_part(const Book& book, const Transfer& transfer) {
  Line line = expect_line(book, "transfer", transfer.line);
  const std::vector<std::string> cars = cars_with(book, line, {});
  if (std::find(cars.begin(), cars.end(), transfer.from) != cars.end()) return line;
  throw Refusal(
      fmt::format("transfer: line {} (\"{}\") is no part of {}, expected one that is{}", transfer.line,
                  line.what, transfer.from,
                  holder_of(book, line.number) ? fmt::format("; it went to {}", fmt::join(cars, ", ")) : ""));
}

// The only line of that name of which something stands in the car: a part of it is what is moved. Somebody says which where
// there are several. A quick line gives its place to a paper, and of what was bought for several cars nobody knows whose
// piece it is: such a move stands under no line, nor does one of before its paper.
std::optional<Line> only_part_named(Recording& recording, const Transfer& transfer) {
  const Book& book = recording.book();
  std::vector<std::int64_t> numbers;
  each<std::int64_t, std::string>(book,
                                  "SELECT l.line, l.what FROM line l JOIN live_entry USING (entry) JOIN "
                                  "paper p USING (entry) JOIN entry e "
                                  "USING (entry) WHERE p.itemised = 1 AND e.day <= :day AND l.kind IN "
                                  "('part', 'consumable') AND l.line IN (SELECT s.line FROM share s WHERE "
                                  "s.vehicle = :from UNION SELECT c.line FROM charged c "
                                  "WHERE c.vehicle = :from) ORDER BY l.line",
                                  {{":from", transfer.from}, {":day", open_day(book, transfer.day)}},
                                  [&](std::int64_t number, const std::string& what) {
                                    if (same_name(what, transfer.what)) numbers.push_back(number);
                                  });
  std::vector<Line> there;
  for (const std::int64_t number : numbers) {
    Line line = line_by_number(book, number);
    const std::vector<std::string> cars = cars_with(book, line, {});
    if (line.left() > Quantity{} && line.shares.size() == 1 &&
        std::find(cars.begin(), cars.end(), transfer.from) != cars.end())
      there.push_back(std::move(line));
  }
  if (there.size() == 1) return there.front();
  std::string ids;
  for (const Line& line : there) ids += (ids.empty() ? "" : ", ") + line.id;
  if (!there.empty())
    recording.remarks().push_back(
        fmt::format("transfer: {} has {} lines called \"{}\" ({}), and none is said: a deposit stays with {}",
                    transfer.from, there.size(), transfer.what, ids, transfer.from));
  return std::nullopt;
}

// The line of the tool or of the part, as far as one is known.
std::optional<Line> line_moved(Recording& recording, const Transfer& transfer) {
  if (transfer.from == account::tools)
    return transfer.to == account::overhead ? std::nullopt : line_of_tool(recording.book(), transfer);
  if (!transfer.line.empty()) return line_of_part(recording.book(), transfer);
  return is_entered_now(recording) ? only_part_named(recording, transfer) : std::nullopt;
}

// Between two cars that were sold before that day nothing moves but profit. From or to one of them it may: a seat
// that was kept, a part under a promise to the buyer.
void expect_one_here(const Recording& recording, const Transfer& transfer, const Life& from) {
  const Life to = life_of(recording.book(), transfer.to);
  const auto gone = [&](const Life& life) {
    return life.state == State::sold && life.ended_day < transfer.day;
  };
  if (!is_entered_now(recording) || !gone(from) || !gone(to)) return;
  throw Refusal(
      fmt::format("transfer: {} was sold on {} and {} on {}, expected that one of them was there on {}; give "
                  "the day on which it "
                  "was moved",
                  transfer.from, from.ended_day.iso(), transfer.to, to.ended_day.iso(), transfer.day.iso()));
}

}  // namespace

EntryId record(Recording& recording, const Transfer& transfer) {
  const bool tools = transfer.from == account::tools;
  const Life from = tools ? Life{} : expect_known(recording, "transfer", transfer.from);
  if (transfer.from == transfer.to)
    throw Refusal("transfer: from and to are both " + transfer.from + ", expected two cars");
  expect_positive(recording, "transfer", "the amount", transfer.amount);
  const bool spent = tools && transfer.to == account::overhead;
  const Money kept = balance_of(recording.book(), account::tools, account::tools_kept).amount;
  const Money most = spent   ? kept
                     : tools ? kept + balance_of(recording.book(), account::tools, "").amount
                             : position_of(recording.book(), transfer.from).carried;
  // Of a car in pieces more may come off than is not yet recovered: what was put into it up to that day.
  const bool enough =
      !tools && transfer.amount <= position_of(recording.book(), transfer.from, transfer.day).put_in();
  if ((from.state == State::owned || from.state == State::considered) && transfer.amount > most && !enough)
    throw Refusal(fmt::format("transfer: {} off {}, which carries a cost of {}; expected at most that",
                              transfer.amount.plain(recording.currency()), transfer.from,
                              most.plain(recording.currency())));
  expect_words("transfer", "what", transfer.what);
  if (!spent) meet_vehicle(recording, "transfer", transfer.to);
  if (!tools && !spent) expect_one_here(recording, transfer, from);
  Draft draft(recording, "transfer", transfer.day);
  if (!tools) draft.mention(transfer.from);
  if (!spent) draft.mention(transfer.to);
  Transfer told = transfer;
  const auto moved_line = line_moved(recording, transfer);
  if (moved_line) {
    told.line = moved_line->id;
    draft.detail("charged", {moved_line->number, transfer.to, transfer.amount.minor()});
  }
  const auto line = tools ? moved_line : std::nullopt;
  write(draft, recording.currency(), told);
  const auto moved = [&](const std::string& vehicle, Money in) {
    draft.post(account::vehicle_cost, vehicle, -in);
    draft.purpose({vehicle, "other cost", transfer.what, line ? line->number : 0, {}, in, {}});
  };
  if (spent)
    draft.post(account::overhead, "", transfer.amount);
  else
    moved(transfer.to, -transfer.amount);
  if (line) {
    // Off the account on which its paper put it, as far as that reaches.
    const char *own = line->tools_kept ? account::tools_kept : "",
               *other = line->tools_kept ? "" : account::tools_kept;
    const Money held = balance_of(recording.book(), account::tools, own).amount;
    const Money off_own = std::min(transfer.amount, std::max(held, Money{}));
    draft.post(account::tools, own, -off_own);
    draft.post(account::tools, other, off_own - transfer.amount);
  } else if (tools) {
    const Money off_kept = std::clamp(kept, Money{}, transfer.amount);
    draft.post(account::tools, account::tools_kept, -off_kept);
    draft.post(account::tools, "", off_kept - transfer.amount);
  } else {
    moved(transfer.from, transfer.amount);
  }
  return draft.record();
}

}  // namespace nonrunner::book
