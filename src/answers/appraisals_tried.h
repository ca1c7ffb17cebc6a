// How the appraisals of cars that are sold or finished did: what each expected at the price that was really
// paid, and what came.
//
// By the figures that were kept with the appraisal, not by what today's program would say. They are of the price
// asked; what was not paid of it adds itself, with the tax and the interest on it, to every outcome: exact for the
// way to go that was expected, while a lower price may have made another way the best one. Chances are read off
// the kept spread, straight within one of its thirty steps. Worked out anew only where no figures were kept.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/book.h"
#include "resale/own_records.h"

namespace nonrunner::answers {

struct Tried {
  std::string tag;
  double expected = 0;      // cash profit, before buying, at the price paid
  double actual = 0;        // cash profit
  double loss_chance = 0;   // of the cash profit, at the price paid
  double chance_below = 0;  // what the appraisal gave to a cash profit as low as the actual one, or lower
};

struct AppraisalsTried {
  std::vector<Tried> cars;
  resale::MeanAndSpread off;  // actual - expected
  resale::Calibration losses;
};

// Cars whose life ended before that day and of which an appraisal was in force.
AppraisalsTried appraisals_tried(const book::Book&, Day before);

}  // namespace nonrunner::answers
