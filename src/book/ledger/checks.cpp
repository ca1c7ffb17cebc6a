#include "book/ledger/checks.h"

#include <fmt/format.h>

#include "exact/hint.h"

namespace nonrunner::book {

namespace {
[[noreturn]] void refuse_amount(const Currency& currency, const std::string& event, const std::string& what,
                                Money amount, const char* expected) {
  throw Refusal(fmt::format("{}: {} is {}, expected {}", event, what, amount.plain(currency), expected));
}
}  // namespace

bool is_entered_now(const Recording& recording) {
  return recording.wary || recording.strict_words || !recording.typed_by.empty();
}

void expect_still_ahead(const Recording& recording, const std::string& event, const std::string& what,
                        Day last, Day of_entry) {
  if (last >= of_entry || !is_entered_now(recording)) return;
  throw Refusal(
      fmt::format("{}: the last day for {} is {}, expected {}, the day of the entry, or a later one", event,
                  what, last.iso(), of_entry.iso()));
}

void expect_positive(const Recording& recording, const std::string& event, const std::string& what,
                     Money amount) {
  if (amount <= Money{}) refuse_amount(recording.currency(), event, what, amount, "more than 0");
}

void expect_not_negative(const Recording& recording, const std::string& event, const std::string& what,
                         Money amount) {
  if (is_negative(amount)) refuse_amount(recording.currency(), event, what, amount, "0 or more");
}

void expect_some(const std::string& event, const std::string& what, Quantity quantity) {
  if (quantity <= Quantity{})
    throw Refusal(fmt::format("{}: {} is {}, expected more than 0", event, what, quantity.shown()));
}

void expect_words(const std::string& event, const std::string& what, const std::string& text) {
  if (text.empty()) throw Refusal(fmt::format("{}: {} is empty, expected a few words", event, what));
}

void expect_come(const Recording& recording, const std::string& where, Day day) {
  if (day <= recording.today()) return;
  throw Refusal(fmt::format("{}: the day {} has not come yet, expected {} at the latest", where, day.iso(),
                            recording.today().iso()));
}

Life expect_known(Recording& recording, const std::string& event, const std::string& tag) {
  know_vehicle(recording.book(), event, tag);
  return life_of(recording.book(), tag);
}

void expect_not_ended(const Book& book, const std::string& event, const std::string& tag, Day day) {
  for (const Turn& turn : turns_of(book, tag)) {
    if (!turn.ends() || !turn.counts_at_or_after(day)) continue;
    if (turn.until)
      throw Refusal(fmt::format(
          "{}: {} was {} on {} (entry {}), and that stood until {}; expected that day or a later one", event,
          tag, turn.turn, turn.from.iso(), turn.entry, turn.until->iso()));
    throw hinted<Refusal>(fmt::format("{}: {} was {} on {} (entry {}); to take that back", event, tag,
                                      turn.turn, turn.from.iso(), turn.entry),
                          {Action::take_back, {{"entry", std::to_string(turn.entry)}}});
  }
}

void refuse_left(const std::string& event, const std::string& tag, const Life& life) {
  throw hinted<Refusal>(fmt::format("{}: {} was looked at and left on {} (entry {}), expected a car that may "
                                    "be bought; enter the purchase "
                                    "first",
                                    event, tag, life.passed_day.iso(), life.passed),
                        {Action::buy, {{"tag", tag}}});
}

void expect_was_bought(const Recording& recording, const std::string& event, const std::string& tag,
                       const Life& life) {
  if (!is_entered_now(recording) || recording.corrects) return;
  if (life.state != State::considered && life.state != State::passed) return;
  throw hinted<Refusal>(fmt::format("{}: {} is {}, expected a car that was bought; enter the purchase first",
                                    event, tag, shown(life.state)),
                        {Action::buy, {{"tag", tag}}});
}

void refuse_ended(const std::string& event, const std::string& tag, const Life& life) {
  throw hinted<Refusal>(fmt::format("{}: {} was {} on {} (entry {}); to take that back", event, tag,
                                    shown(life.state), life.ended_said.iso(), life.ended),
                        {Action::take_back, {{"entry", std::to_string(life.ended)}}});
}

}  // namespace nonrunner::book
