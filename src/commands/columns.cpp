#include "commands/columns.h"

#include <algorithm>

#include "commands/screen.h"
#include "text/unicode.h"

namespace nonrunner::commands {

namespace {

constexpr std::size_t gap = 2;
// A text is cut down to so many columns to keep its row on one line of a usual screen, and to so many on a narrow one to
// keep a number beside it.
constexpr std::size_t least_text = 8, least_folded = 16;

// The columns of one line of the table: from `first` up to, not including, `end`.
struct Part {
  std::size_t first, end;
};

class Widths {
 public:
  Widths(std::vector<std::size_t> widths, const std::string& aligned)
      : widths_(std::move(widths)), aligned_(aligned) {}

  std::size_t operator[](std::size_t at) const { return widths_[at]; }
  std::size_t size() const { return widths_.size(); }
  std::size_t sum(Part part) const {
    std::size_t sum = 0;
    for (std::size_t i = part.first; i < part.end; ++i) sum += widths_[i] + (i > part.first ? gap : 0);
    return sum;
  }
  // Cuts the longest texts of the part until it fits; false, and nothing cut, where that takes more than it may.
  bool fit(Part part, std::size_t room, std::size_t least) {
    std::vector<std::size_t> before = widths_;
    while (sum(part) > room) {
      std::size_t longest = part.end;
      for (std::size_t i = part.first; i < part.end; ++i)
        if (aligned_[i] == 'l' && (longest == part.end || widths_[i] > widths_[longest])) longest = i;
      if (longest == part.end || widths_[longest] <= least) {
        widths_ = before;
        return false;
      }
      --widths_[longest];
    }
    return true;
  }

 private:
  std::vector<std::size_t> widths_;
  const std::string& aligned_;
};

// As many columns on each line as fit, a text cut only to have a number beside it; what follows the first line stands
// `gap` further in.
std::vector<Part> folded(Widths& widths, const std::string& aligned, std::size_t width) {
  std::vector<Part> parts{{0, 1}};
  for (std::size_t i = 1; i < widths.size(); ++i) {
    const std::size_t room = width - (parts.size() > 1 ? gap : 0);
    const Part with{parts.back().first, i + 1};
    if (widths.sum(with) <= room || (aligned[i] == 'r' && widths.fit(with, room, least_folded)))
      parts.back().end = i + 1;
    else
      parts.push_back({i, i + 1});
  }
  for (const Part& part : parts) widths.fit(part, width - (part.first > 0 ? gap : 0), least_folded);
  return parts;
}

// Cut to the width, never inside a number: what is left of one would be another.
std::string cut_cell(const std::string& text, std::size_t width) {
  std::string cut = cut_to(text, width);
  if (cut == text || !cut.ends_with("...")) return cut;
  cut.resize(cut.size() - 3);
  const auto of_number = [](char c) { return (c >= '0' && c <= '9') || c == ',' || c == '.'; };
  if (cut.size() < text.size() && of_number(text[cut.size()]))
    while (!cut.empty() && of_number(cut.back())) cut.pop_back();
  return cut + "...";
}

}  // namespace

std::string Columns::text() const { return text(screen_columns()); }

std::string Columns::text(std::size_t width) const {
  std::vector<std::size_t> widths(aligned_.size(), 0);
  for (const auto& row : rows_)
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], shown_width(row[i]));
  Widths shown(widths, aligned_);
  const Part whole{0, widths.size()};
  std::vector<Part> parts{whole};
  const bool fits = width < usual_columns ? shown.sum(whole) <= width : shown.fit(whole, width, least_text);
  if (!fits) parts = folded(shown, aligned_, width);
  std::string text;
  for (const auto& row : rows_)
    for (const Part& part : parts) {
      std::string line(part.first > 0 ? gap : 0, ' ');
      for (std::size_t i = part.first; i < std::min(part.end, row.size()); ++i) {
        const std::string cell = aligned_[i] == 'l' ? cut_cell(row[i], shown[i]) : row[i];
        const std::string rest(shown[i] - std::min(shown[i], shown_width(cell)), ' ');
        line +=
            (i > part.first ? std::string(gap, ' ') : "") + (aligned_[i] == 'r' ? rest + cell : cell + rest);
      }
      line.erase(line.find_last_not_of(' ') + 1);
      if (!line.empty() || part.first == 0) text += line + "\n";
    }
  return text;
}

}  // namespace nonrunner::commands
