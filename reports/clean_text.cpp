#include "reports/clean_text.h"

#include <utf8proc.h>

#include <algorithm>
#include <vector>

namespace nonrunner::reports {

namespace {

constexpr char32_t unreadable = 0xFFFD;

// The next character of UTF-8 text from `at` on, which it moves past it; a wrong byte counts as one
// unreadable character.
char32_t next_character(std::string_view text, std::size_t& at) {
  utf8proc_int32_t character = 0;
  const auto size = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()) + at,
                                     static_cast<utf8proc_ssize_t>(text.size() - at), &character);
  at += size > 0 ? static_cast<std::size_t>(size) : 1;
  return size > 0 ? static_cast<char32_t>(character) : unreadable;
}

bool allowed(char32_t c) {
  if (c == '\t' || c == '\n') return true;
  return c >= 0x20 && !(c >= 0x7F && c <= 0x9F) && c != 0xFFFE && c != 0xFFFF;
}

void append(std::string& out, char32_t c) {
  utf8proc_uint8_t bytes[4];
  const auto size = utf8proc_encode_char(static_cast<utf8proc_int32_t>(c), bytes);
  out.append(reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size));
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

// Most text of a book is of this kind: then nothing in it is to be changed, and a long list is written faster.
bool is_plain(std::string_view text, std::size_t most) {
  return text.size() <= most && std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= ' ' && c <= '~' && c != '_') || c == '\t' || c == '\n';
         });
}

}  // namespace

std::string clean_text(std::string_view text, std::size_t most) {
  if (is_plain(text, most)) return std::string(text);
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
