// Where the money of one car went: every line of it by its kind, and how the sum stood from day to day.
#pragma once
#include <string>
#include <vector>

#include "answers/budget.h"
#include "book/ledger/book.h"
#include "exact/day.h"
#include "exact/money.h"
#include "figures/money_kind.h"

namespace nonrunner::answers {

// Money in is positive. Those of a car sold or finished add up to its cash profit; kinds with nothing are left
// out, and so is what goes and comes back.
struct OfKind {
  figures::MoneyKind kind = figures::MoneyKind::part;
  Money amount;
};
std::vector<OfKind> where_it_went(const book::Book&, const std::string& tag);

// What had been spent and brought at the end of each day on which something moved.
struct StoodAt {
  Day day;
  Money sum;
};
std::vector<StoodAt> cash_over_time(const book::Book&, const std::string& tag);

// What was expected at the purchase against what it came to, by heading of the appraisal; what stands under none
// is one row without an expectation.
struct Variance {
  std::string heading;  // empty: what stands under none
  std::optional<Money> expected;
  Money came_to, over;  // over: more than expected; below zero: less
};
std::vector<Variance> variances(const Budget& at_purchase);

}  // namespace nonrunner::answers
