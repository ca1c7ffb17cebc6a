// Where a cell is, and how formulas write it. Rows and columns count from 0 here and from 1 and A in
// formulas.
#pragma once
#include <cstdint>
#include <string>

namespace nonrunner::reports {

struct Cell {
  std::uint32_t row = 0;
  std::uint16_t col = 0;

  Cell right(int columns = 1) const { return {row, static_cast<std::uint16_t>(col + columns)}; }
  Cell below(int rows = 1) const { return {static_cast<std::uint32_t>(static_cast<int>(row) + rows), col}; }
  friend bool operator==(Cell, Cell) = default;
};

std::string letters(std::uint16_t col);  // 0 -> "A", 27 -> "AB"
std::string here(Cell);                  // "B7": a cell of the same sheet
std::string here(Cell from, Cell to);    // "B7:B12"
std::string fixed(Cell);                 // "$B$7"

}  // namespace nonrunner::reports
