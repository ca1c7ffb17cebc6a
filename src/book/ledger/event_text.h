// An event written as one line of an events file: `{ do = "owner in", date = 2025-02-28, ... }`. It is what
// an entry keeps of the event, and what `export --events` writes: book -> events -> book.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "exact/day.h"
#include "exact/money.h"
#include "exact/price.h"
#include "exact/thousandths.h"
#include "text/value.h"

namespace nonrunner::book {

class EventText {
 public:
  explicit EventText(Currency currency) : currency_(std::move(currency)) {}
  EventText& text(std::string_view key, std::string_view value);  // an empty text is left out
  EventText& day(std::string_view key, Day);
  EventText& day(std::string_view key, const std::optional<Day>&);
  EventText& money(std::string_view key, Money);
  EventText& price(std::string_view key, Price);
  EventText& number(std::string_view key, const std::string& decimal);
  EventText& flag(std::string_view key, bool value);  // false is left out
  EventText& table(std::string_view key, const EventText&);
  EventText& list(std::string_view key, const std::vector<EventText>&);
  EventText& texts(std::string_view key, const std::vector<std::string>&);  // an empty list is left out
  std::string line() const;

 private:
  void key(std::string_view);
  Currency currency_;
  std::string body_;
};

// The event that an entry keeps, as a tree whose key "e" it is. A book of an older version may keep bytes that are
// no text: they become U+FFFD, so that one entry keeps nobody from reading the others. Throws Refusal for what is
// no event at all, which only somebody behind the book's back can have written.
Value kept_event(const std::string& event);

std::string toml_text(std::string_view);  // a TOML basic string

}  // namespace nonrunner::book
