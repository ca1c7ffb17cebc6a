#pragma once
#include <string>
#include <vector>

namespace nonrunner::commands {

// Lines of columns: the first left-aligned, those marked as numbers right-aligned, two blanks between.
class Columns {
 public:
  explicit Columns(std::string aligned)
      : aligned_(std::move(aligned)) {}  // "lkr": left, left and never cut, right
  void row(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
  bool empty() const { return rows_.empty(); }
  // At most as wide as the screen, or as `width`: the longest text is cut with "..." as far as it stays readable; where
  // that is not enough a row goes on below, two columns in. A number is never cut.
  std::string text() const;
  std::string text(std::size_t width) const;

 private:
  std::string aligned_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace nonrunner::commands
