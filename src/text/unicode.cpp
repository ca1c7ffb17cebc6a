#include "text/unicode.h"

#include <fmt/format.h>
#include <utf8proc.h>

#include <cstdlib>
#include <cstring>
#include <memory>

namespace nonrunner {

namespace {

constexpr char32_t replacement = 0xFFFD;

// Bytes of the character at `at`; 0 where it is no UTF-8.
std::size_t decoded(std::string_view text, std::size_t at, utf8proc_int32_t& character) {
  const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data()) + at;
  const auto size = utf8proc_iterate(bytes, static_cast<utf8proc_ssize_t>(text.size() - at), &character);
  return size > 0 ? static_cast<std::size_t>(size) : 0;
}

// Most text is ASCII: eight bytes of it are passed over at once.
std::size_t past_ascii(std::string_view text, std::size_t at) {
  for (std::uint64_t eight; at + sizeof eight <= text.size(); at += sizeof eight) {
    std::memcpy(&eight, text.data() + at, sizeof eight);
    if ((eight & 0x8080808080808080u) != 0) break;
  }
  while (at < text.size() && static_cast<unsigned char>(text[at]) < 0x80) ++at;
  return at;
}

bool is_control(char32_t c) { return c < 0x20 || (c >= 0x7F && c <= 0x9F); }

bool is_unseen(char32_t c) {
  if (c >= 0x20 && c < 0x7F) return false;
  switch (utf8proc_category(static_cast<utf8proc_int32_t>(c))) {
    case UTF8PROC_CATEGORY_CC:
    case UTF8PROC_CATEGORY_CF:
    case UTF8PROC_CATEGORY_CS:
    case UTF8PROC_CATEGORY_CO:
    case UTF8PROC_CATEGORY_CN:
    case UTF8PROC_CATEGORY_ZL:
    case UTF8PROC_CATEGORY_ZP:
      return true;
    default:
      return false;
  }
}

void append(std::string& out, char32_t c) {
  utf8proc_uint8_t bytes[4];
  const auto size = utf8proc_encode_char(static_cast<utf8proc_int32_t>(c), bytes);
  out.append(reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

struct Alike {
  char32_t letter;
  char latin;
};
// Small letters only: likeness() has folded the capitals before it asks.
constexpr Alike alike[] = {
    {0x0430, 'a'}, {0x0435, 'e'}, {0x043E, 'o'}, {0x0440, 'p'}, {0x0441, 'c'}, {0x0443, 'y'}, {0x0445, 'x'},
    {0x0456, 'i'}, {0x0458, 'j'}, {0x0455, 's'}, {0x04BB, 'h'}, {0x0501, 'd'}, {0x051B, 'q'}, {0x051D, 'w'},
    {0x0475, 'v'}, {0x04CF, 'l'}, {0x0432, 'b'}, {0x043A, 'k'}, {0x043C, 'm'}, {0x043D, 'h'}, {0x0442, 't'},
    {0x03BF, 'o'}, {0x03B1, 'a'}, {0x03BD, 'v'}, {0x03C1, 'p'}, {0x03C5, 'u'}, {0x03B9, 'i'}, {0x03BA, 'k'},
    {0x03C4, 't'}, {0x03C7, 'x'}, {0x03B5, 'e'}, {0x0131, 'i'}, {0x0261, 'g'}, {0x2044, '/'}, {0x2010, '-'},
    {0x2011, '-'}, {0x2012, '-'}, {0x2013, '-'}, {0x2212, '-'}, {0x2019, '\''}};

}  // namespace

std::optional<std::size_t> broken_utf8(std::string_view text) {
  for (std::size_t at = past_ascii(text, 0); at < text.size(); at = past_ascii(text, at)) {
    utf8proc_int32_t character = 0;
    const std::size_t size = decoded(text, at, character);
    if (size == 0) return at;
    at += size;
  }
  return std::nullopt;
}

char32_t next_character(std::string_view text, std::size_t& at) {
  utf8proc_int32_t character = 0;
  const std::size_t size = decoded(text, at, character);
  at += size == 0 ? 1 : size;
  return size == 0 ? replacement : static_cast<char32_t>(character);
}

std::optional<char32_t> unseen(std::string_view text, Lines lines) {
  for (std::size_t at = 0; at < text.size();) {
    utf8proc_int32_t character = 0;
    const std::size_t size = decoded(text, at, character);
    if (size == 0) return replacement;
    at += size;
    const auto c = static_cast<char32_t>(character);
    if (lines == Lines::many && (c == '\t' || c == '\n' || c == '\r')) continue;
    if (is_unseen(c)) return c;
  }
  return std::nullopt;
}

std::optional<char32_t> filler(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_character(text, at);
    // Signs that choose how the one before them is drawn stand behind what is seen.
    const bool chooses_form = (c >= 0xFE00 && c <= 0xFE0F) || (c >= 0xE0100 && c <= 0xE01EF) ||
                              (c >= 0x180B && c <= 0x180D) || c == 0x180F;
    if (c == 0x2800 || (!chooses_form && utf8proc_get_property(static_cast<utf8proc_int32_t>(c))->ignorable))
      return c;
  }
  return std::nullopt;
}

bool is_blank(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const auto c = static_cast<utf8proc_int32_t>(next_character(text, at));
    if (c != '\t' && c != '\n' && c != '\r' && utf8proc_category(c) != UTF8PROC_CATEGORY_ZS) return false;
  }
  return true;
}

