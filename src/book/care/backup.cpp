#include "book/care/backup.h"

#include <SQLiteCpp/Backup.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>

#include <cerrno>
#include <fstream>
#include <system_error>

#include "book/care/arriving.h"
#include "book/care/check.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace fs = std::filesystem;

namespace {

void copy_attachments(const fs::path& from, const fs::path& to) {
  if (!fs::is_directory(from)) return;
  if (::mkdir(to.c_str(), 0700) != 0)
    throw fs::filesystem_error("", to, std::error_code(errno, std::generic_category()));
  for (const auto& each : fs::directory_iterator(from)) {
    const fs::path name = each.path().filename();
    if (each.is_symlink() || !each.is_regular_file() || name.string().size() != 64) continue;
    fs::copy_file(each.path(), to / name);
    fs::permissions(to / name, fs::perms::owner_read | fs::perms::owner_write);
    to_disk(to / name);
  }
}

void copy_book(SQLite::Database& from, const fs::path& to,
               const std::function<void(std::size_t, std::size_t)>& tick) {
  SQLite::Database copy(sqlite_name(to), SQLite::OPEN_READWRITE);
  copy_pages(from, copy, tick);
  // The copy carries the mark of a write-ahead log; without it, it is a single file.
  copy.execAndGet("PRAGMA journal_mode = DELETE");
}

}  // namespace

bool is_book(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::string head(15, '\0');
  in.read(head.data(), 15);
  return in.gcount() == 15 && head == "SQLite format 3";
}

void copy_pages(SQLite::Database& from, SQLite::Database& to,
                const std::function<void(std::size_t, std::size_t)>& tick) {
  SQLite::Backup steps(to, from);
  constexpr int pages = 1024, patience_ms = 60'000, wait_ms = 20;
  for (int waited_ms = 0;;) {
    const int result = steps.executeStep(pages);
    if (result == SQLITE_DONE) return;
    if (result != SQLITE_OK) {  // busy, or locked
      if (waited_ms >= patience_ms) throw SQLite::Exception("database is locked", result);
      waited_ms += wait_ms;
      sqlite3_sleep(wait_ms);
    }
    const auto all = static_cast<std::size_t>(steps.getTotalPageCount());
    if (tick) tick(all - static_cast<std::size_t>(steps.getRemainingPageCount()), all);
  }
}

void backup(const Book& book, const fs::path& to, const std::function<void(std::size_t, std::size_t)>& tick) {
  Arriving arriving(to);
  copy_book(book.database(), arriving.path(), tick);
  // After the book: what it names was there before it was named.
  copy_attachments(book.attachments(), arriving.attachments());
  arriving.arrive();
}

void restore_backup(const fs::path& from, const fs::path& to,
                    const std::function<void(std::size_t, std::size_t)>& tick) {
  Arriving arriving(to);
  {
    const auto source = open_to_read(from, Book::usual_patience);
    copy_book(*source, arriving.path(), tick);
  }
  copy_attachments(from.string() + ".files", arriving.attachments());
  {
    const Book restored = Book::open_copy(arriving.path());
    const Health health = check(restored, [&](EntryId done, EntryId all) {
      if (tick) tick(static_cast<std::size_t>(done), static_cast<std::size_t>(all));
    });
    if (!health.sound)
      throw MachineFailure(fmt::format("{}: the backup is not sound: {}; nothing was restored", from.string(),
                                       health.findings.front()));
  }
  arriving.arrive();
}

}  // namespace nonrunner::book
