// The profit workbook's figures, from the book.
#pragma once
#include "book/ledger/book.h"
#include "exact/day.h"
#include "figures/profit.h"

namespace nonrunner::answers {

// Throws Refusal where the car was never bought.
figures::ProfitFigures profit_figures(const book::Book&, const std::string& tag, Day today);

}  // namespace nonrunner::answers
