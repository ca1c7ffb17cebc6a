// The job workbook's figures: a car in work, from the book and the appraisals in force.
#pragma once
#include <string>

#include "book/ledger/book.h"
#include "exact/day.h"
#include "figures/job.h"

namespace nonrunner::answers {

figures::JobFigures job_figures(const book::Book&, const std::string& tag, Day today);

}  // namespace nonrunner::answers
