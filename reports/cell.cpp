#include "reports/cell.h"

namespace nonrunner::reports {

std::string letters(std::uint16_t col) {
  std::string text;
  for (int rest = col + 1; rest > 0; rest = (rest - 1) / 26)
    text.insert(text.begin(), static_cast<char>('A' + (rest - 1) % 26));
  return text;
}

std::string here(Cell cell) { return letters(cell.col) + std::to_string(cell.row + 1); }
std::string here(Cell from, Cell to) { return here(from) + ":" + here(to); }
std::string fixed(Cell cell) { return "$" + letters(cell.col) + "$" + std::to_string(cell.row + 1); }

}  // namespace nonrunner::reports
