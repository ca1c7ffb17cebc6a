#include "commands/door.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

#include "text/unicode.h"

namespace nonrunner::commands {

Door::~Door() { Door::sync(); }

Door::int_type Door::overflow(int_type c) {
  if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
  const char one = traits_type::to_char_type(c);
  return xsputn(&one, 1) == 1 ? c : traits_type::eof();
}

std::streamsize Door::xsputn(const char* text, std::streamsize size) {
  held_.append(text, static_cast<std::size_t>(size));
  pass_all(false);
  return behind_ ? size : 0;
}

int Door::sync() {
  pass_all(true);
  behind_.flush();
  return behind_ ? 0 : -1;
}

void Door::put(char32_t c) {
  const auto number = static_cast<std::uint32_t>(c);
  if (kind_ != Kind::json)
    shown_ += c < 0x80 ? " " : "\uFFFD";
  else if (number < 0x10000)
    shown_ += fmt::format("\\u{:04x}", number);
  else
    shown_ += fmt::format("\\u{:04x}\\u{:04x}", 0xD800 + ((number - 0x10000) >> 10),
                          0xDC00 + ((number - 0x10000) & 0x3FF));
}

namespace {

std::string folded(const std::string& line, std::size_t columns) {
  if (shown_width(line) <= columns) return line;
  const std::size_t indent = std::min(line.find_first_not_of(' ') + 2, columns / 2);
  std::string all, now;
  std::size_t at = 0;
  bool begun = false;  // a word stands on the present line
  while (at < line.size()) {
    const std::size_t word = std::min(line.find_first_not_of(' ', at), line.size());
    const std::size_t end = std::min(line.find(' ', word), line.size());
    const std::string piece = line.substr(at, end - at);
    if (begun && shown_width(now) + shown_width(piece) > columns) {
      all += now + "\n";
      now = std::string(indent, ' ') + line.substr(word, end - word);
    } else {
      now += piece;
    }
    begun = begun || end > word;
    at = end;
  }
  now.erase(now.find_last_not_of(' ') + 1);
  return all + now;
}

}  // namespace

void Door::fold_lines(bool to_the_end) {
  std::string lines;
  for (const char c : shown_) {
    if (c != '\n') {
      line_ += c;
      continue;
    }
    lines += folded(line_, columns_) + "\n";
    line_.clear();
  }
  if (to_the_end) {
    lines += line_;
    line_.clear();
  }
  shown_ = lines;
}

void Door::pass_all(bool to_the_end) {
  const std::string_view text = held_;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t from = at;
    // What nearly all of it is goes through in one piece.
    while (at < text.size() && ((text[at] >= 0x20 && text[at] < 0x7F) || text[at] == '\n' ||
                                text[at] == '\t' || (text[at] == '\r' && kind_ == Kind::progress)))
      ++at;
    shown_ += text.substr(from, at - from);
    if (at == text.size()) break;
    // The rest of a character may come with the next piece.
    if (!to_the_end && text.size() - at < 4) break;
    const std::size_t begins = at;
    const char32_t c = next_character(text, at);
    const std::string_view character = text.substr(begins, at - begins);
    if (c == 0xFFFD && broken_utf8(character))
      shown_ += "\uFFFD";
    else if (unseen(character))
      put(c);
    else
      shown_ += character;
  }
  held_.erase(0, at);
  if (columns_ > 0) fold_lines(to_the_end);
  behind_.write(shown_.data(), static_cast<std::streamsize>(shown_.size()));
  shown_.clear();
}

}  // namespace nonrunner::commands
