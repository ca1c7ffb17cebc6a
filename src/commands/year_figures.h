// The year workbook's figures, from the book.
#pragma once
#include "book/ledger/book.h"
#include "exact/day.h"
#include "reports/year.h"

namespace nonrunner::commands {

reports::YearFigures year_figures(const book::Book&, int year, Day today);

}  // namespace nonrunner::commands
