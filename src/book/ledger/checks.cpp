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

Life expect_known(Recording& recording, const std::string& event, const std::string& tag) {
  know_vehicle(recording.book(), event, tag);
  return life_of(recording.book(), tag);
}

void refuse_ended(const std::string& event, const std::string& tag, const Life& life) {
  throw hinted<Refusal>(fmt::format("{}: {} was {} on {} (entry {}); to take that back", event, tag,
                                    shown(life.state), life.ended_day.iso(), life.ended),
                        {Action::void_entry, {{"entry", std::to_string(life.ended)}}});
}

}  // namespace nonrunner::book
