// The shopping workbook: what to buy for which vehicle, by place, with a box to tick and room for the price
// paid.
//
// Sheets: Shopping (the first page: what it comes to), Yard, Counter, Ordered, and Not there for what was
// looked for in vain. Throws MachineFailure where the file cannot be written, std::logic_error where a
// vehicle's lines and what stands beside them do not add up to its cost to complete.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "exact/currency.h"
#include "exact/day.h"
#include "exact/money.h"
#include "exact/price.h"
#include "exact/thousandths.h"

namespace nonrunner::reports {

struct ShoppingLine {
  enum class Place { yard, counter, ordered } place = Place::counter;
  std::string vehicle, what;
  std::string from;  // which yard, shop or supplier, if known
  Quantity quantity = Quantity::of(1000);
  Price price;         // of one, as it is asked for there
  Price core;          // deposit on one, paid on top, which comes back
  Price expected;      // of one, with the chance that it is needed, and that a bad one is bought again
  std::string needed;  // when, where that is not certain
  std::string note;    // for which operation, what fits
};

// What a vehicle's cost to complete is made of: what its lines are expected to cost, and what nobody shops
// for.
struct ShoppingVehicle {
  std::string tag, cause;
  bool cause_is_noted = false;  // false: nobody noted one, and the lines are those of the likeliest
  Money beside;                 // fees, opening up
  Money to_complete;            // as the book says
};

struct LookedFor {
  Day day;
  std::string place, vehicle, what, note;
};

struct ShoppingFigures {
  Currency currency;
  Day made_on;
  std::vector<ShoppingLine> lines;
  std::vector<ShoppingVehicle> vehicles;
  std::vector<LookedFor> not_there;
};

void write_shopping(const ShoppingFigures&, const std::filesystem::path& out);

}  // namespace nonrunner::reports
