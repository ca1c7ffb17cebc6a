// The figures of one vehicle added up exactly: what the formulas of the workbook give when nothing is
// changed.
#pragma once
#include <array>
#include <optional>

#include "reports/profit.h"

namespace nonrunner::reports::profit {

constexpr std::size_t kinds = static_cast<std::size_t>(ProfitKind::due_back) + 1;
constexpr std::size_t index(ProfitKind kind) { return static_cast<std::size_t>(kind); }
const char* name_of(ProfitKind);  // "part", "paid hours"

// The result as it stands at one moment: at the sale, or with all that came after.
struct Outcome {
  Money price, cost, recovered_before, cost_of_sale, selling, deposit_kept, recovered_after, late,
      cash_profit;
  Hours own;
  Money own_value, profit;
  Money rest;  // cash profit before the sale price and the commission
  Money break_even, break_even_with_hours;
  std::optional<Money> per_hour;
};

struct Sums {
  std::array<Money, kinds> to_sale{}, after{};  // money in positive, by kind
  bool anything_after = false;
  bool priced = false;  // there is a sale price
  bool commission_by_rate = false;
  Money tied_up;  // the most cash that was out at the end of a day
  Outcome final, at_sale;
};

Sums added_up(const ProfitFigures&);
// round(amount / hours) to a minor unit, half away from zero; absent without hours.
std::optional<Money> per_hour(Money, Hours);

}  // namespace nonrunner::reports::profit
