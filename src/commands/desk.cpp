#include "commands/desk.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "book/ledger/names.h"
#include "exact/ends.h"

namespace nonrunner::commands {

book::Book open_book(const Given& given, const Terminal& terminal) {
  const auto named = given.text("book");
  return book::Book::open(named ? std::filesystem::path(*named) : terminal.default_book());
}

int record_one(book::Book& book, const Given& given, Terminal& terminal,
               const std::function<book::EntryId(book::Recording&)>& event, const std::string& done) {
  book::Recording recording(book, terminal.now, terminal.today);
  recording.strict_words = !given.flag("new");
  const book::EntryId entry = event(recording);
  recording.keep();
  if (given.json()) {
    nlohmann::ordered_json json;
    if (entry != 0) json["entry"] = entry;
    json["remarks"] = recording.remarks();
    terminal.out << json.dump(2) << "\n";
  } else {
    terminal.out << in_80(printable(entry != 0 ? fmt::format("entry {}: {}", entry, done) : done), 2);
    for (const std::string& remark : recording.remarks()) terminal.out << in_80("  " + printable(remark), 4);
  }
  return 0;
}

Option date_option() { return {"date", "DAY", "the day of the event, YYYY-MM-DD (else today)"}; }
Option purse_option() {
  return {"purse", "NAME", "which purse the money goes through, such as cash, bank, card"};
}
Option new_option() { return {"new", "", "the name is a new one, though it is close to a known one"}; }

std::string printable(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](unsigned char c) { return c < 0x20 || c == 0x7f; }, ' ');
  return text;
}

Day date_of(const Given& given, const Terminal& terminal) {
  const Day day = given.day("date").value_or(terminal.today);
  if (day > terminal.today)
    given.wrong(fmt::format("--date: found {}, which has not come yet, expected {} at the latest", day.iso(),
                            terminal.today.iso()));
  return day;
}

std::string purse_of(const Given& given, const book::Book& book) {
  if (const auto purse = given.text("purse")) return *purse;
  const auto purses = book::names_of(book, book::account::purse);
  if (purses.size() == 1) return purses.front();
  if (purses.empty() || std::find(purses.begin(), purses.end(), "cash") != purses.end()) return "cash";
  given.wrong("which purse? say --purse NAME");
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

std::string Columns::text(std::size_t width) const {
  std::vector<std::size_t> widths(aligned_.size(), 0);
  for (const auto& row : rows_)
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], shown_width(row[i]));
  const auto total = [&] {
    std::size_t sum = 2 * (widths.size() - 1);
    for (const std::size_t each : widths) sum += each;
    return sum;
  };
  while (total() > width) {
    std::size_t widest = widths.size();
    for (std::size_t i = 0; i < widths.size(); ++i)
      if (aligned_[i] == 'l' && (widest == widths.size() || widths[i] > widths[widest])) widest = i;
    if (widest == widths.size() || widths[widest] <= 8) break;
    --widths[widest];
  }
  std::string text;
  for (const auto& row : rows_) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string cell = aligned_[i] == 'l' ? cut_to(row[i], widths[i]) : row[i];
      const std::string gap(widths[i] - std::min(widths[i], shown_width(cell)), ' ');
      line += (i ? "  " : "") + (aligned_[i] == 'l' ? cell + gap : gap + cell);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text;
}

}  // namespace nonrunner::commands