std::string made_utf8(std::string_view text) {
  if (!broken_utf8(text)) return std::string(text);
  std::string out;
  for (std::size_t at = 0; at < text.size();) append(out, next_character(text, at));
  return out;
}

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_character(text, at);
    if (is_control(c) && c < 0x80)
      out += ' ';
    else
      append(out, is_unseen(c) ? replacement : c);
  }
  return out;
}

std::size_t shown_width(std::string_view text) {
  std::size_t width = 0;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_character(text, at);
    width += c < 0x7F ? 1 : static_cast<std::size_t>(utf8proc_charwidth(static_cast<utf8proc_int32_t>(c)));
  }
  return width;
}

std::string cut_to(std::string_view text, std::size_t width) {
  const std::string clean = printable(text);
  if (shown_width(clean) <= width) return clean;
  const std::string dots(width < 3 ? width : 3, '.');
  std::string cut;
  std::size_t shown = 0;
  for (std::size_t at = 0; at < clean.size();) {
    const std::size_t from = at;
    next_character(clean, at);
    const std::string_view character = std::string_view(clean).substr(from, at - from);
    shown += shown_width(character);
    if (shown > width - dots.size()) break;
    cut += character;
  }
  return cut + dots;
}

std::string likeness(std::string_view text) {
  const std::string clean = broken_utf8(text) ? printable(text) : std::string(text);
  utf8proc_uint8_t* mapped = nullptr;
  const auto options = static_cast<utf8proc_option_t>(UTF8PROC_COMPOSE | UTF8PROC_COMPAT | UTF8PROC_CASEFOLD |
                                                      UTF8PROC_IGNORE | UTF8PROC_STABLE);
  const auto size = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(clean.data()),
                                 static_cast<utf8proc_ssize_t>(clean.size()), &mapped, options);
  if (size < 0) return clean;
  const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> room(mapped, &std::free);
  const std::string_view folded(reinterpret_cast<const char*>(mapped), static_cast<std::size_t>(size));
  std::string out;
  for (std::size_t at = 0; at < folded.size();) {
    char32_t c = next_character(folded, at);
    for (const Alike& each : alike)
      if (each.letter == c) c = static_cast<char32_t>(each.latin);
    if (!is_unseen(c)) append(out, c);
  }
  return out;
}

std::string code_point(char32_t c) { return fmt::format("U+{:04X}", static_cast<std::uint32_t>(c)); }

}  // namespace nonrunner
