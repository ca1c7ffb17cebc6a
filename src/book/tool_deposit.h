// A deposit on a borrowed tool, and its coming back: one entry each.
//
//   tool deposit:       tool deposit + amount   purse - amount        tool deposit back: the other way round
//
// Refused, the first that applies:  1 it does not say what   2 the amount is not above 0
//   3 (back) more than is out for that tool; the nearest is named
#pragma once
#include "book/entry.h"
#include "text/table.h"

namespace nonrunner::book {

struct ToolDeposit {
  bool back = false;
  Day day;
  std::string supplier, what;
  Money amount;
  std::string purse;
  std::optional<Day> back_by;
};
ToolDeposit read_tool_deposit(const Table&, const Currency&, bool back);
EntryId record(Recording&, const ToolDeposit&);

}  // namespace nonrunner::book
