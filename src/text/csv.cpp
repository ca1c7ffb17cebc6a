#include "text/csv.h"

#include <csv.h>
#include <fmt/format.h>

#include <istream>

#include "exact/ends.h"

namespace nonrunner {

namespace {

struct Reading {
  const std::function<void(const std::vector<std::string>&, int)>& row;
  std::vector<std::string> cells;
  int line = 1;        // where the parser is
  int row_begins = 1;  // where the present row began
};

void take_cell(void* text, std::size_t size, void* reading) {
  static_cast<Reading*>(reading)->cells.emplace_back(static_cast<const char*>(text), size);
}

void take_row(int, void* data) {
  auto& reading = *static_cast<Reading*>(data);
  const bool blank = reading.cells.empty() || (reading.cells.size() == 1 && reading.cells[0].empty());
  if (!blank) reading.row(reading.cells, reading.row_begins);
  reading.cells.clear();
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
  // Line by line, so that a row knows where it began.
  for (std::string_view line; next(line); ++reading.line) {
    if (reading.line == 1 && line.substr(0, 3) == "\xEF\xBB\xBF") line.remove_prefix(3);
    if (reading.cells.empty()) reading.row_begins = reading.line;
    if (csv_parse(&parser, line.data(), line.size(), take_cell, take_row, &reading) != line.size()) refuse();
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
  std::string room;
  read_lines(
      [&](std::string_view& line) {
        room.clear();
        if (std::getline(in, room) && !in.eof()) room += '\n';
        if (in.bad()) throw MachineFailure(name + ": cannot be read to its end");
        line = room;
        return !line.empty();
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
  return first != std::string_view::npos &&
         std::string_view("=+-@\t\r\n").find(text[first]) != std::string_view::npos;
}

}  // namespace

std::string csv_text(std::string_view text) {
  return needs_apostrophe(text) ? csv_cell("'" + std::string(text)) : csv_cell(text);
}

std::string without_csv_apostrophe(std::string text) {
  if (text.size() > 1 && text.front() == '\'' && needs_apostrophe(std::string_view(text).substr(1)))
    text.erase(0, 1);
  return text;
}

}  // namespace nonrunner
