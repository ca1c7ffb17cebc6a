// The appraisal workbook: is this car worth buying, for how much at most, and what to find out first.
//
// Everything here is an opinion or an expected value: doubles in the currency's units, not rounded. The model
// hands over its figures and what each is made of; the workbook puts them together again in formulas, so that
// a changed asking price, sound value, hour or price of a part answers at once. The chance of a loss follows the
// price asked, by a thousand of the points that were drawn. What else comes from sampling (its limit, the
// spread), the ways and the plans of tests are figures that stand as they are, and say so. Throws MachineFailure
// where the file cannot be written, std::logic_error where the parts do not add up to the figures given (to half a
// minor unit).
#pragma once
#include <filesystem>

#include "figures/appraisal.h"

namespace nonrunner::reports {

using namespace figures;

void write_appraisal(const AppraisalFigures&, const std::filesystem::path& out);

}  // namespace nonrunner::reports
