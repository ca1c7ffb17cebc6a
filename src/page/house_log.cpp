#include "page/house_log.h"

#include <fmt/format.h>

#include <algorithm>

#include "text/unicode.h"

namespace nonrunner::page {

HouseLog::HouseLog(std::filesystem::path file) : file_(std::move(file)) { begin(false); }

void HouseLog::begin(bool anew) {
  if (file_.empty()) return;
  std::error_code error;
  if (std::filesystem::is_symlink(file_, error)) return;
  const auto size = std::filesystem::file_size(file_, error);
  written_ = error || anew || size >= most ? 0 : size;
  out_.close();
  out_.clear();
  out_.open(file_, written_ == 0 ? std::ios::trunc : std::ios::app);
}

void HouseLog::line(const std::string& now, const std::string& device, const std::string& method,
                    const std::string& road, int status, double milliseconds) {
  if (!out_.is_open()) return;
  const auto word = [](const std::string& text) {
    std::string one = text.empty() ? "-" : printable(text).substr(0, 80);
    std::replace(one.begin(), one.end(), '"', '\'');
    return one;
  };
  const std::string line = fmt::format("{} \"{}\" {} {} {} {:.1f}\n", now, word(device), word(method),
                                       word(road), status, milliseconds);
  if (written_ + line.size() > most) begin(true);
  out_ << line << std::flush;
  written_ += line.size();
}

}  // namespace nonrunner::page
