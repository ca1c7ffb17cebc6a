#include "book/care/backup.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "book/care/arriving.h"
#include "book/care/comparables_csv.h"
#include "book/care/export.h"
#include "book/events/clock.h"
#include "book/events/comparables.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"
#include "text/toml.h"
#include "words/appraise_for_book.h"

namespace nonrunner::commands {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

namespace {

int run_backup(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  Progress progress(terminal, "backup");
  book::backup(book, given.word(0), std::ref(progress));
  const book::EntryId last = book::last_entry(book);
  if (given.json())
    terminal.out << Json{{"written", given.word(0)}, {"entries", last}}.dump(2) << "\n";
  else
    terminal.out << fmt::format("{}: a copy of {} up to entry {}\n", given.word(0), book.path().string(),
                                last);
  return 0;
}

int run_export(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  Progress progress(terminal, "export");
  const book::Exported exported =
      book::export_to(book, given.word(0), given.flag("events"), terminal.today, std::ref(progress));
  if (given.json())
    terminal.out << Json{{"written", given.word(0)}, {"entries", exported.entries}}.dump(2) << "\n";
  else
    terminal.out << fmt::format(
        "{}: {} entries written\n  made again with: nonrunner restore {} --book NEW\n", given.word(0),
        exported.entries, given.word(0));
  for (const book::Clock& running : book::clocks(book))
    (given.json() ? terminal.err : terminal.out) << fmt::format(
        "  the clock of {} that runs on {} is not part of it: stop it first, or use nonrunner backup\n",
        running.worker, running.vehicle);
  return 0;
}

// From an export: a new book in the currency of the events, into which they are posted, all or nothing.
void restore_events(const fs::path& file, const fs::path& to, Terminal& terminal) {
  const std::string text = read_file(file.string());
  const Value value = parse_toml(text, file.string());
  const Table root(value, file.string(), "the head of the file");
  book::Arriving arriving(to);
  try {
    book::Book::lay_out(arriving.path(), Currency::of(root.text_or("currency", "USD")),
                        root.text_or("distance", "mi"));
    book::Book book = book::Book::open(arriving.path());
    book::Recording recording(book, terminal.now, terminal.today);
    Progress progress(terminal, "restoring");
    book::post(recording, text, file.string(), file.parent_path(), words::appraise_for_book(book),
               std::ref(progress));
    const fs::path comparables = file.parent_path() / "comparables.csv";
    // Beside the events of an export; a heading alone where the book kept none.
    if (file.filename() == "events.toml" && fs::exists(comparables)) {
      const std::string rows = read_file(comparables.string());
      if (std::count(rows.begin(), rows.end(), '\n') > 1)
        for (const book::KeptComparable& each :
             book::read_comparables_csv(rows, comparables.string(), book.currency(), "", terminal.today))
          keep_comparable(recording, each);
    }
    recording.keep();
  } catch (const SQLite::Exception&) {
    book::rethrow_database_error(to);
  }
  arriving.arrive();
}

int run_restore(const Given& given, Terminal& terminal) {
  const fs::path from = given.word(0);
  const auto named = given.text("book");
  const fs::path to = named ? fs::path(*named) : terminal.default_book();
  if (fs::exists(to))
    throw Refusal(to.string() +
                  ": there is a book at this place already; restore to a new one with --book NEW");
  if (!fs::exists(from)) throw Refusal(from.string() + ": there is no such file or folder; check the name");
  if (fs::is_directory(from)) {
    if (!fs::exists(from / "events.toml"))
      throw Refusal(from.string() + ": there is no events.toml in it, expected a folder that export made");
    restore_events(from / "events.toml", to, terminal);
  } else if (book::is_book(from)) {
    Progress progress(terminal, "restoring");
    book::restore_backup(from, to, std::ref(progress));
  } else if (from.extension() == ".toml") {
    restore_events(from, to, terminal);
  } else {
    throw Refusal(from.string() + ": found neither a backup nor an export, expected one of them");
  }
  const book::Book book = book::Book::open(to);
  const book::EntryId last = book::last_entry(book);
  if (given.json())
    terminal.out << Json{{"book", to.string()}, {"from", from.string()}, {"entries", last}}.dump(2) << "\n";
  else
    terminal.out << fmt::format("{}: restored from {}, {} entries\n", to.string(), from.string(), last);
  return 0;
}

}  // namespace

extern const Command backup, export_command, restore;
const Command backup{{"backup",
                      "FILE",
                      "a consistent copy of the book, while it is in use",
                      "nonrunner backup shop-2026-05-02.book",
                      {},
                      true,
                      "Attachments go beside it, into FILE.files."},
                     run_backup};
const Command export_command{{"export",
                              "DIR",
                              "everything as CSV, JSON Lines and events that can be posted again",
                              "nonrunner export shop-2026",
                              {{"events", "", "the events only"}},
                              true,
                              ""},
                             run_export};
const Command restore{{"restore",
                       "FROM",
                       "a book from a backup or an export, at a new place",
                       "nonrunner restore shop-2026 --book again.book",
                       {},
                       true,
                       ""},
                      run_restore};

}  // namespace nonrunner::commands
