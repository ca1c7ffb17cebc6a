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
// A part of a workbook, unpacked (PKWARE's APPNOTE, 4.3.7 and 4.4: a local header names it, its bytes are deflated); empty
// where there is none of that name.
std::string part_of(const std::string& package, const std::string& name);
std::size_t files_in(const std::filesystem::path&);

}  // namespace nonrunner::reports
