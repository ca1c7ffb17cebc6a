#include "text/toml.h"

#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <iostream>
#include <iterator>
#include <regex>
#include <system_error>

#define TOML_HEADER_ONLY 0
#include <toml++/toml.h>

#include "exact/decimal.h"
#include "exact/ends.h"

namespace nonrunner {

namespace {

// The shortest decimal digits that read back as this number: what the author typed, unless it had over 15
// digits.
std::string digits_of(double value) {
  char room[512];
  const auto end = std::to_chars(room, room + sizeof room, value, std::chars_format::fixed).ptr;
  return {room, end};
}

Value converted(const toml::node& node) {
  Value value;
  value.line = static_cast<int>(node.source().begin.line);
  if (const auto* text = node.as_string()) {
    value.kind = Value::Kind::text;
    value.text = text->get();
  } else if (const auto* whole = node.as_integer()) {
    value.kind = Value::Kind::whole;
    value.text = std::to_string(whole->get());
    value.real = static_cast<double>(whole->get());
  } else if (const auto* real = node.as_floating_point()) {
    value.kind = Value::Kind::real;
    value.real = real->get();
    value.text = std::isfinite(value.real) ? digits_of(value.real) : "not a number";
    if (!std::isfinite(value.real)) value.kind = Value::Kind::other;
  } else if (const auto* flag = node.as_boolean()) {
    value.kind = Value::Kind::flag;
    value.flag = flag->get();
  } else if (const auto* date = node.as_date()) {
    if (date->get().year >= 1 && date->get().year <= 9999) {
      value.kind = Value::Kind::day;
      value.day = Day(date->get().year, date->get().month, date->get().day);
    }
  } else if (const auto* array = node.as_array()) {
    value.kind = Value::Kind::array;
    for (const toml::node& item : *array) value.items.push_back(converted(item));
  } else if (const auto* table = node.as_table()) {
    value.kind = Value::Kind::table;
    std::vector<std::pair<toml::source_position, std::size_t>> order;
    std::vector<std::pair<std::string, Value>> entries;
    for (const auto& [key, item] : *table) {
      order.emplace_back(key.source().begin, entries.size());
      entries.emplace_back(std::string(key.str()), converted(item));
      entries.back().second.line = static_cast<int>(key.source().begin.line);
    }
    std::stable_sort(order.begin(), order.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    for (const auto& [place, at] : order) value.entries.push_back(std::move(entries[at]));
  }
  return value;
}

}  // namespace

Value::Value() = default;
Value::Value(const Value&) = default;
Value::Value(Value&&) noexcept = default;
Value& Value::operator=(const Value&) = default;
Value& Value::operator=(Value&&) noexcept = default;
Value::~Value() = default;

const Value* Value::find(std::string_view key) const {
  for (const auto& [name, value] : entries)
    if (name == key) return &value;
  return nullptr;
}

std::string Value::shown() const {
  const auto cut = [](std::string s) {
    if (s.size() > 40) {
      s.resize(37);
      // A character of several bytes is not cut in the middle.
      while (!s.empty() && (static_cast<unsigned char>(s.back()) & 0xC0) == 0x80) s.pop_back();
      if (!s.empty() && static_cast<unsigned char>(s.back()) >= 0xC0) s.pop_back();
      s += "...";
    }
    for (char& c : s)
      if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = ' ';
    return s;
  };
  switch (kind) {
    case Kind::text:
      return "\"" + cut(text) + "\"";
    case Kind::whole:
    case Kind::real:
      return cut(text);
    case Kind::flag:
      return flag ? "true" : "false";
    case Kind::day:
      return day.iso();
    case Kind::array: {
      std::string all = "[";
      for (const Value& item : items) all += (all.size() > 1 ? ", " : "") + item.shown();
      return cut(all + "]");
    }
    case Kind::table:
      return "a table";
    case Kind::other:
      return text.empty() ? "a date with a time" : text;
  }
  return "";
}

namespace {

// What a person most likely meant where a line is not TOML: the parser's own words say what it could not
// read.
std::string toml_hint(std::string_view text, std::size_t line) {
  for (std::size_t at = 1; at < line && !text.empty(); ++at)
    text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  const std::string written(text.substr(0, text.find('\n')));
  static const std::regex grouped(R"([=\[,]\s*-?\d{1,3}(,\d{3})+(\.\d+)?\s*(#.*)?$)"),
      sign(R"(=\s*\[?\s*(\$|\xC2|\xE2))");
  if (std::regex_search(written, sign))
    return "write an amount without a sign of the currency, such as 1450.00";
  if (std::regex_search(written, grouped)) return "write an amount without commas, such as 1450.00";
  if (std::count(written.begin(), written.end(), '"') % 2 != 0) return "a quote is not closed on this line";
  return "";
}

}  // namespace

Value parse_toml(std::string_view text, const std::string& name) {
  try {
    const toml::table table = toml::parse(text, name);
    return converted(table);
  } catch (const toml::parse_error& error) {
    std::string what(error.description());
    std::replace(what.begin(), what.end(), '\n', ' ');
    const auto line = error.source().begin.line;
    const std::string hint = toml_hint(text, line);
    throw Refusal(fmt::format("{}:{}: not TOML: {}; {}", name, static_cast<int>(line), what,
                              hint.empty() ? "correct the line and try again" : hint));
  }
}

std::string read_file(const std::string& path) {
  constexpr std::size_t most = 64u << 20;
  if (path == "-") return {std::istreambuf_iterator<char>(std::cin), {}};
  struct stat about {};
  if (::stat(path.c_str(), &about) != 0) {
    const int why = errno;
    if (why == ENOENT || why == ENOTDIR) throw Refusal(path + ": there is no such file; check the name");
    throw MachineFailure(path + ": cannot be read: " + std::generic_category().message(why));
  }
  if (!S_ISREG(about.st_mode) && !S_ISFIFO(about.st_mode))
    throw Refusal(path + ": found something that is not a file, expected a file");
  std::ifstream in(path, std::ios::binary);
  std::string bytes(std::istreambuf_iterator<char>(in), {});
  if (!in) throw MachineFailure(path + ": cannot be read: " + std::generic_category().message(errno));
  if (bytes.size() > most) throw Refusal(path + ": is larger than 64 MiB, expected a file written by hand");
  return bytes;
}

}  // namespace nonrunner
