#include "reports/clean_text.h"

#include <cstdint>
#include <vector>

namespace nonrunner::reports {

namespace {

constexpr char32_t unreadable = 0xFFFD;

// The next character of UTF-8 text from `at` on, which it moves past it. Overlong forms, surrogates and
// values beyond U+10FFFF are refused as the Unicode standard asks (table 3-7); a wrong byte counts as one
// unreadable character.
char32_t next_character(std::string_view text, std::size_t& at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(at++);
  if (first < 0x80) return first;
  int more = 0;
  char32_t value = 0, least = 0;
  if (first >= 0xC2 && first <= 0xDF)
    more = 1, value = first & 0x1F, least = 0x80;
  else if (first >= 0xE0 && first <= 0xEF)
    more = 2, value = first & 0x0F, least = 0x800;
  else if (first >= 0xF0 && first <= 0xF4)
    more = 3, value = first & 0x07, least = 0x10000;
  else
    return unreadable;
  std::size_t to = at;
  for (int i = 0; i < more; ++i, ++to) {
    if (to >= text.size() || (byte(to) & 0xC0) != 0x80) return unreadable;
    value = value << 6 | (byte(to) & 0x3F);
  }
  if (value < least || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF)) return unreadable;
  at = to;
  return value;
}

bool allowed(char32_t c) {
  if (c == '\t' || c == '\n') return true;
  return c >= 0x20 && !(c >= 0x7F && c <= 0x9F) && c != 0xFFFE && c != 0xFFFF;
}

void append(std::string& out, char32_t c) {
  const auto put = [&](char32_t byte) { out += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (c < 0x80) return put(c);
  if (c < 0x800) return put(0xC0 | c >> 6), put(0x80 | (c & 0x3F));
  if (c < 0x10000) return put(0xE0 | c >> 12), put(0x80 | (c >> 6 & 0x3F)), put(0x80 | (c & 0x3F));
  put(0xF0 | c >> 18), put(0x80 | (c >> 12 & 0x3F)), put(0x80 | (c >> 6 & 0x3F)), put(0x80 | (c & 0x3F));
}

bool is_hexadecimal(char32_t c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}

bool looks_escaped(const std::vector<char32_t>& text, std::size_t at) {
  if (at + 6 >= text.size() || text[at] != '_' || text[at + 1] != 'x' || text[at + 6] != '_') return false;
  for (std::size_t i = at + 2; i < at + 6; ++i)
    if (!is_hexadecimal(text[i])) return false;
  return true;
}

std::size_t utf16_units(char32_t c) { return c < 0x10000 ? 1 : 2; }

}  // namespace

std::string clean_text(std::string_view text, std::size_t most) {
  std::vector<char32_t> kept;
  std::size_t units = 0;
  bool cut = false;
  for (std::size_t at = 0; at < text.size();) {
    if (text[at] == '\r') {
      if (++at < text.size() && text[at] == '\n') continue;  // the line feed that follows is taken instead
      kept.push_back('\n');
    } else {
      const char32_t c = next_character(text, at);
      kept.push_back(allowed(c) ? c : unreadable);
    }
    units += utf16_units(kept.back());
    if (units > most) {
      cut = true;
      break;
    }
  }
  if (cut) {
    while (!kept.empty() && units + 1 > most) {
      units -= utf16_units(kept.back());
      kept.pop_back();
    }
    kept.push_back(0x2026);
    ++units;
  }
  std::string out;
  std::size_t escapes = 0;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    if (looks_escaped(kept, i)) out += "_x005F", ++escapes;  // the underscore itself, escaped
    append(out, kept[i]);
  }
  // The writer counts the escapes too: where they do not fit, so much less of the text is kept.
  const std::size_t too_many = units + 6 * escapes;
  if (escapes > 0 && too_many > most)
    return clean_text(text, most > 6 * escapes ? most - 6 * escapes : most / 7);
  return out;
}

}  // namespace nonrunner::reports
