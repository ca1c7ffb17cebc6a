// What the shopping workbook is made of (reports/shopping.h says what it shows).
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "exact/currency.h"
#include "exact/day.h"
#include "exact/money.h"
#include "exact/price.h"
#include "exact/thousandths.h"
#include "figures/book_state.h"

namespace nonrunner::figures {

struct ShoppingLine {
  enum class Place { yard, counter, ordered } place = Place::counter;
  std::string vehicle, what, source;  // new, salvage, reman, repair or empty
  Quantity quantity = Quantity::of(1000);
  Price price;     // of one, as it is asked for there
  Price core;      // deposit on one, paid on top, which comes back
  Price expected;  // of one, with the chance that it is needed, and that a bad one is bought again
  // When it is needed, where that is not certain: after a correction that may not cure; because a bad one is bought
  // again; because it is another cause.
  std::string after;
  double reached = 1;
  double bad = 0;
  bool again_is_new = false;
  Money again;                             // what a bad one costs again
  std::optional<double> other_cause = {};  // its chance
  std::string note;                        // for which operation, what fits
  std::optional<Price> most = {};          // of one: above this another source is the better buy
  bool certain = true;                     // false: it may turn out not to be needed
};

// What a vehicle's cost to complete is made of: what its lines are expected to cost, and what nobody shops
// for.
struct ShoppingVehicle {
  std::string tag, cause;
  bool cause_is_noted = false;  // false: nobody noted one, and the lines are those of the likeliest
  Money beside;                 // fees, opening up
  Money to_complete;            // as the book says
};

// A receipt not itemised yet, which may be one of the lines.
struct WaitingReceipt {
  std::string vehicle;
  std::int64_t entry = 0;
  Money total;
  std::string what;
};

struct LookedFor {
  Day day;
  std::string place, vehicle, what;
};

struct ShoppingFigures {
  Currency currency;
  Day made_on;
  BookState book;
  std::vector<ShoppingLine> lines;
  std::vector<ShoppingVehicle> vehicles;
  std::vector<LookedFor> not_there;
  std::vector<WaitingReceipt> waiting;
};

}  // namespace nonrunner::figures
