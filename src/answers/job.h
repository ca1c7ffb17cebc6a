// The job workbook's and the shopping workbook's figures, from the book and the appraisals in force.
#pragma once
#include "book/ledger/book.h"
#include "exact/day.h"
#include "figures/job.h"
#include "figures/shopping.h"

namespace nonrunner::answers {

figures::JobFigures job_figures(const book::Book&, const std::string& tag, Day today);
// Of every owned car that is not in pieces, or of one. What was looked for and not there are findings that
// begin with "not there"; what follows the last ", at " of one is the place.
figures::ShoppingFigures shopping_figures(const book::Book&, const std::string& tag, Day today);

}  // namespace nonrunner::answers
