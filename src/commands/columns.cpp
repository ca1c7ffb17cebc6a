#include "commands/columns.h"

#include <algorithm>

#include "commands/screen.h"
#include "text/unicode.h"

namespace nonrunner::commands {

namespace {

constexpr std::size_t gap = 2;
// A text column is cut down to so many columns before its row is folded; on a screen of 80 and more to fewer, since
// there a row on one line is read more easily than the last words of a name.
std::size_t least_text(std::size_t width) { return width < usual_columns ? 14 : 8; }

// The columns of one line of the folded table: from `first` up to, not including, `end`.
struct Part {
  std::size_t first, end;
};

std::size_t sum_of(const std::vector<std::size_t>& widths, Part part) {
  std::size_t sum = 0;
  for (std::size_t i = part.first; i < part.end; ++i) sum += widths[i] + (i > part.first ? gap : 0);
  return sum;
}

// As many columns on each line as fit; what follows the first line stands `gap` further in.
std::vector<Part> parts_of(const std::vector<std::size_t>& widths, std::size_t width) {
  std::vector<Part> parts{{0, 1}};
  for (std::size_t i = 1; i < widths.size(); ++i) {
    const std::size_t room = width - (parts.size() > 1 ? gap : 0);
    if (sum_of(widths, {parts.back().first, i + 1}) <= room)
      parts.back().end = i + 1;
    else
      parts.push_back({i, i + 1});
  }
  return parts;
}

}  // namespace

std::string Columns::text() const { return text(screen_columns()); }

std::string Columns::text(std::size_t width) const {
  std::vector<std::size_t> widths(aligned_.size(), 0);
  for (const auto& row : rows_)
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], shown_width(row[i]));
  const Part whole{0, widths.size()};
  std::vector<std::size_t> cut = widths;
  while (sum_of(cut, whole) > width) {
    std::size_t longest = cut.size();
    for (std::size_t i = 0; i < cut.size(); ++i)
      if (aligned_[i] == 'l' && (longest == cut.size() || cut[i] > cut[longest])) longest = i;
    if (longest == cut.size() || cut[longest] <= least_text(width)) break;
    --cut[longest];
  }
  std::vector<Part> parts{whole};
  if (sum_of(cut, whole) <= width) {
    widths = cut;
  } else {  // nothing is cut that has room on a line of its own
    for (std::size_t i = 0; i < widths.size(); ++i)
      if (aligned_[i] == 'l') widths[i] = std::min(widths[i], width - gap);
    parts = parts_of(widths, width);
  }
  std::string text;
  for (const auto& row : rows_)
    for (const Part& part : parts) {
      std::string line(part.first > 0 ? gap : 0, ' ');
      for (std::size_t i = part.first; i < std::min(part.end, row.size()); ++i) {
        const std::string cell = aligned_[i] == 'l' ? cut_to(row[i], widths[i]) : row[i];
        const std::string rest(widths[i] - std::min(widths[i], shown_width(cell)), ' ');
        line +=
            (i > part.first ? std::string(gap, ' ') : "") + (aligned_[i] == 'l' ? cell + rest : rest + cell);
      }
      line.erase(line.find_last_not_of(' ') + 1);
      if (!line.empty() || part.first == 0) text += line + "\n";
    }
  return text;
}

}  // namespace nonrunner::commands
