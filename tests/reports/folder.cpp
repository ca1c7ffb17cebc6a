#include "reports/folder.h"

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace nonrunner::reports {

namespace fs = std::filesystem;

Folder::Folder() {
  std::string name = (fs::temp_directory_path() / "nonrunner-reports-XXXXXX").string();
  const char* made = ::mkdtemp(name.data());
  if (!made) throw std::runtime_error("no folder for a test");
  path = made;
}

Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(path, ignored);
}

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

}  // namespace nonrunner::reports
