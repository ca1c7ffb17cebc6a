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

// The characters of the text as a cell may hold them; no more than `enough` are looked for.
std::vector<char32_t> characters(std::string_view text, std::size_t enough) {
  std::vector<char32_t> kept;
  for (std::size_t at = 0; at < text.size() && kept.size() < enough;) {
    if (text[at] == '\r') {
      if (++at < text.size() && text[at] == '\n') continue;  // the line feed that follows is taken instead
      kept.push_back('\n');
    } else {
      const char32_t c = next_character(text, at);
      kept.push_back(allowed(c) ? c : unreadable);
    }
  }
  return kept;
}

}  // namespace

std::string clean_text(std::string_view text, std::size_t most) {
  const std::vector<char32_t> kept = characters(text, most + 1);
  constexpr char32_t more_follows = 0x2026;
  constexpr std::size_t escape = 6;  // "_x005F_" in place of "_"
  std::string out;
  std::size_t units = 0, last_that_leaves_room = 0;  // in bytes of `out`
  for (std::size_t i = 0; i < kept.size(); ++i) {
    const bool escaped = looks_escaped(kept, i);
    units += utf16_units(kept[i]) + (escaped ? escape : 0);
    if (units > most) {
      out.resize(last_that_leaves_room);
      append(out, more_follows);
      break;
    }
    if (escaped) out += "_x005F";
    append(out, kept[i]);
    if (units + 1 <= most) last_that_leaves_room = out.size();
  }
  return out;
}

}  // namespace nonrunner::reports
