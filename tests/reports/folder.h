// A folder of its own for a test, gone when the test ends.
#pragma once
#include <filesystem>
#include <string>

namespace nonrunner::reports {

struct Folder {
  std::filesystem::path path;
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
};

std::string bytes_of(const std::filesystem::path&);
std::size_t files_in(const std::filesystem::path&);

}  // namespace nonrunner::reports
