#include "book/ledger/event_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "text/toml.h"
#include "text/unicode.h"

namespace nonrunner::book {

Value kept_event(const std::string& event) { return parse_toml("e = " + made_utf8(event), "entry"); }

std::string toml_text(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\')
      (out += '\\') += c;
    else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f)
      out += fmt::format("\\u{:04X}", static_cast<unsigned>(c));
    else
      out += c;
  }
  return out + "\"";
}

void EventText::key(std::string_view key) {
  if (!body_.empty()) body_ += ", ";
  const bool bare = !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == '_';
  });
  body_ += bare ? std::string(key) : toml_text(key);
  body_ += " = ";
}

EventText& EventText::text(std::string_view name, std::string_view value) {
  if (value.empty()) return *this;
  key(name);
  body_ += toml_text(value);
  return *this;
}

EventText& EventText::day(std::string_view name, Day value) {
  key(name);
  body_ += value.iso();
  return *this;
}

EventText& EventText::day(std::string_view name, const std::optional<Day>& value) {
  return value ? day(name, *value) : *this;
}

EventText& EventText::money(std::string_view name, Money value) {
  key(name);
  body_ += value.plain(currency_);
  return *this;
}

EventText& EventText::price(std::string_view name, Price value) {
  key(name);
  body_ += value.plain(currency_);
  return *this;
}

EventText& EventText::number(std::string_view name, const std::string& decimal) {
  key(name);
  body_ += decimal;
  return *this;
}

EventText& EventText::flag(std::string_view name, bool value) {
  if (!value) return *this;
  key(name);
  body_ += "true";
  return *this;
}

EventText& EventText::table(std::string_view name, const EventText& value) {
  key(name);
  body_ += value.line();
  return *this;
}

EventText& EventText::list(std::string_view name, const std::vector<EventText>& values) {
  key(name);
  body_ += "[";
  for (const EventText& value : values) body_ += (body_.back() == '[' ? "" : ", ") + value.line();
  body_ += "]";
  return *this;
}

EventText& EventText::texts(std::string_view name, const std::vector<std::string>& values) {
  if (values.empty()) return *this;
  key(name);
  body_ += "[";
  for (const std::string& value : values) body_ += (body_.back() == '[' ? "" : ", ") + toml_text(value);
  body_ += "]";
  return *this;
}

std::string EventText::line() const { return body_.empty() ? "{}" : "{ " + body_ + " }"; }

}  // namespace nonrunner::book
