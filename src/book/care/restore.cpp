#include "book/care/restore.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>

#include "book/care/arriving.h"
#include "book/care/backup.h"
#include "book/care/comparables_csv.h"
#include "book/events/comparables.h"
#include "exact/hint.h"
#include "text/toml.h"

namespace nonrunner::book {

namespace fs = std::filesystem;

namespace {

// Beside the events of an export lie the comparables; a heading alone where the book kept none.
void restore_comparables(Recording& recording, const fs::path& file, Day today) {
  if (!fs::exists(file)) return;
  const std::string rows = read_file(file.string(), any_size);
  if (std::count(rows.begin(), rows.end(), '\n') < 2) return;
  for (const KeptComparable& each :
       read_comparables_csv(rows, file.string(), recording.book().currency(), "", today))
    keep_comparable(recording, each);
}

// A new book in the currency of the events, into which they are posted.
void restore_events(const fs::path& file, const fs::path& to, const RestoreWith& with) {
  const std::string text = read_file(file.string(), any_size);
  const EventsFile events = read_events(text, file.string(), file.parent_path());
  const Table root(events.value, file.string(), "the head of the file");
  Arriving arriving(to);
  try {
    Book::lay_out(arriving.path(), Currency::of(root.text_or("currency", "USD")),
                  root.text_or("distance", "mi"));
    Book book = Book::open(arriving.path());
    Recording recording(book, with.now, with.today);
    post(recording, events, with.appraise(book), with.tick);
    if (file.filename() == "events.toml")
      restore_comparables(recording, file.parent_path() / "comparables.csv", with.today);
    recording.keep();
  } catch (const SQLite::Exception&) {
    rethrow_database_error(to);
  }
  arriving.arrive();
}

}  // namespace

void restore(const fs::path& from, const fs::path& to, const RestoreWith& with) {
  if (fs::exists(to))
    throw hinted<Refusal>(to.string() + ": there is a book at this place already",
                          {Action::name_another_book, {}});
  if (!fs::exists(from)) throw Refusal(from.string() + ": there is no such file or folder; check the name");
  if (fs::is_directory(from)) {
    if (!fs::exists(from / "events.toml"))
      throw Refusal(from.string() + ": there is no events.toml in it, expected a folder that export made");
    restore_events(from / "events.toml", to, with);
  } else if (is_book(from)) {
    restore_backup(from, to, with.tick);
  } else if (from.extension() == ".toml") {
    restore_events(from, to, with);
  } else {
    throw Refusal(from.string() + ": found neither a backup nor an export, expected one of them");
  }
}

}  // namespace nonrunner::book
