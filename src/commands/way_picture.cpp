#include "commands/way_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "appraisal/frontier.h"

namespace nonrunner::commands {

std::string picture_of_way(const std::vector<appraisal::ChoiceSet>& frontier,
                           const std::vector<appraisal::ChoiceSet>& steps, const std::string& lowest,
                           const std::string& highest, std::size_t width, std::size_t height) {
  if (frontier.size() < 2) return "";
  const double most_hours = frontier.back().hours, low = std::min(0.0, frontier.front().gain),
               high = frontier.back().gain;
  if (!(most_hours > 0) || !(high > low)) return "";
  const auto column_of = [&](double at) {
    return static_cast<std::size_t>(std::lround(at / most_hours * static_cast<double>(width - 1)));
  };
  const auto row_of = [&](double gain) {
    return static_cast<std::size_t>(
        std::lround((gain - low) / (high - low) * static_cast<double>(height - 1)));
  };
  std::vector<std::string> rows(height, std::string(width, ' '));  // rows[0] is the lowest
  for (std::size_t column = 0; column < width; ++column) {
    const auto* at = appraisal::at_budget(
        frontier, most_hours * static_cast<double>(column) / static_cast<double>(width - 1));
    if (!at) continue;
    for (std::size_t row = 0; row <= row_of(at->gain); ++row)
      rows[row][column] = row == row_of(at->gain) ? '=' : ':';
  }
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const char letter = i < 26 ? static_cast<char>('a' + i) : '+';
    char& place = rows[row_of(steps[i].gain)][column_of(steps[i].hours)];
    // Steps that fall on one place keep the first letter: the list below has them all.
    if (place < 'a' || place > 'z') place = letter;
  }
  const std::size_t edge = std::max(lowest.size(), highest.size());
  std::string text;
  for (std::size_t row = height; row > 0; --row) {
    const std::string& label = row == height ? highest : row == 1 ? lowest : "";
    text += fmt::format("{:>{}} |{}", label, edge, rows[row - 1]);
    text.erase(text.find_last_not_of(' ') + 1);
    text += "\n";
  }
  text += fmt::format("{:>{}} +{}\n", "", edge, std::string(width, '-'));
  text += fmt::format("{:>{}}  0{:>{}} own hours\n", "", edge, fmt::format("{:.1f}", most_hours), width - 1);
  return text;
}

}  // namespace nonrunner::commands
