#include "book/care/backup.h"

#include "book/care/export.h"
#include "book/care/heads.h"
#include "book/care/last_backup.h"
#include "book/care/restore.h"
#include "book/events/clock.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "text/counted.h"
#include "words/appraise_for_book.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace fs = std::filesystem;

namespace {

// To be written down: whoever keeps it sees later whether something before it was changed.
std::string last_seal(const book::Book& book, const Terminal& terminal) {
  const book::Head head = book::head_of(book, terminal.today);
  return head.entry == 0 ? "" : fmt::format("  last seal {}\n", head.seal);
}

// Under the name that was given, else dated in the folder that is set.
book::DatedCopy copied(const Given& given, const book::Book& book, const Terminal& terminal,
                       Progress& progress) {
  if (const auto file = given.word_if(0)) {
    book::backup(book, *file, std::ref(progress));
    return {*file, {}};
  }
  const auto folder = book.setting("backup-folder");
  if (!folder) given.wrong("where to? say FILE, or once for all: nonrunner set backup-folder FOLDER");
  return book::backup_dated(book, *folder, terminal.today, std::ref(progress));
}

int run_backup(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  Progress progress(terminal, "backup");
  const book::DatedCopy copy = copied(given, book, terminal, progress);
  progress.wipe();
  const book::EntryId last = book::last_entry(book);
  if (const auto folder = terminal.backups()) book::remember_backup(book, *folder, terminal.today);
  if (given.json()) {
    terminal.out << words::facts_as_json({{"written", copy.file.string()}, {"entries", last}});
    return 0;
  }
  terminal.out << fmt::format("{}: a copy of {} up to entry {}\n", copy.file.string(), book.path().string(),
                              last)
               << last_seal(book, terminal);
  for (const fs::path& removed : copy.removed)
    terminal.out << fmt::format("  {}: removed, as {} later ones are there\n", removed.string(),
                                book::copies_kept);
  return 0;
}

// A restore of it works: that is no failure.
void say_what_is_older(const book::Exported& exported, const std::string& folder, std::ostream& out) {
  out << "  this book was begun by an older version: entered again it differs by its age in what follows"
      << (exported.apart.empty()
              ? ";\n  nothing is damaged, and it can be made again with: nonrunner restore " + folder +
                    " --book NEW\n"
              : "\n");
  for (const std::string& each : exported.older) out << in_80("    " + printable(each), 6);
}

int run_export(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  Progress progress(terminal, "export");
  const book::RestoreWith again{terminal.now, terminal.today,
                                [](const book::Book& made) { return words::appraise_as_kept(made); },
                                std::ref(progress)};
  const book::Exported exported =
      book::export_to(book, given.word(0), given.flag("events"), terminal.today, std::ref(progress), &again);
  progress.wipe();
  if (given.json())
    terminal.out << words::facts_as_json(
        {{"written", given.word(0)}, {"entries", std::int64_t{exported.entries}}});
  else
    terminal.out << fmt::format("{}: {} written{}\n", given.word(0),
                                counted(exported.entries, "entry", "entries"),
                                exported.apart.empty() && exported.older.empty()
                                    ? ", entered again and compared\n  made again with: nonrunner restore " +
                                          given.word(0) + " --book NEW"
                                    : "")
                 << last_seal(book, terminal);
  for (const std::string& change : exported.changes)
    (given.json() ? terminal.err : terminal.out) << "  " << change << "\n";
  for (const book::Clock& running : book::clocks(book))
    (given.json() ? terminal.err : terminal.out) << fmt::format(
        "  the clock of {} that runs on {} is not part of it: stop it first, or use nonrunner backup\n",
        running.worker, running.vehicle);
  if (!exported.older.empty())
    say_what_is_older(exported, given.word(0), given.json() ? terminal.err : terminal.out);
  for (const std::string& each : exported.apart)
    terminal.err << "nonrunner: export: " << printable(each) << "\n";
  if (exported.apart.empty()) return 0;
  terminal.err
      << "nonrunner: export: the folder is written and does not make the same book; keep a backup, and see: "
         "nonrunner check, nonrunner mend\n";
  return 1;
}

int run_restore(const Given& given, Terminal& terminal) {
  const fs::path from = given.word(0);
  const auto named = given.text("book");
  const fs::path to = named ? fs::path(*named) : terminal.default_book();
  Progress progress(terminal, "restoring");
  book::restore(from, to,
                {terminal.now, terminal.today,
                 [](const book::Book& made) { return words::appraise_as_kept(made); }, std::ref(progress)});
  progress.wipe();
  const book::Book book = book::Book::open(to);
  made_anew(book, terminal);
  const book::EntryId last = book::last_entry(book);
  if (given.json())
    terminal.out << words::facts_as_json({{"book", to.string()}, {"from", from.string()}, {"entries", last}});
  else
    terminal.out << fmt::format("{}: restored from {}, {}\n", to.string(), from.string(),
                                counted(last, "entry", "entries"));
  return 0;
}

}  // namespace

extern const Command backup, export_command, restore;
const Command backup{{"backup",
                      "[FILE]",
                      "a consistent copy of the book, while it is in use",
                      "nonrunner backup shop-2026-05-02.book",
                      {},
                      true,
                      "Attachments go beside it, into FILE.files. Without FILE the copy is named by the day "
                      "and goes into the folder that nonrunner set backup-folder FOLDER named; of those the "
                      "last ten stay."},
                     run_backup};
const Command export_command{
    {"export",
     "DIR",
     "everything as CSV, JSON Lines and events that can be posted again",
     "nonrunner export shop-2026",
     {{"events", "", "the events only"}},
     true,
     "It is entered again into a book of its own and compared before it is said that it was\n"
     "written, which takes as long as a restore; status 1 where they are not the same. The last\n"
     "seal stands in seal.txt beside them: nonrunner check --seal."},
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
