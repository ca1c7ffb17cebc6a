// The year on one page: what it brought and what of it is still there, in all and car by car. The same figures as those
// of the year workbook, added up.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "figures/year.h"

namespace nonrunner::answers {

struct YearCar {
  std::string tag, state;  // at the end of the year
  Money result;            // before own hours
  Hours own_hours;         // of the year
  Hours hours_before;      // of one that ended in the year, what was worked on it before
  std::optional<Money>
      per_own_hour;  // of one that ended in the year, all its hours counted; none without any
};

struct YearSums {
  int year = 0;
  std::vector<YearCar> cars;
  Money sales, cost_of_sales, selling_costs, other_income, late_cost, overhead, tools, looking;
  Money sales_returned;  // of sales that fell through in the year: off `sales` already
  Money result;          // before own hours
  Hours own_hours;
  std::optional<Money> per_own_hour;
  Money in_cars, on_the_shelf, in_tools, in_purses, due_back, owed;  // at the end; tools: kept as an asset
  Money owed_on_cards;  // what of `owed` stands in the purses as well, below zero
  std::size_t without_paper = 0;
};

YearSums sums_of(const figures::YearFigures&);

}  // namespace nonrunner::answers
