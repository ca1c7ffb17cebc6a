// What is still open on a car: money that is due, a receipt that waits for its paper, a buyer's deposit that is held.
#pragma once
#include <cstdint>
#include <string>

#include "exact/money.h"
#include "figures/due.h"

namespace nonrunner::figures {

struct Open {
  enum class Kind { due, paper, deposit } kind = Kind::due;
  std::string what, from;  // of what is due
  Money amount;            // of what is due, of the deposit
  std::int64_t entry = 0;  // the receipt
  DueKind due = DueKind::named;
};

// A receipt that is not itemised yet and will change a line of the budget when it is.
struct WaitingPaper {
  std::int64_t entry = 0;
  Money amount;         // none: where it stands under no budget
  bool may_be = false;  // under no line so far: it is called much like this one
};

}  // namespace nonrunner::figures
