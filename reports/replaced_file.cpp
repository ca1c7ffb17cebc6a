#include "reports/replaced_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "exact/ends.h"

namespace nonrunner::reports {

namespace fs = std::filesystem;

namespace {

std::string reason() { return std::strerror(errno); }

fs::path folder_of(const fs::path& file) {
  return file.has_parent_path() ? file.parent_path() : fs::path(".");
}

bool synced(const fs::path& path, int flags) {
  const int file = ::open(path.c_str(), flags | O_CLOEXEC);
  if (file < 0) return false;
  const bool well = ::fsync(file) == 0;
  const int error = errno;
  ::close(file);
  errno = error;
  return well;
}

}  // namespace

ReplacedFile::ReplacedFile(fs::path target) : target_(std::move(target)) {
  if (fs::is_directory(target_)) fail("a folder stands there");
  for (int i = 0;; ++i) {
    path_ = folder_of(target_) /
            ("." + target_.filename().string() + "." + std::to_string(::getpid()) + "-" + std::to_string(i));
    const int file = ::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
    if (file >= 0) {
      ::close(file);
      return;
    }
    if (errno != EEXIST || i == 1000) fail(reason());
  }
}

ReplacedFile::~ReplacedFile() {
  if (!kept_) ::unlink(path_.c_str());
}

void ReplacedFile::keep() {
  if (!synced(path_, O_RDONLY)) fail(reason());
  if (::rename(path_.c_str(), target_.c_str()) != 0) fail(reason());
  kept_ = true;
  // The new name is on the disk only when its folder is.
  if (!synced(folder_of(target_), O_RDONLY | O_DIRECTORY)) fail(reason());
}

void ReplacedFile::fail(const std::string& why) const {
  throw MachineFailure(target_.string() + ": the workbook could not be written: " + why +
                       "; nothing was kept, choose another place or make room");
}

}  // namespace nonrunner::reports
