// What was asked and how it ended, a line each: moment, device, method, road, status, milliseconds. Never a query, a
// body, a cookie or a code: a road stands there as the table has it. Beyond 1 MB the file is begun anew. A log that
// cannot be written keeps nobody from the book.
#pragma once
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>

namespace nonrunner::page {

class HouseLog {
 public:
  static constexpr std::uint64_t most = 1'000'000;
  explicit HouseLog(std::filesystem::path file);
  void line(const std::string& now, const std::string& device, const std::string& method,
            const std::string& road, int status, double milliseconds);

 private:
  void begin(bool anew);
  std::filesystem::path file_;
  std::ofstream out_;
  std::uint64_t written_ = 0;
};

}  // namespace nonrunner::page
