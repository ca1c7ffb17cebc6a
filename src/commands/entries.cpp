#include <nlohmann/json.hpp>

#include "book/questions/journal.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/figures_text.h"

namespace nonrunner::commands {

namespace {

using Json = nlohmann::ordered_json;

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
    Json json{{"currency", c.code}, {"lines", Json::array()}};
    for (const book::Line& line : lines)
      json["lines"].push_back({{"id", line.id},
                               {"entry", line.entry},
                               {"date", line.day.iso()},
                               {"what", line.what},
                               {"kind", line.kind},
                               {"source", line.source},
                               {"qty", Json::parse(line.quantity.shown())},
                               {"amount", line.amount.plain(c)},
                               {"tax", line.tax.plain(c)},
                               {"cost", line.cost().plain(c)},
                               {"core", line.core.plain(c)},
                               {"gone_back", Json::parse(line.goods_back.shown())}});
    terminal.out << json.dump(2) << "\n";
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
    Json json{{"currency", c.code}, {"entries", Json::array()}};
    for (const book::JournalRow& row : rows) {
      Json entry{{"entry", row.entry},
                 {"date", row.day.iso()},
                 {"kind", row.kind},
                 {"what", row.what},
                 {"amount", row.amount.plain(c)}};
      entry["voids"] = row.voids ? Json(*row.voids) : Json(nullptr);
      entry["voided_by"] = row.voided_by ? Json(*row.voided_by) : Json(nullptr);
      entry["postings"] = Json::array();
      for (const book::Posting& posting : row.postings)
        entry["postings"].push_back(
            {{"account", posting.kind}, {"name", posting.name}, {"amount", posting.amount.plain(c)}});
      json["entries"].push_back(std::move(entry));
    }
    terminal.out << json.dump(2) << "\n";
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
