// A car's money on a day: the one place where it is told what of a car's cost is inventory, cost of sale,
// late cost or looking. `show`, the board, the year and every workbook read it from here.
//
// An entry counts from its day until the day on which it was taken back; a cost or a recovery with a day up
// to that of the sale or write-off that stands, that day included, is before it, whenever it was typed. What
// was recovered up to then reduces what was put in, sums against each other and down to nothing; what is
// beyond is income. A car passed and not bought carries nothing: all it cost is looking. Exact.
//
//   cost - (recovered_before - beyond_cost) = carried + cost_of_sale + looking       on every day
#pragma once
#include <map>
#include <optional>
#include <string>

#include "book/ledger/names.h"

namespace nonrunner::book {

struct Position {
  Life life;
  Money cost;       // all that was put in up to the end (so far, of a car that has none)
  Money late_cost;  // put in after it
  Money recovered_before, recovered_after;
  Money beyond_cost;  // what of recovered_before is beyond the cost: income
  Money carried;      // in the inventory
  Money cost_of_sale;
  Money looking;
  Money sales, selling_costs, deposit_kept, deposit_held;

  // What came in for the car less what it cost, whatever happened when.
  Money cash_profit() const {
    return sales - cost - late_cost - selling_costs + recovered_before + recovered_after + deposit_kept;
  }
  Money put_in() const { return cost + late_cost; }
  Money income() const { return beyond_cost + recovered_after; }  // from recoveries
};

// At the end of the day `on`; without a day, now.
Position position_of(const Book&, const std::string& tag, std::optional<Day> on = {});
// Of every car that money or a turn of its life is known of.
std::map<std::string, Position> all_positions(const Book&, std::optional<Day> on = {});

}  // namespace nonrunner::book
