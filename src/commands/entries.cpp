#include "book/questions/journal.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "text/lower_case.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {

std::string about(const book::JournalRow& row) {
  std::string text = row.what;
  if (row.voids) text += fmt::format(" (takes back entry {})", *row.voids);
  if (row.voided_by) text += fmt::format(" (voided by entry {})", *row.voided_by);
  if (row.went_back) text += " (of it something went back: --lines)";
  if (row.moved) text += " (of it something was moved to another car)";
  return text;
}

// How far a line of a paper is still what it was.
std::string gone_of(const book::Line& line) {
  std::string gone;
  const auto add = [&](Quantity pieces, const char* where) {
    if (pieces > Quantity{}) gone += fmt::format("{}{} {}", gone.empty() ? "" : ", ", pieces.shown(), where);
  };
  add(line.goods_back, "went back");
  add(line.shelved, "on the shelf");
  if (line.core > Money{} && is_zero(line.core_due()))
    gone += std::string(gone.empty() ? "" : ", ") + "core is back";
  return gone;
}

// Whether the words stand in the text, in small letters both.
bool has_words(const std::string& text, const std::string& words) {
  return lower_case(text).find(lower_case(words)) != std::string::npos;
}

struct Wanted {
  std::optional<Day> from, to;
  std::optional<std::string> supplier, kind, text;

  explicit Wanted(const Given& given)
      : from(given.day("from")),
        to(given.day("to")),
        supplier(given.text("supplier")),
        kind(given.text("kind")),
        text(given.text("text")) {}
  bool takes(Day day, const std::string& of_supplier, const std::string& of_kind,
             const std::string& what) const {
    return !(from && day < *from) && !(to && day > *to) &&
           !(supplier && !has_words(of_supplier, *supplier)) && !(kind && !has_words(of_kind, *kind)) &&
           !(text && !has_words(what, *text));
  }
};

int show_lines(const Given& given, Terminal& terminal, const book::Book& book) {
  const Currency& c = book.currency();
  auto lines = book::lines_of(book, given.word_if(0).value_or(""));
  const Wanted wanted(given);
  std::erase_if(lines, [&](const book::Line& line) {
    return !wanted.takes(line.day, line.supplier, line.kind, line.what);
  });
  if (given.json()) {
    terminal.out << words::lines_as_json(lines, c);
    return 0;
  }
  Columns columns("llrlrrl");
  columns.row({"line", "day", "qty", "what", "amount", "cost", ""});
  for (const book::Line& line : lines) {
    std::string shared;
    if (line.shares.size() > 1)
      for (const book::Share& share : line.shares)
        shared += (shared.empty() ? "shared: " : ", ") + share.vehicle;
    if (const std::string gone = gone_of(line); !gone.empty()) shared += (shared.empty() ? "" : "; ") + gone;
    columns.row({line.id, line.day.iso(), line.quantity.shown(), line.what, line.amount.shown(c),
                 line.cost().shown(c), shared});
  }
  terminal.out << (lines.empty() ? "no receipt lines yet\n" : columns.text());
  return 0;
}

// Money, or what stands in its place: hours, a distance, the price that was asked.
std::string measure_of(const book::JournalRow& row, const book::Book& book) {
  if (!is_zero(row.amount)) return row.amount.shown(book.currency());
  if (row.hours != Hours{}) return row.hours.shown() + " h";
  if (row.distance != Distance{}) return row.distance.shown() + " " + book.distance_unit();
  return row.asked ? row.asked->shown(book.currency()) : "";
}

std::string as_table(const std::vector<book::JournalRow>& rows, const book::Book& book) {
  Columns columns("rlllr");
  columns.row({"entry", "day", "event", "what", "amount"});
  for (const book::JournalRow& row : rows)
    columns.row({std::to_string(row.entry), row.day.iso(), row.kind, about(row), measure_of(row, book)});
  return columns.text();
}

std::string in_full(const std::vector<book::JournalRow>& rows, const book::Book& book) {
  std::string text;
  for (const book::JournalRow& row : rows) {
    const std::string measure = measure_of(row, book);
    text += fmt::format("entry {}, {}, {}{}{}\n", row.entry, row.day.iso(), row.kind,
                        measure.empty() ? "" : ", ", measure);
    text += in_80("    " + printable(about(row)), 4);
  }
  return text;
}

int run_entries(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  if (given.word_if(0)) book::know_vehicle(book, "entries", given.word(0));
  if (given.flag("lines")) return show_lines(given, terminal, book);
  auto rows = book::journal(book, given.word_if(0).value_or(""));
  const bool any = !rows.empty();
  const Wanted wanted(given);
  std::erase_if(rows, [&](const book::JournalRow& row) {
    return !wanted.takes(row.day, row.supplier, row.kind, row.what);
  });
  const Currency& c = book.currency();
  if (given.json()) {
    terminal.out << words::journal_as_json(rows, c);
    return 0;
  }
  if (rows.empty()) terminal.out << (any ? "no entry fits\n" : "no entries yet\n");
  if (rows.empty()) return 0;
  terminal.out << (given.flag("full") ? in_full(rows, book) : as_table(rows, book));
  return 0;
}

}  // namespace

extern const Command entries;
const Command entries{{"entries",
                       "[TAG]",
                       "the journal, of one car or of all",
                       "nonrunner entries pip",
                       {{"lines", "", "the receipt lines instead, with their ids"},
                        {"from", "DAY", "from this day on"},
                        {"to", "DAY", "up to this day"},
                        {"supplier", "NAME", "of a supplier, or a part of the name"},
                        {"kind", "WORD", "of a kind of event: hours, sell; of lines part, fee"},
                        {"text", "WORDS", "in which these words stand"},
                        {"full", "", "every word, not cut to a line"}},
                       true,
                       ""},
                      run_entries};

}  // namespace nonrunner::commands
