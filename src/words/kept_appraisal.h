// The appraisal workbook's figures of the appraisal kept last, with what was found since: the same answer as where the
// car is appraised again.
#pragma once
#include <string>

#include "book/ledger/book.h"
#include "figures/appraisal.h"

namespace nonrunner::words {

// Throws Refusal where none is kept.
figures::AppraisalFigures kept_appraisal_figures(const book::Book&, const std::string& tag, Day today);

}  // namespace nonrunner::words
