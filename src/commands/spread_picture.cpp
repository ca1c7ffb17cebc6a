#include "commands/spread_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "commands/screen.h"
#include "figures/opinion.h"

namespace nonrunner::commands {

std::string spread_picture(const appraisal::Risk& risk, const Currency& currency) {
  constexpr int height = 6;
  const double tallest = *std::max_element(risk.bars.begin(), risk.bars.end());
  const double step = (risk.to - risk.from) / static_cast<double>(risk.bars.size());
  // A step is two columns wide, or one where the screen has no room for that.
  const std::size_t wide = 2 + 2 * risk.bars.size() <= screen_columns() ? 2 : 1;
  std::string text;
  for (int line = height; line >= 1; --line) {
    std::string row = "  ";
    for (std::size_t i = 0; i < risk.bars.size(); ++i) {
      const bool loss = risk.from + step * (static_cast<double>(i) + 1) <= 0;
      // A step that can happen at all shows at least its lowest line.
      const double share = risk.bars[i] / tallest * height;
      const bool drawn = share >= line - 0.5 || (line == 1 && risk.bars[i] > 0);
      row += drawn ? std::string(wide, loss ? 'x' : '#') : std::string(wide, ' ');
    }
    row.erase(row.find_last_not_of(' ') + 1);
    text += row + "\n";
  }
  const std::size_t width = wide * risk.bars.size();
  const std::string left = shown_units(risk.from, currency), right = shown_units(risk.to, currency);
  std::string axis(width, '-'), labels(width, ' ');
  labels.replace(0, left.size(), left);
  labels.replace(width - right.size(), right.size(), right);
  if (risk.from < 0 && risk.to > 0) {
    const auto zero = static_cast<std::size_t>(
        std::clamp(std::floor(-risk.from / (risk.to - risk.from) * static_cast<double>(width)), 0.0,
                   static_cast<double>(width - 1)));
    axis[zero] = '+';
    if (zero > left.size() + 1 && zero + 2 < width - right.size()) labels[zero] = '0';
  }
  return text + "  " + axis + "\n  " + labels + "\n  " +
         (risk.from < 0 ? "xx a loss   ## a gain" : "## a gain: none of the likely ends is a loss") + "\n";
}

}  // namespace nonrunner::commands
