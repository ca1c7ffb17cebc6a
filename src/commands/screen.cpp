#include "commands/screen.h"

#include <algorithm>

#include "exact/decimal.h"

namespace nonrunner::commands {

namespace {
thread_local std::size_t columns_now = usual_columns;
constexpr std::size_t longest_prose = 100;
}  // namespace

std::size_t screen_columns() { return columns_now; }
std::size_t prose_columns() { return std::min(columns_now, longest_prose); }

Screen::Screen(std::size_t columns) : before_(columns_now) {
  columns_now = columns == 0 ? usual_columns : columns;
}
Screen::~Screen() { columns_now = before_; }

std::size_t columns_said(const std::string& environment, std::size_t of_terminal) {
  std::size_t said = of_terminal;
  if (const auto number = scaled(environment, 0); number && *number > 0)
    said = static_cast<std::size_t>(std::min<std::int64_t>(*number, widest));
  return said == 0 ? 0 : std::clamp(said, narrowest, widest);
}

}  // namespace nonrunner::commands
