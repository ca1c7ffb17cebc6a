// What the shop's own cars say, beside what is stated: pace, realised, days, bad parts, causes, what readying
// costs, and how the appraisals did (answers/own_figures.h, answers/appraisals_tried.h).
#pragma once
#include "answers/appraisals_tried.h"
#include "answers/own_figures.h"
#include "resale/own_amount.h"
#include "resale/own_records.h"

namespace nonrunner::answers {

struct Learnt {
  Currency currency;
  OwnFigures own;
  AppraisalsTried tried;
  resale::OwnAmount pace, realised, days;
  resale::ShrunkShare salvage;
  resale::MeanAndSpread readying, looking;  // in the currency's units
  double booked_hours = 0, own_hours = 0;   // of cars whose hours could be compared
};

// Cars sold, left, and parts bought before that day.
Learnt learnt(const book::Book&, Day before);

}  // namespace nonrunner::answers
