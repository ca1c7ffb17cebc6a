#include "commands/columns.h"

#include <algorithm>

#include "text/unicode.h"

namespace nonrunner::commands {

std::string Columns::text(std::size_t width) const {
  std::vector<std::size_t> widths(aligned_.size(), 0);
  for (const auto& row : rows_)
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], shown_width(row[i]));
  const auto total = [&] {
    std::size_t sum = 2 * (widths.size() - 1);
    for (const std::size_t each : widths) sum += each;
    return sum;
  };
  while (total() > width) {
    std::size_t widest = widths.size();
    for (std::size_t i = 0; i < widths.size(); ++i)
      if (aligned_[i] == 'l' && (widest == widths.size() || widths[i] > widths[widest])) widest = i;
    if (widest == widths.size() || widths[widest] <= 8) break;
    --widths[widest];
  }
  std::string text;
  for (const auto& row : rows_) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string cell = aligned_[i] == 'l' ? cut_to(row[i], widths[i]) : row[i];
      const std::string gap(widths[i] - std::min(widths[i], shown_width(cell)), ' ');
      line += (i ? "  " : "") + (aligned_[i] == 'l' ? cell + gap : gap + cell);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text;
}

}  // namespace nonrunner::commands
