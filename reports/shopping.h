// The shopping workbook: what to buy for which vehicle, by place, with a box to tick and room for the price
// paid.
//
// Sheets: Shopping (the first page: what it comes to), Yard, Counter, Ordered, and Not there for what was
// looked for in vain. Throws MachineFailure where the file cannot be written.
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
  Price expected;    // of one
  std::string note;  // for which operation, what fits
};

struct LookedFor {
  Day day;
  std::string place, vehicle, what, note;
};

struct ShoppingFigures {
  Currency currency;
  Day made_on;
  std::vector<ShoppingLine> lines;
  std::vector<LookedFor> not_there;
};

void write_shopping(const ShoppingFigures&, const std::filesystem::path& out);

}  // namespace nonrunner::reports
