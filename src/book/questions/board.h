// The board: every car with its state and its main figures, from balances, so that it is quick however old
// the book is.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/names.h"

namespace nonrunner::book {

struct BoardRow {
  std::string tag;
  State state = State::considered;
  bool in_pieces = false;   // an owned one whose parts are being sold
  std::optional<int> days;  // held so far, or from purchase to sale
  Money cost;               // less what was recovered
  Money carried, sales;
  Hours own_hours;
  std::optional<Money> cash_profit;
};
// Owned cars first, then considered, sold, finished and passed ones; each group by tag. Cars without an entry
// that counts are left out.
std::vector<BoardRow> board(const Book&, Day today);

}  // namespace nonrunner::book
