#include "text/printable.h"

#include <algorithm>

namespace nonrunner {

std::string printable(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](unsigned char c) { return c < 0x20 || c == 0x7f; }, ' ');
  return text;
}

std::size_t shown_width(std::string_view utf8) {
  return static_cast<std::size_t>(std::count_if(
      utf8.begin(), utf8.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string cut_to(const std::string& utf8, std::size_t width) {
  // A note keeps its line: what would break the line or move the cursor is shown as a blank.
  std::string clean = utf8;
  for (char& c : clean)
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = ' ';
  if (shown_width(clean) <= width) return clean;
  std::string cut;
  std::size_t shown = 0;
  for (const char c : clean) {
    const bool begins = (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    if (begins && ++shown > width - std::min<std::size_t>(width, 3)) break;
    cut += c;
  }
  return cut + std::string(std::min<std::size_t>(width, 3), '.');
}

}  // namespace nonrunner
