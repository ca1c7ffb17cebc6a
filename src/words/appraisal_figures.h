// The appraisal workbook's figures, from the appraisal and what it is made of.
#pragma once
#include "appraisal/appraisal.h"
#include "exact/day.h"
#include "figures/appraisal.h"

namespace nonrunner::words {

figures::AppraisalFigures appraisal_figures(const appraisal::Appraisal&, const appraisal::SoundValue&,
                                            const std::string& distance_unit, Day today);

}  // namespace nonrunner::words
