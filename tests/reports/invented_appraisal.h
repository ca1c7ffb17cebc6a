// An invented car under consideration, appraised by a small model of its own, so that a workbook with changed
// inputs can be held against what a second way of reckoning gives.
#pragma once
#include "reports/appraisal.h"

namespace nonrunner::reports::invented {

struct Asked {
  double asking = 1450, sound = 3633.33, hour = 20, radiator = 62.1, pump_hours = 3.4, aim_profit = 500,
         pace = 7.0 / 6, opening_hours = 1.66;
};

AppraisalFigures appraised(const Asked& = {});

}  // namespace nonrunner::reports::invented
