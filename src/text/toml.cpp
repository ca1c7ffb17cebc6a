#include "text/toml.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <memory>
#include <system_error>

#define TOML_HEADER_ONLY 0
#include <toml++/toml.h>

#include "exact/decimal.h"
#include "exact/ends.h"
#include "text/unicode.h"

namespace nonrunner {

namespace {

// The shortest decimal digits that read back as this number: what the author typed, unless it had over 15
// digits.
std::string digits_of(double value) {
  char room[512];
  const auto end = std::to_chars(room, room + sizeof room, value, std::chars_format::fixed).ptr;
  return {room, end};
}

// A table of this program has a dozen keys; in one of many thousands each would be looked for among all.
constexpr std::size_t most_keys = 5000;

Value converted(const toml::node& node, const std::string& name) {
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
    for (const toml::node& item : *array) value.items.push_back(converted(item, name));
  } else if (const auto* table = node.as_table()) {
    value.kind = Value::Kind::table;
    if (table->size() > most_keys)
      throw Refusal(fmt::format("{}:{}: a table has {} keys, expected at most {}", name, value.line,
                                table->size(), most_keys));
    std::vector<std::pair<toml::source_position, std::size_t>> order;
    std::vector<std::pair<std::string, Value>> entries;
    for (const auto& [key, item] : *table) {
      order.emplace_back(key.source().begin, entries.size());
      entries.emplace_back(std::string(key.str()), converted(item, name));
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
  const auto cut = [](const std::string& s) { return cut_to(s, 40); };
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

std::string_view without_end_blanks(std::string_view text) {
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
    text.remove_suffix(1);
  return text;
}

// "price = $1450": a sign of a currency where the value begins.
bool begins_with_sign(std::string_view line) {
  const auto equals = line.find('=');
  if (equals == std::string_view::npos) return false;
  const auto value = line.find_first_not_of(" \t[", equals + 1);
  if (value == std::string_view::npos) return false;
  const auto first = static_cast<unsigned char>(line[value]);
  return first == '$' || first == 0xC2 || first == 0xE2;  // in UTF-8 pound, yen and euro begin so
}

// "price = 1,450.00": the last number of the line has its thousands parted by commas.
bool ends_in_groups(std::string_view line) {
  line = without_end_blanks(line.substr(0, line.find('#')));
  const auto take_digits = [&] {
    const auto last = line.find_last_not_of("0123456789");
    const std::size_t kept = last == std::string_view::npos ? 0 : last + 1, taken = line.size() - kept;
    line.remove_suffix(taken);
    return taken;
  };
  const auto take = [&](char c) {
    const bool there = !line.empty() && line.back() == c;
    if (there) line.remove_suffix(1);
    return there;
  };
  std::size_t digits = take_digits();
  if (digits > 0 && take('.')) digits = take_digits();
  bool grouped = false;
  while (digits == 3 && take(',')) {
    grouped = true;
    digits = take_digits();
  }
  if (!grouped || digits < 1 || digits > 3) return false;
  take('-');
  line = without_end_blanks(line);
  return !line.empty() && std::string_view("=[,").find(line.back()) != std::string_view::npos;
}

// What a person most likely meant where a line is not TOML: the parser's own words say what it could not
// read.
std::string toml_hint(std::string_view text, std::size_t line) {
  for (std::size_t at = 1; at < line && !text.empty(); ++at)
    text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  const std::string written(text.substr(0, text.find('\n')));
  if (begins_with_sign(written)) return "write an amount without a sign of the currency, such as 1450.00";
  if (ends_in_groups(written)) return "write an amount without commas, such as 1450.00";
  if (std::count(written.begin(), written.end(), '"') % 2 != 0) return "a quote is not closed on this line";
  return "";
}

}  // namespace

namespace {

// How deep a document may go: far deeper than any file of this program, far less than what the parser, which
// goes down by calling itself, has room for.
constexpr int most_parts_of_a_key = 8, most_nested = 32;

// Follows strings and comments as TOML has them; where the text is no TOML it stops, since the parser will.
class Depth {
 public:
  Depth(std::string_view text, const std::string& name) : text_(text), name_(name) {}
  void check() {
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '"' || c == '\'') {
        if (!pass_string(c)) return;
        continue;
      }
      if (c == '#') {
        at_ = std::min(text_.find('\n', at_), text_.size());
        continue;
      }
      weigh(c);
      ++at_;
    }
  }

 private:
  void weigh(char c) {
    if (c == '\n') ++line_;
    if (c == '.') {
      if (++parts_ >= most_parts_of_a_key)
        throw Refusal(
            fmt::format("{}:{}: a key has more than {} parts, expected one such as \"price\" or \"a.b\"",
                        name_, line_, most_parts_of_a_key));
    } else if (std::string_view("=,[]{}\n").find(c) != std::string_view::npos) {
      parts_ = 0;
    }
    if (c == '[' || c == '{') {
      if (++nested_ > most_nested)
        throw Refusal(
            fmt::format("{}:{}: lists and tables stand more than {} deep in one another, expected a few",
                        name_, line_, most_nested));
    } else if (c == ']' || c == '}') {
      --nested_;
    }
  }
  // Past the string that begins here; false where it has no end.
  bool pass_string(char quote) {
    const std::string three(3, quote);
    const bool lines = text_.substr(at_, 3) == three;
    at_ += lines ? 3 : 1;
    for (; at_ < text_.size(); ++at_) {
      const char c = text_[at_];
      if (c == '\n') ++line_;
      if (c == '\n' && !lines) return false;
      if (c == '\\' && quote == '"') {
        ++at_;
        if (at_ < text_.size() && text_[at_] == '\n') ++line_;
      } else if (c == quote && (!lines || text_.substr(at_, 3) == three)) {
        at_ += lines ? 3 : 1;
        // Up to two quotes may stand before the three that end it.
        for (int i = 0; lines && i < 2 && at_ < text_.size() && text_[at_] == quote; ++i) ++at_;
        return true;
      }
    }
    return false;
  }
  std::string_view text_;
  const std::string& name_;
  std::size_t at_ = 0;
  int line_ = 1, parts_ = 0, nested_ = 0;
};

}  // namespace

Value parse_toml(std::string_view text, const std::string& name) {
  Depth(text, name).check();
  try {
    const toml::table table = toml::parse(text, name);
    return converted(table, name);
  } catch (const toml::parse_error& error) {
    std::string what(error.description());
    std::replace(what.begin(), what.end(), '\n', ' ');
    const auto line = error.source().begin.line;
    const std::string hint = toml_hint(text, line);
    throw Refusal(fmt::format("{}:{}: not TOML: {}; {}", name, static_cast<int>(line), what,
                              hint.empty() ? "correct the line and try again" : hint));
  }
}

namespace {

std::string size_in_words(std::size_t bytes) { return fmt::format("{} MiB", bytes >> 20); }

// Standard input, or what an open file holds; no more than `most` and a byte of it.
std::string bytes_of(int file, const std::string& path, std::size_t most) {
  std::string bytes;
  std::array<char, 1 << 16> block;
  for (;;) {
    const ssize_t got = ::read(file, block.data(), block.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) {
      const int why = errno;
      throw MachineFailure(path + ": cannot be read: " + std::generic_category().message(why));
    }
    if (got == 0) return bytes;
    bytes.append(block.data(), static_cast<std::size_t>(got));
    if (bytes.size() > most)
      throw Refusal(path + ": is larger than " + size_in_words(most) + ", expected a file written by hand");
  }
}

}  // namespace

std::string read_file(const std::string& path, std::size_t most) {
  if (path == "-") return bytes_of(STDIN_FILENO, "standard input", most);
  // Opened without waiting: a pipe with a name that nobody writes to would be waited for.
  const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  const int why = errno;
  if (file < 0) {
    if (why == ENOENT || why == ENOTDIR) throw Refusal(path + ": there is no such file; check the name");
    throw MachineFailure(path + ": cannot be read: " + std::generic_category().message(why));
  }
  const std::unique_ptr<const int, void (*)(const int*)> closing(&file,
                                                                 [](const int* open) { ::close(*open); });
  struct stat about {};
  if (::fstat(file, &about) != 0)
    throw MachineFailure(path + ": cannot be read: " + std::generic_category().message(errno));
  if (!S_ISREG(about.st_mode) && !S_ISFIFO(about.st_mode))
    throw Refusal(path + ": found something that is not a file, expected a file");
  if (S_ISFIFO(about.st_mode)) ::fcntl(file, F_SETFL, 0);  // somebody writes to it: they are waited for
  return bytes_of(file, path, most);
}

}  // namespace nonrunner
