#include "commands/event_words.h"

#include <algorithm>

#include "commands/entry_number.h"
#include "exact/ends.h"
#include "text/tag.h"

namespace nonrunner::commands {

namespace {

std::string dashed(std::string key) {
  std::replace(key.begin(), key.end(), '_', '-');
  return key;
}

std::string value_of(const book::Described& field) {
  using book::Holds;
  switch (field.holds) {
    case Holds::flag:
      return "";
    case Holds::day:
      return "DAY";
    case Holds::money:
    case Holds::price:
      return "AMOUNT";
    case Holds::quantity:
    case Holds::hours:
    case Holds::distance:
      return "N";
    case Holds::entry:
      return "ENTRY";
    case Holds::text:
    case Holds::fraction:
    case Holds::texts:
    case Holds::amounts:
    case Holds::shares:
    case Holds::rows:
      break;
  }
  switch (field.text) {
    case book::Text::tag:
      return "TAG";
    case book::Text::line:
      return "LINE";
    case book::Text::file:
      return "FILE";
    case book::Text::words:
      return "TEXT";
    case book::Text::choice:
      return "WORD";
    default:
      return "NAME";
  }
}

}  // namespace

FromWords::FromWords(const Given& given, Terminal& terminal, const book::Book& book, std::string event,
                     std::vector<std::string> words)
    : given_(given), terminal_(terminal), book_(book), event_(std::move(event)), words_(std::move(words)) {}

std::optional<std::string> FromWords::typed(const book::Field& field) const {
  for (std::size_t at = 0; at < words_.size(); ++at)
    if (words_[at] == field.key) return given_.word_if(at);
  return given_.text(dashed(field.key));
}

template <class Value, class Read>
void FromWords::take(const book::Field& field, Value& value, Read read) const {
  const auto text = typed(field);
  if (!text) return;
  try {
    value = read(*text);
  } catch (const Refusal& refusal) {
    const bool word = std::find(words_.begin(), words_.end(), field.key) != words_.end();
    given_.wrong((word ? "" : "--" + dashed(field.key) + ": ") + refusal.what());
  }
}

void FromWords::day(const book::Field& field, Day& day) {
  if (std::string(field.key) == "date")
    day = date_of(given_, terminal_);
  else
    take(field, day, [&](const std::string& text) { return typed_day(text, given_.today(), Looks::back); });
}
void FromWords::day(const book::Field& field, std::optional<Day>& day) {
  take(field, day, [&](const std::string& text) { return typed_day(text, given_.today(), Looks::forward); });
}

void FromWords::text(const book::Field& field, book::Text kind, std::string& text) {
  const auto given = typed(field);
  if (given)
    text = kind == book::Text::tag ? as_tag(*given) : *given;
  else if (kind == book::Text::purse && field.need == book::Need::must)
    text = purse_of(given_, terminal_, book_, event_);
}

void FromWords::money(const book::Field& field, Money& money) {
  take(field, money, [&](const std::string& text) { return typed_money(text, book_.currency()); });
}
void FromWords::money(const book::Field& field, std::optional<Money>& money) {
  take(field, money, [&](const std::string& text) { return typed_money(text, book_.currency()); });
}
void FromWords::price(const book::Field& field, Price& price) {
  take(field, price, [&](const std::string& text) { return typed_price(text, book_.currency()); });
}
void FromWords::price(const book::Field& field, std::optional<Price>& price) {
  take(field, price, [&](const std::string& text) { return typed_price(text, book_.currency()); });
}
void FromWords::quantity(const book::Field& field, Quantity& quantity, Quantity absent) {
  quantity = absent;
  take(field, quantity, [](const std::string& text) { return Quantity::parse(plain_number(text)); });
}
void FromWords::hours(const book::Field& field, Hours& hours) {
  take(field, hours, [](const std::string& text) { return Hours::parse(plain_hours(text)); });
}
void FromWords::distance(const book::Field& field, Distance& distance) {
  take(field, distance, [](const std::string& text) { return Distance::parse(plain_number(text)); });
}
void FromWords::flag(const book::Field& field, bool& flag, bool absent) {
  flag = given_.flag(dashed(field.key)) ? !absent : absent;
}
void FromWords::entry(const book::Field& field, book::EntryId& entry) {
  if (const auto text = typed(field)) entry = entry_number(given_, *text);
}

std::vector<Option> with_new(std::vector<Option> of_event, std::vector<Option> own) {
  own.insert(own.end(), of_event.begin(), of_event.end());
  own.push_back(new_option());
  return own;
}

std::vector<Option> options_of(const std::vector<book::Described>& fields,
                               std::initializer_list<const char*> words) {
  std::vector<Option> all;
  for (const book::Described& field : fields) {
    if (std::any_of(words.begin(), words.end(), [&](const char* word) { return field.key == word; }))
      continue;
    if (field.key == "date")
      all.push_back(date_option());
    else if (field.text == book::Text::purse)
      all.push_back(purse_option());
    else
      all.push_back({dashed(field.key), value_of(field), field.means});
  }
  // The day last, as everywhere.
  std::stable_partition(all.begin(), all.end(), [](const Option& option) { return option.name != "date"; });
  return all;
}

}  // namespace nonrunner::commands
