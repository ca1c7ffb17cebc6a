// The shopping workbook's figures: what to buy for which car, by place, from the budgets.
#pragma once
#include <string>

#include "book/ledger/book.h"
#include "exact/day.h"
#include "figures/shopping.h"

namespace nonrunner::answers {

// Of every owned car that is not in pieces, or of one. What was looked for and not there are findings that
// say so.
figures::ShoppingFigures shopping_figures(const book::Book&, const std::string& tag, Day today);

}  // namespace nonrunner::answers
