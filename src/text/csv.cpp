#include "text/csv.h"

#include <csv.h>
#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <optional>

#include "exact/ends.h"
#include "text/typed_numbers.h"
#include "text/unicode.h"

namespace nonrunner {

namespace {

struct Reading {
  const std::function<void(const std::vector<std::string>&, int)>& row;
  std::vector<std::string> cells;
  int line = 1;        // where the parser is
  int row_begins = 1;  // where the present row began
  bool rows_ended = true;
};

void take_cell(void* text, std::size_t size, void* reading) {
  static_cast<Reading*>(reading)->cells.emplace_back(static_cast<const char*>(text), size);
}

void take_row(int, void* data) {
  auto& reading = *static_cast<Reading*>(data);
  const bool blank = reading.cells.empty() || (reading.cells.size() == 1 && reading.cells[0].empty());
  if (!blank) reading.row(reading.cells, reading.row_begins);
  reading.cells.clear();
  reading.rows_ended = true;
}

class Parser {
 public:
  explicit Parser(char parted) {
    // What was copied out of a sheet doubles no quotes: 17" stands there as it is.
    csv_init(&parser_,
             static_cast<unsigned char>(parted == ',' ? CSV_STRICT | CSV_STRICT_FINI : CSV_STRICT_FINI));
    csv_set_delim(&parser_, static_cast<unsigned char>(parted));
  }
  ~Parser() { csv_free(&parser_); }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;
  csv_parser* operator&() { return &parser_; }

 private:
  csv_parser parser_;
};

// A row of a list written by hand or by a bank is far shorter; what is longer would only fill the memory.
constexpr std::size_t longest_row = 1 << 20;

[[noreturn]] void refuse_length(const std::string& name, int line) {
  throw Refusal(fmt::format(
      "{}:{}: the row is longer than 1 MiB, expected one row a line; is a quote not closed?", name, line));
}

void expect_utf8(std::string_view line, const std::string& name, int number) {
  const auto broken = broken_utf8(line);
  if (!broken) return;
  std::size_t column = 1;
  for (std::size_t at = 0; at < *broken; ++column) next_character(line, at);
  throw Refusal(
      fmt::format("{}:{}: the byte {:02x} in column {} is not UTF-8, expected UTF-8 text; save the list as "
                  "UTF-8 and try again",
                  name, number, static_cast<unsigned char>(line[*broken]), column));
}

// `next` gives line after line with its end, and nothing when there is no more.
template <class Next>
void read_lines(Next next, const std::string& name,
                const std::function<void(const std::vector<std::string>&, int line)>& row, char parted) {
  Parser parser(parted);
  Reading reading{row, {}, 1, 1};
  const auto refuse = [&] {
    throw Refusal(fmt::format(
        "{}:{}: the quotes do not match, expected CSV as RFC 4180 has it (a quote inside a cell is doubled)",
        name, reading.line));
  };
  std::size_t held = 0;  // bytes of the present row
  // Line by line, so that a row knows where it began.
  for (std::string_view line; next(line); ++reading.line) {
    if (reading.line == 1 && line.substr(0, 3) == "\xEF\xBB\xBF") line.remove_prefix(3);
    expect_utf8(line, name, reading.line);
    const bool begins = reading.rows_ended;
    if (begins) {
      reading.row_begins = reading.line;
      reading.rows_ended = false;
      held = 0;
    }
    held += line.size();
    if (held > longest_row) refuse_length(name, reading.line);
    if (csv_parse(&parser, line.data(), line.size(), take_cell, take_row, &reading) != line.size()) refuse();
    // Of an empty line the parser says nothing.
    if (begins && line.find_first_not_of(" \t\r\n") == std::string_view::npos) reading.rows_ended = true;
  }
  if (csv_fini(&parser, take_cell, take_row, &reading) != 0) refuse();
}

}  // namespace

void read_csv(std::string_view text, const std::string& name,
              const std::function<void(const std::vector<std::string>&, int line)>& row, char parted) {
  read_lines(
      [&text](std::string_view& line) {
        const auto end = text.find('\n');
        line = text.substr(0, end == std::string_view::npos ? text.size() : end + 1);
        text.remove_prefix(line.size());
        return !line.empty();
      },
      name, row, parted);
}

void read_csv(std::istream& in, const std::string& name,
              const std::function<void(const std::vector<std::string>&, int line)>& row, char parted) {
  std::string room(longest_row + 2, '\0');
  int number = 0;
  read_lines(
      [&](std::string_view& line) {
        ++number;
        in.getline(room.data(), static_cast<std::streamsize>(room.size()));
        if (in.bad()) throw MachineFailure(name + ": cannot be read to its end");
        auto size = static_cast<std::size_t>(in.gcount());
        if (in.fail() && !in.eof() && size > longest_row) refuse_length(name, number);
        // The end of the line was taken and is not in the room.
        if (size > 0 && !in.eof()) room[size - 1] = '\n';
        line = std::string_view(room).substr(0, size);
        return size > 0;
      },
      name, row, parted);
}

std::string csv_cell(std::string_view text) {
  // libcsv leaves out the blanks at the ends of a cell that is not quoted.
  const auto blank = [](char c) { return c == ' ' || c == '\t'; };
  const bool blank_at_an_end = !text.empty() && (blank(text.front()) || blank(text.back()));
  if (!blank_at_an_end && text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
  std::string room(text.size() * 2 + 2, '\0');
  room.resize(csv_write(room.data(), room.size(), text.data(), text.size()));
  return room;
}

namespace {

// A text that begins with apostrophes of its own before such a character gets one more, so that taking one
// off gives the text again.
bool needs_apostrophe(std::string_view text) {
  const auto first = text.find_first_not_of('\'');
  if (first == std::string_view::npos) return false;
  text.remove_prefix(first);
  if (std::string_view("\t\r\n").find(text[0]) != std::string_view::npos) return true;
  // Blanks before it, and the wide forms of the same signs: some programs pass over the ones and read the
  // others.
  for (bool blank = true; blank;) {
    blank = false;
    for (const std::string_view each : {" ", "\u00A0", "\u3000"})
      if (text.substr(0, each.size()) == each) {
        text.remove_prefix(each.size());
        blank = true;
      }
  }
  for (const std::string_view each : {"=", "+", "-", "@", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"})
    if (text.substr(0, each.size()) == each) return true;
  return false;
}

}  // namespace

char csv_parted(std::string_view heading) {
  return std::count(heading.begin(), heading.end(), ';') > std::count(heading.begin(), heading.end(), ',')
             ? ';'
             : ',';
}

std::string csv_number(const std::string& typed, char parted) {
  if (parted != ';') return typed;
  const std::size_t sign = typed.starts_with('-') || typed.starts_with('+') ? 1 : 0;
  const std::string_view text = std::string_view(typed).substr(sign);
  if (may_be_thousands(text, ',') || may_be_thousands(text, '.'))
    throw Refusal("found \"" + typed +
                  "\", which may be thousands or thousandths; write it without the mark");
  const auto decimal = decimal_comma(text);
  return decimal ? typed.substr(0, sign) + *decimal : typed;
}

std::string csv_text(std::string_view text) {
  return needs_apostrophe(text) ? csv_cell("'" + std::string(text)) : csv_cell(text);
}

std::string without_csv_apostrophe(std::string text) {
  if (text.size() > 1 && text.front() == '\'' && needs_apostrophe(std::string_view(text).substr(1)))
    text.erase(0, 1);
  return text;
}

}  // namespace nonrunner
