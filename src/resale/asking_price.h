// What to advertise a car at, and when to drop the price.
//
// The model, on purpose a simple one (common practice, no source):
// - The car would fetch S, the same the whole time but not known: only its distribution is.
// - Advertised at A, a buyer who comes haggles it down to A x realised. Where S is at least that, it sells,
//   on the day after the price was set that `sold_on_day` says. Where S is less, nobody buys at this price,
//   however long it stands.
// - Up to three prices, each lower than the one before, each held for whole weeks. Who still has the car
//   after the last takes the best offer: S, haggled down by the usual share once more, after the mean number
//   of days. That offer finds S whatever it is, which no price does: where S may be very different things the
//   plan with the most money can be one at whose price nobody buys, for a week, and then the best offer. It
//   means: ask for offers (`for_offers`). What is asked then is a price at which people come: of those that at
//   least one in four of the values of S pays, held until one in four of these has come, the one with the most
//   money.
// - Each day costs `per_day`; a commission goes off what is got. What was spent before counts for nothing
//   here.
//
// Else the plan is the one of all such with the most expected money; prices are round figures. Held too long, a
// price that is too high costs days; a price that is too low gives away the difference: the plan weighs the
// two.
//
// From each day on which the car is still there the plan says what it is still worth: by then it is likelier
// that S is low. An offer that leaves at least that is to be taken; when parting out leaves more than that,
// its day has come.
//
// Doubles in the currency's units: opinions, not ledger figures. Known to be right by playing each car day
// by day (tests/resale/asking_price.cpp).
#pragma once
#include <optional>
#include <vector>

namespace nonrunner::resale {

struct Market {
  std::vector<double> fetches;      // S: equally likely values, above zero, in any order
  std::vector<double> sold_on_day;  // chance of the 1st, 2nd, ... day at a price that is right; adds up to 1
  double realised = 1;              // got / advertised, in (0, 1]
  double per_day = 0;               // holding, not negative
  double rate = 0;                  // commission, in [0, 1)
};

struct PriceStage {
  double ask = 0;
  int from_day = 0;      // days since the first price was set
  int until_day = 0;     // the next price from here on, or the best offer
  double chance = 0;     // of selling at this price, seen from the start
  double got = 0;        // ask x realised
  double take_from = 0;  // on its first day: an offer of at least so much is better than going on
};

struct AskingPlan {
  std::vector<PriceStage> stages;  // one to three
  double best_offer_chance = 0;    // of having to take the best offer in the end
  bool for_offers =
      false;  // likelier to end with the best offer than at its one price, which is there to draw offers
  double expected_got = 0;  // price, before commission and days
  double expected_days = 0;
  double expected_net = 0;  // after commission and days
  std::vector<double>
      worth;  // expected net from day 0, 1, ... on, if it is still there; to the last day of the plan
};

// A price at which the car stood so many days, unsold.
struct Stood {
  double price = 0;
  int days = 0;
};
// The market as it looks after that: values of S that would have sold by then are less likely. As many values
// as before, equally likely again: each is the value at its even place among the reweighted ones.
Market after_standing(const Market&, const std::vector<Stood>&);

// The prices tried: round steps between the 2 % and the 98 % point of S / realised.
AskingPlan asking_plan(const Market&);

// The given prices and weeks, as they would go: `prices` falling, one number of weeks above zero for each.
AskingPlan played(const Market&, const std::vector<double>& prices, const std::vector<int>& weeks);

// The first day on which an unsold car would bring more in pieces, or nothing where it never would while the
// plan runs. `part_out`: what is left of the pieces after their costs and own hours.
std::optional<int> part_out_day(const AskingPlan&, double part_out);

}  // namespace nonrunner::resale
