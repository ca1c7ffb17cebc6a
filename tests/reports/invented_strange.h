// The invented workbooks with the names that people do type: long ones, in several scripts, with signs in front.
#pragma once
#include "figures/appraisal.h"
#include "figures/job.h"
#include "figures/shopping.h"
#include "figures/year.h"

namespace nonrunner::reports::invented {

figures::AppraisalFigures strangely_named(figures::AppraisalFigures);
figures::JobFigures strangely_named(figures::JobFigures);
figures::ShoppingFigures strangely_named(figures::ShoppingFigures);
// In amounts of nine digits before the decimals as well.
figures::YearFigures in_pesos(figures::YearFigures);

}  // namespace nonrunner::reports::invented
