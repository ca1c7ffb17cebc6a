#include "book/events/transfer.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/moved.h"
#include "book/ledger/position.h"
#include "book/ledger/query.h"
#include "exact/ends.h"

namespace nonrunner::book {

void fields(Transfer& transfer, Fields& f) {
  f.day({"date", "the day of it"}, transfer.day);
  f.text({"from", "the car that it comes off; or tools: their cost is charged to a car only so"}, Text::tag,
         transfer.from);
  f.text({"to", "the car that it goes to; or overhead: tools kept as an asset that are worn out"}, Text::tag,
         transfer.to);
  f.text({"what", "what is moved"}, Text::words, transfer.what);
  f.money({"amount", "at what cost"}, transfer.amount);
  f.text({"line",
          "of tools: the receipt line of the tool (else the only one named so); of a part: its line, whose "
          "deposit goes along",
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
  const auto line = tools && !spent ? line_of_tool(recording.book(), transfer) : std::nullopt;
  Transfer told = transfer;
  if (!tools && !transfer.line.empty()) {
    const Line part = line_of_part(recording.book(), transfer);
    draft.detail("charged", {part.number, transfer.to, transfer.amount.minor()});
  }
  if (line) {
    told.line = line->id;
    draft.detail("charged", {line->number, transfer.to, transfer.amount.minor()});
  }
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
