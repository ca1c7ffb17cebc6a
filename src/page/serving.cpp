#include "page/serving.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>

#include "book/care/devices.h"
#include "exact/ends.h"
#include "text/unicode.h"

namespace nonrunner::page {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view upload_mark = ".photo-";

fs::path file_of(const fs::path& book) { return book.string() + ".serving"; }

std::string read_line(const fs::path& file) {
  std::ifstream in(file);
  std::string line;
  std::getline(in, line);
  return printable(line).substr(0, 200);
}

}  // namespace

Serving::Serving(const fs::path& book) : file_(file_of(book)) {
  lock_ = ::open(file_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (lock_ < 0)
    throw MachineFailure(fmt::format("{}: {}; nothing is served", file_.string(), std::strerror(errno)));
  if (::flock(lock_, LOCK_EX | LOCK_NB) == 0) return;
  ::close(lock_);
  lock_ = -1;
  const std::string where = read_line(file_);
  throw Refusal(fmt::format("serve: {} is served already{}{}; use that one, or end it first", book.string(),
                            where.empty() ? "" : " at ", where));
}

Serving::~Serving() {
  if (lock_ < 0) return;
  // Emptied, not removed: whoever has opened it meanwhile has to find the same file.
  if (::ftruncate(lock_, 0) == 0) ::close(lock_);
}

void Serving::at(const std::string& where) {
  const std::string line = where + "\n";
  if (::ftruncate(lock_, 0) != 0 ||
      ::pwrite(lock_, line.data(), line.size(), 0) != static_cast<ssize_t>(line.size()))
    throw MachineFailure(fmt::format("{}: {}; nothing is served", file_.string(), std::strerror(errno)));
}

std::string Serving::where(const fs::path& book) {
  const fs::path file = file_of(book);
  const int lock = ::open(file.c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW);
  if (lock < 0) return "";
  const bool is_free = ::flock(lock, LOCK_SH | LOCK_NB) == 0;
  ::close(lock);
  return is_free ? "" : read_line(file);
}

void sweep_uploads(const fs::path& book) {
  const std::string begins = book.filename().string() + std::string(upload_mark);
  std::error_code error;
  const fs::path folder = book.parent_path().empty() ? "." : book.parent_path();
  for (fs::directory_iterator each(folder, error), end; !error && each != end; each.increment(error)) {
    const std::string name = each->path().filename().string();
    if (name.starts_with(begins) && name.size() == begins.size() + 16 && each->is_regular_file(error) &&
        !each->is_symlink(error)) {
      std::error_code ignored;
      fs::remove(each->path(), ignored);
    }
  }
}

fs::path upload_place(const fs::path& book) {
  return book.string() + std::string(upload_mark) + book::random_hex(8);
}

}  // namespace nonrunner::page
