#include "book/care/arriving.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdio.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

#include "exact/ends.h"

namespace nonrunner::book {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void cannot_be_made(const fs::path& place) {
  const int why = errno;
  throw MachineFailure(place.string() + ": cannot be made: " + std::generic_category().message(why) +
                       "; nothing was written");
}

void sync(const fs::path& path, int flags) {
  const int file = ::open(path.c_str(), flags | O_CLOEXEC);
  const bool well = file >= 0 && ::fsync(file) == 0;
  const int why = errno;
  if (file >= 0) ::close(file);
  if (!well)
    throw MachineFailure(path.string() + ": did not reach the disk: " + std::generic_category().message(why));
}

// The file, empty and locked; taken over from a process that was killed, refused where one is still at it.
int locked_file(const fs::path& path, const fs::path& place) {
  for (;;) {
    const int file = ::open(path.c_str(), O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0600);
    if (file < 0) cannot_be_made(place);
    if (::flock(file, LOCK_EX | LOCK_NB) != 0) {
      ::close(file);
      throw Refusal(place.string() +
                    ": another process is making a book here; wait for it to end and look again");
    }
    struct stat held {
    }, there{};
    // Gone or another one since: its maker ended between our opening and our lock.
    if (::fstat(file, &held) == 0 && ::lstat(path.c_str(), &there) == 0 && held.st_ino == there.st_ino) {
      // One that somebody else made could still be read and written by them, or stands elsewhere as well.
      if (!S_ISREG(held.st_mode) || held.st_uid != ::geteuid() || held.st_nlink != 1 ||
          (held.st_mode & 0777) != 0600) {
        ::close(file);
        throw Refusal(
            path.string() +
            ": found a file that is not ours alone, expected none; take it away, or choose another name");
      }
      if (::ftruncate(file, 0) == 0 && ::fchmod(file, 0600) == 0) return file;
      ::close(file);
      cannot_be_made(place);
    }
    ::close(file);
  }
}

}  // namespace

void expect_free(const fs::path& place) {
  // What comes beside a book is called by its name and a little more.
  constexpr std::size_t longest = 230;
  if (const std::size_t size = place.filename().string().size(); size > longest)
    throw Refusal(fmt::format("{}: the name has {} bytes, expected at most {}; choose a shorter one",
                              place.string(), size, longest));
  // Such names are wishes to SQLite. This program would make a file of that name; another one that is then asked to
  // read the book would not find it.
  const auto is_wish = [](const fs::path& part) {
    return part == ":memory:" || part.string().starts_with("file:");
  };
  if (is_wish(place.filename()) || is_wish(*place.begin()))
    throw Refusal(
        fmt::format("{}: found a name that is none of a file to other programs for databases, expected "
                    "the name of a file, such as shop.book; choose another one",
                    place.string()));
  if (fs::exists(fs::symlink_status(place)))
    throw Refusal(place.string() +
                  ": there is something at this place already, expected a new name; nothing was overwritten");
}

void to_disk(const fs::path& path) { sync(path, O_RDONLY); }

void folder_to_disk(const fs::path& of) {
  sync(of.has_parent_path() ? of.parent_path() : fs::path("."), O_RDONLY | O_DIRECTORY);
}

Arriving::Arriving(fs::path place) : place_(std::move(place)), path_(place_.string() + ".arriving") {
  expect_free(place_);
  lock_ = locked_file(path_, place_);
  std::error_code ignored;
  for (const char* tail : {"-wal", "-shm", "-journal", ".files"})
    fs::remove_all(path_.string() + tail, ignored);
}

Arriving::~Arriving() {
  if (!arrived_) remove_all();
  ::close(lock_);
}

void Arriving::remove_all() const {
  std::error_code ignored;
  for (const char* tail : {"-wal", "-shm", "-journal", ".files", ""})
    fs::remove_all(path_.string() + tail, ignored);
}

void Arriving::attachments_arrive() const {
  const fs::path from = attachments(), to = place_.string() + ".files";
  if (!fs::is_directory(from)) return;
  folder_to_disk(from / "each");
  if (::rename(from.c_str(), to.c_str()) == 0) return;
  if (errno != ENOTEMPTY && errno != EEXIST) cannot_be_made(to);
  // Left there by an attempt that was killed. They are called by what is in them: the same name, the same
  // file.
  for (const auto& each : fs::directory_iterator(from)) fs::rename(each.path(), to / each.path().filename());
  fs::remove(from);
  folder_to_disk(to / "each");
}

void Arriving::arrive() {
  // Closing brings the log into the book and removes it, and does not say so where it cannot.
  if (fs::exists(path_.string() + "-wal"))
    throw MachineFailure(place_.string() +
                         ": did not reach the disk; nothing was kept, make room and try again");
  to_disk(path_);
  attachments_arrive();
  if (::renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, place_.c_str(), RENAME_NOREPLACE) != 0) {
    if (errno == EEXIST) expect_free(place_);
    // A file system that cannot promise it: look first.
    if (errno != EINVAL && errno != ENOSYS) cannot_be_made(place_);
    expect_free(place_);
    if (::rename(path_.c_str(), place_.c_str()) != 0) cannot_be_made(place_);
  }
  arrived_ = true;
  folder_to_disk(place_);
}

}  // namespace nonrunner::book
