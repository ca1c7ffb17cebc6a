#include "book/questions/journal.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {

std::string about(const book::JournalRow& row) {
  std::string text = row.what;
  if (row.voids) text += fmt::format(" (takes back entry {})", *row.voids);
  if (row.voided_by) text += fmt::format(" (voided by entry {})", *row.voided_by);
  return text;
}

int show_lines(const Given& given, Terminal& terminal, const book::Book& book) {
  const Currency& c = book.currency();
  const auto lines = book::lines_of(book, given.word_if(0).value_or(""));
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
    columns.row({line.id, line.day.iso(), line.quantity.shown(), line.what, line.amount.shown(c),
                 line.cost().shown(c), shared});
  }
  terminal.out << (lines.empty() ? "no receipt lines yet\n" : columns.text());
  return 0;
}

int run_entries(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  if (given.word_if(0)) book::know_vehicle(book, "entries", given.word(0));
  if (given.flag("lines")) return show_lines(given, terminal, book);
  const auto rows = book::journal(book, given.word_if(0).value_or(""));
  const Currency& c = book.currency();
  if (given.json()) {
    terminal.out << words::journal_as_json(rows, c);
    return 0;
  }
  Columns columns("rlllr");
  columns.row({"entry", "day", "event", "what", "amount"});
  for (const book::JournalRow& row : rows)
    columns.row({std::to_string(row.entry), row.day.iso(), row.kind, about(row),
                 is_zero(row.amount) ? "" : row.amount.shown(c)});
  terminal.out << (rows.empty() ? "no entries yet\n" : columns.text());
  return 0;
}

}  // namespace

extern const Command entries;
const Command entries{{"entries",
                       "[TAG]",
                       "the journal, of one car or of all",
                       "nonrunner entries pip",
                       {{"lines", "", "the receipt lines instead, with their ids"}},
                       true,
                       ""},
                      run_entries};

}  // namespace nonrunner::commands
