#include "book/care/comparables_csv.h"
#include "book/events/comparables.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "text/counted.h"
#include "text/toml.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {

int run_add(const Given& given, Terminal& terminal) {
  if (given.count() != 1) given.wrong("found a word after add, expected --csv FILE");
  const auto file = given.text("csv");
  if (!file) given.wrong("there is no file, expected --csv FILE, or --csv - for what is pasted");
  book::Book book = open_book(given, terminal);
  const std::vector<book::KeptComparable> rows =
      book::read_comparables_csv(read_file(*file), *file == "-" ? "pasted" : *file, book.currency(),
                                 given.text_or("model", ""), terminal.today);
  book::Recording recording(book, terminal.now, terminal.today);
  recording.strict_words = true;
  std::size_t added = 0, for_every_car = 0;
  for (const book::KeptComparable& row : rows) {
    added += keep_comparable(recording, row) ? 1 : 0;
    for_every_car += row.model.empty() ? 1 : 0;
  }
  recording.keep();
  if (given.json()) {
    terminal.out << words::facts_as_json({{"added", static_cast<std::int64_t>(added)},
                                          {"already_there", static_cast<std::int64_t>(rows.size() - added)},
                                          {"without_model", static_cast<std::int64_t>(for_every_car)}});
    return 0;
  }
  const std::size_t there = rows.size() - added;
  terminal.out << fmt::format("{} added, {} there already\n", counted(added, "comparable"),
                              counted(there, "was", "were"));
  if (for_every_car > 0)
    terminal.out << fmt::format(
        "{} of them name no model and count for every car; --model \"Kelmore Sprat\" would tie them to one\n",
        for_every_car);
  return 0;
}

int run_list(const Given& given, Terminal& terminal) {
  if (given.count() != 1) given.wrong("found a word after list, expected none");
  const book::Book book = open_book(given, terminal);
  const Currency& c = book.currency();
  const auto all = book::all_comparables(book);
  if (given.json()) {
    terminal.out << words::comparables_as_json(all, book);
    return 0;
  }
  if (all.empty()) {
    terminal.out << "no comparable yet; paste some: nonrunner comparable add --csv -\n";
    return 0;
  }
  Columns columns("rrlrrrll");
  columns.row({"number", "price", "kind", book.distance_unit(), "year", "grade", "model", "note"});
  for (const book::KeptComparable& each : all)
    columns.row({std::to_string(each.id), each.price.shown(c), each.sold ? "sold" : "asking",
                 each.odometer.shown(), std::to_string(each.year), each.grade.shown(), each.model,
                 each.note});
  terminal.out << columns.text();
  return 0;
}

int run_remove(const Given& given, Terminal& terminal) {
  if (given.count() != 2) given.wrong("expected the number of one comparable after remove");
  const auto number = scaled(given.word(1), 0);
  if (!number) given.wrong(fmt::format("found \"{}\", expected the number of a comparable", given.word(1)));
  book::Book book = open_book(given, terminal);
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        drop_comparable(recording, *number);
        return book::EntryId{0};
      },
      fmt::format("comparable {} is taken out", *number));
}

int run_comparable(const Given& given, Terminal& terminal) {
  const std::string& what = given.word(0);
  if (what == "add") return run_add(given, terminal);
  if (what == "list") return run_list(given, terminal);
  if (what == "remove") return run_remove(given, terminal);
  given.wrong(fmt::format("found \"{}\", expected add, list or remove{}", what,
                          did_you_mean(what, {"add", "list", "remove"})));
}

}  // namespace

extern const Command comparable;
const Command comparable{
    {"comparable",
     "add|list|remove [NUMBER]",
     "prices of similar cars, kept in the book",
     "nonrunner comparable add --csv seen.csv --model \"Kelmore Sprat\"",
     {{"csv", "FILE", "the rows to add; - reads what is pasted, to the end of the input"},
      {"model", "TEXT", "words that a car's description must have for them to count (else every car)"}},
     true,
     "Columns: price, kind (asking or sold), odometer, year, and if known grade (1 rough .. 5 spotless, else "
     "3),\n"
     "date, note, model; with a heading, or the first seven in this order without. The same row again adds "
     "nothing.\n"
     "A job file uses them with [value] from = \"book\": those of its model, within 5 years, seen in the "
     "last 2."},
    run_comparable};

}  // namespace nonrunner::commands
