// The year workbook's figures, from the book.
#pragma once
#include "book/ledger/book.h"
#include "exact/day.h"
#include "figures/year.h"

namespace nonrunner::answers {

figures::YearFigures year_figures(const book::Book&, int year, Day today);

}  // namespace nonrunner::answers
