// An invented shop's year, a job in work, and a shopping list.
#pragma once
#include "reports/job.h"
#include "reports/shopping.h"
#include "reports/year.h"

namespace nonrunner::reports::invented {

YearFigures year();  // result 362.71, by hand
JobFigures job();
JobFigures job_in_pieces();
ShoppingFigures shopping();

}  // namespace nonrunner::reports::invented
