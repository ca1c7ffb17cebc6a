// The year workbook's figures, from the book.
#pragma once
#include "book/ledger/book.h"
#include "exact/day.h"
#include "figures/year.h"

namespace nonrunner::answers {

// A year as it is named; throws Refusal "found ..." for what is none, or has not come yet.
int year_named(const std::string&, Day today);
figures::YearFigures year_figures(const book::Book&, int year, Day today);

}  // namespace nonrunner::answers
