#include "book/events/shelf.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/assigned.h"
#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/position.h"
#include "book/ledger/query.h"
#include "book/ledger/shelf_days.h"
#include "exact/hint.h"
#include "exact/nearest.h"
#include "exact/spread.h"

namespace nonrunner::book {

namespace {

void expect_item(const Book& book, const std::string& event, const std::string& item) {
  const auto items = names_of(book, account::stock);
  if (std::find(items.begin(), items.end(), item) != items.end()) return;
  const std::string found = fmt::format("{}: there is no \"{}\" on the shelf", event, item);
  if (const std::string near = did_you_mean(item, items); !near.empty()) throw Refusal(found + near);
  throw hinted<Refusal>(found, {Action::list_stock, {}});
}

// What comes off a car that is not sold is at most what the car carries, or what was put into it up to that
// day: of a car in pieces more may come off than is not yet recovered. On the days after, see day_checks.h.
void expect_carried(const Recording& recording, const std::string& tag, Money amount, Day day) {
  const Position position = position_of(recording.book(), tag);
  const State state = position.life.state;
  const Money most = position.carried;
  if ((state == State::owned || state == State::considered) && amount > most &&
      amount > position_of(recording.book(), tag, day).put_in())
    throw Refusal(fmt::format("shelve: {} off {}, which carries a cost of {}; expected at most that",
                              amount.plain(recording.currency()), tag, most.plain(recording.currency())));
}

}  // namespace

namespace {
// A count of that day or a later one: what is drawn before it is no matter of what lies there now.
bool counted_from(const Book& book, const std::string& item, Day day) {
  return *first<bool>(
      book,
      "SELECT EXISTS (SELECT 1 FROM shelf s JOIN live_entry e USING (entry) WHERE s.item = :item "
      "AND s.about >= :from AND s.what = 'count')",
      {{":item", item}, {":from", day}});
}
}  // namespace

void fields(Draw& draw, Fields& f) {
  f.day({"date", "the day of it"}, draw.day);
  f.text({"vehicle", "the car that it was used on"}, Text::tag, draw.vehicle);
  f.text({"stock", "what was taken off the shelf"}, Text::item, draw.stock);
  f.quantity({"qty", "how much of it"}, draw.quantity, {});
  f.text({"heading", "where it stands in the budget, where its words do not say it", Need::may}, Text::name,
         draw.heading);
}

void fields(Count& count, Fields& f) {
  f.day({"date", "the day of it"}, count.day);
  f.text({"stock", "what was counted"}, Text::item, count.stock);
  f.quantity({"qty", "how much was found"}, count.found, {});
}

void fields(Shelve& shelve, Fields& f) {
  f.day({"date", "the day of it"}, shelve.day);
  f.text({"line", "the receipt line that it came with", Need::may}, Text::line, shelve.line);
  f.text({"vehicle", "or the car that it comes off,", Need::may}, Text::tag, shelve.vehicle);
  f.text({"what", "what it is,", Need::may}, Text::words, shelve.what);
  f.money({"amount", "and its cost (of a line: else its share)", Need::may}, shelve.amount);
  f.text({"stock", "the shelf that it goes to"}, Text::item, shelve.stock);
  f.quantity({"qty", "how many pieces"}, shelve.quantity, {});
}

void expect_on_shelf(const Book& book, const std::string& event, const std::string& item, Quantity pieces,
                     Day day) {
  expect_item(book, event, item);
  expect_some(event, "the quantity of \"" + item + "\"", pieces);
  const Balance shelf = balance_of(book, account::stock, item);
  if (pieces > shelf.quantity && !counted_from(book, item, day))
    throw hinted<Refusal>(fmt::format("{}: {} of \"{}\", but {} on the shelf", event, pieces.shown(), item,
                                      shelf.quantity.shown()),
                          {Action::count_stock,
                           {{"item", item},
                            // Much more than there is: one piece may be a box of many.
                            {"boxed", event == "draw" && shelf.quantity > Quantity{} &&
                                              pieces >= shelf.quantity + shelf.quantity
                                          ? "may be"
                                          : ""}}});
}

EntryId record(Recording& recording, const Draw& draw) {
  const Book& book = recording.book();
  Draft draft(recording, "draw", draw.day);
  expect_on_shelf(book, "draw", draw.stock, draw.quantity, draft.day());
  meet_vehicle(recording, "draw", draw.vehicle);
  const ShelfMove move{"draw", draw.vehicle, 0, Quantity{} - draw.quantity, {}, {}};
  const ShelfChange change = change_of_shelf(book, "draw", draw.stock, draft.day(), move);
  draft.mention(draw.vehicle);
  write(draft, recording.currency(), draw);
  draft.post(account::vehicle_cost, draw.vehicle, -change.amount, Quantity{});
  draft.purpose({draw.vehicle, "consumable", draw.stock, 0, draw.quantity, change.amount, {}});
  post_to_shelf(draft, draw.stock, move, change);
  const EntryId entry = draft.record();
  if (!draw.heading.empty()) assign(recording, {draw.vehicle, "", "", entry, draw.heading});
  return entry;
}

std::optional<Quantity> counted_on(const Book& book, const std::string& item, Day day) {
  return first<Quantity>(
      book,
      "SELECT s.said FROM shelf s JOIN live_entry e USING (entry) WHERE s.item = :item AND "
      "s.about = :day AND s.what = 'count' LIMIT 1",
      {{":item", item}, {":day", day}});
}

namespace {
// What another count of that day found, where it found something else.
std::optional<Quantity> counted_otherwise(const Book& book, const Count& count, Day day) {
  return first<Quantity>(
      book,
      "SELECT s.said FROM shelf s JOIN live_entry e USING (entry) WHERE s.item = :item AND "
      "s.about = :day AND s.what = 'count' AND s.said <> :found LIMIT 1",
      {{":item", count.stock}, {":day", day}, {":found", count.found}});
}
}  // namespace

EntryId record(Recording& recording, const Count& count) {
  const Book& book = recording.book();
  expect_item(book, "count", count.stock);
  if (count.found < Quantity{})
    throw Refusal(
        fmt::format("count: found {} of \"{}\", expected 0 or more", count.found.shown(), count.stock));
  Draft draft(recording, "count", count.day);
  if (const auto other = counted_otherwise(book, count, draft.day()))
    throw Refusal(
        fmt::format("count: {} of \"{}\", but {} were counted on that day already, {}; expected the "
                    "same, or another day",
                    count.found.shown(), count.stock, other->shown(), draft.day().iso()));
  write(draft, recording.currency(), count);
  const ShelfMove move{"count", "", 0, {}, {}, count.found.thousandths()};
  const ShelfChange change = change_of_shelf(book, "count", count.stock, draft.day(), move);
  post_to_shelf(draft, count.stock, move, change);
  if (change.quantity != Quantity{}) draft.post(account::overhead, "", -change.amount, Quantity{});
  return draft.record();
}

EntryId record(Recording& recording, const Shelve& shelve) {
  const Book& book = recording.book();
  expect_some("shelve", "the quantity", shelve.quantity);
  expect_words("shelve", "the item", shelve.stock);
  Draft draft(recording, "shelve", shelve.day);
  Shelve kept = shelve;
  Money amount;
  if (!shelve.line.empty()) {
    const Line line = expect_line(book, "shelve", shelve.line);
    if (line.kind == "stock" || line.shares.empty())
      throw Refusal(fmt::format("shelve: line {} (\"{}\") is not on a car, expected a line that is",
                                shelve.line, line.what));
    if (shelve.quantity > line.left())
      throw Refusal(fmt::format("shelve: {} of line {} (\"{}\"), expected at most {}",
                                shelve.quantity.shown(), shelve.line, line.what, line.left().shown()));
    amount =
        shelve.amount.value_or(Money::of_minor(scaled(line.cost().minor(), shelve.quantity.thousandths(),
                                                      line.quantity.thousandths(), Rounding::half_away)));
    expect_not_negative(recording, "shelve", "the amount", amount);
    kept.vehicle.clear();
    kept.what.clear();
    std::vector<std::int64_t> weights;
    for (const Share& share : line.shares) weights.push_back(share.weight);
    const std::vector<Money> parts = spread(amount, weights);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      expect_carried(recording, line.shares[i].vehicle, parts[i], draft.day());
      draft.mention(line.shares[i].vehicle);
    }
    post_to_line(draft, line, -amount, "other cost", line.what + " put on the shelf",
                 Quantity{} - shelve.quantity);
    draft.detail("given_back", {line.number, std::string("shelf"), shelve.quantity.thousandths(),
                                amount.minor(), std::int64_t{0}, std::int64_t{0}});
  } else {
    if (shelve.vehicle.empty() || !shelve.amount)
      throw Refusal("shelve: found neither a line nor a vehicle with an amount, expected one of them");
    expect_known(recording, "shelve", shelve.vehicle);
    amount = *shelve.amount;
    expect_not_negative(recording, "shelve", "the amount", amount);
    expect_carried(recording, shelve.vehicle, amount, draft.day());
    draft.mention(shelve.vehicle);
    draft.post(account::vehicle_cost, shelve.vehicle, -amount, Quantity{});
    draft.purpose({shelve.vehicle, "other cost", shelve.what, 0, {}, amount, {}});
  }
  kept.amount = amount;
  write(draft, recording.currency(), kept);
  post_to_shelf(draft, shelve.stock, {"in", "", 0, shelve.quantity, amount, {}}, {shelve.quantity, amount});
  return draft.record();
}

}  // namespace nonrunner::book
