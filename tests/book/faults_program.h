// The program called from a test, in this process.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

namespace nonrunner::faults {

struct Said {
  int status = 0;
  std::string out, err;
};
Said program(const std::vector<std::string>& words);

std::string bytes_of(const std::filesystem::path& file);

}  // namespace nonrunner::faults
