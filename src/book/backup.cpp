#include "book/backup.h"

#include <SQLiteCpp/Backup.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <system_error>

#include "book/check.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace fs = std::filesystem;

namespace {

void expect_free(const fs::path& to) {
  if (fs::exists(fs::symlink_status(to)))
    throw Refusal(to.string() + ": there is something at this place already, expected a new name; nothing was overwritten");
}

void make_private(const fs::path& path) {
  const int file = ::open(path.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0600);
  if (file < 0) {
    const int why = errno;
    throw MachineFailure(path.string() + ": cannot be written: " + std::generic_category().message(why));
  }
  ::close(file);
}

void to_disk(const fs::path& path) {
  const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (file < 0) return;
  ::fsync(file);
  ::close(file);
}

// Removes what was begun unless it was finished.
class Begun {
 public:
  explicit Begun(fs::path path) : path_(std::move(path)) {}
  ~Begun() {
    std::error_code ignored;
    if (!finished_)
      for (const char* tail : {"", "-wal", "-shm", "-journal"}) fs::remove(path_.string() + tail, ignored);
  }
  Begun(const Begun&) = delete;
  Begun& operator=(const Begun&) = delete;
  void finished() { finished_ = true; }

 private:
  fs::path path_;
  bool finished_ = false;
};

void copy_attachments(const fs::path& from, const fs::path& to) {
  if (!fs::is_directory(from)) return;
  ::mkdir(to.c_str(), 0700);
  for (const auto& each : fs::directory_iterator(from)) {
    if (!each.is_regular_file() || each.path().filename().string().size() != 64) continue;
    fs::copy_file(each.path(), to / each.path().filename(), fs::copy_options::overwrite_existing);
    fs::permissions(to / each.path().filename(), fs::perms::owner_read | fs::perms::owner_write);
    to_disk(to / each.path().filename());
  }
}

void copy_book(SQLite::Database& from, const fs::path& to, const std::function<void(std::size_t, std::size_t)>& tick) {
  const fs::path arriving = to.string() + ".arriving";
  std::error_code ignored;
  fs::remove(arriving, ignored);
  make_private(arriving);
  Begun begun(arriving);
  {
    SQLite::Database copy(arriving.string(), SQLite::OPEN_READWRITE);
    SQLite::Backup steps(copy, from);
    while (steps.executeStep(1024) == SQLITE_OK)
      if (tick) tick(static_cast<std::size_t>(steps.getTotalPageCount() - steps.getRemainingPageCount()) / 64 * 64, static_cast<std::size_t>(steps.getTotalPageCount()));
  }
  {
    // The copy carries the mark of a write-ahead log; opened once and closed, it leaves a single file behind.
    SQLite::Database copy(arriving.string(), SQLite::OPEN_READWRITE);
    copy.execAndGet("PRAGMA journal_mode = DELETE");
  }
  to_disk(arriving);
  fs::rename(arriving, to);
  begun.finished();
  to_disk(to.has_parent_path() ? to.parent_path() : fs::path("."));
}

}  // namespace

bool is_book(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::string head(15, '\0');
  in.read(head.data(), 15);
  return in.gcount() == 15 && head == "SQLite format 3";
}

void backup(const Book& book, const fs::path& to, const std::function<void(std::size_t, std::size_t)>& tick) {
  expect_free(to);
  copy_attachments(book.attachments(), to.string() + ".files");
  copy_book(book.database(), to, tick);
}

void restore_backup(const fs::path& from, const fs::path& to) {
  expect_free(to);
  {
    SQLite::Database source(from.string(), SQLite::OPEN_READWRITE);
    copy_book(source, to, {});
  }
  copy_attachments(from.string() + ".files", to.string() + ".files");
  try {
    const Book restored = Book::open(to);
    const Health health = check(restored);
    if (!health.sound)
      throw Refusal(fmt::format("{}: the backup is not sound: {}; nothing was restored", from.string(), health.findings.front()));
  } catch (...) {
    std::error_code ignored;
    for (const char* tail : {"", "-wal", "-shm"}) fs::remove(to.string() + tail, ignored);
    throw;
  }
}

}  // namespace nonrunner::book
