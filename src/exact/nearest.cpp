#include "exact/nearest.h"

#include <algorithm>

namespace nonrunner {

std::size_t word_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last, last(b.size() + 1), now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        now[j] = std::min(now[j], before_last[j - 2] + 1);
    }
    before_last = last;
    last = now;
  }
  return last[b.size()];
}

std::optional<std::string> nearest(std::string_view word, const std::vector<std::string>& known) {
  if (word.size() > 200) return std::nullopt;  // nobody meant that; and the work grows with the product
  std::optional<std::string> best;
  std::size_t least = std::clamp<std::size_t>(word.size() / 3, 1, 3) + 1;
  for (const std::string& each : known) {
    if (each.size() > 200) continue;
    const std::size_t distance = word_distance(word, each);
    if (distance < least) {
      least = distance;
      best = each;
    }
  }
  return best;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known) {
  const auto near = nearest(word, known);
  return near ? ", did you mean \"" + *near + "\"?" : "";
}

}  // namespace nonrunner
