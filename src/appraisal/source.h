// Where a part comes from, and what it costs to expect.
//
// One line costs qty x the price of its source. A salvage one also takes `pull_hours` own hours, once for the
// line, and with the chance `bad` the price of the new ones (of salvage ones again where no new price is
// given). Without `use` the source with the least expected cost is taken: money, own hours at the shop's hour
// and what the days of pulling cost; new before salvage before reman where they cost the same.
//
// Of a correction that the seller bears in part only the buyer's share of money and hours counts in that
// choice; its days pass all the same.
#pragma once
#include "appraisal/job.h"

namespace nonrunner::appraisal {

struct SourceChoice {
  Source source = Source::fresh;
  double cash = 0;   // expected, bad ones counted
  double hours = 0;  // own, by the estimate
  double cores = 0;  // deposits that are paid and come back: in the cash needed, not in the cost
};

// What a day costs: holding, the place, and `interest` on what was paid for the car.
double day_cost(const Shop&, double interest = 0);
// What an hour of own work by the estimate costs in days passing.
double days_of_an_hour(const Shop&);

SourceChoice choose_source(const Part&, const Shop&, double cover = 0, double interest = 0);

// The price that is paid once more where a salvage one is bad.
const Amount& price_again(const Part&);

}  // namespace nonrunner::appraisal
