// The year on one page as JSON text; keys as in words/book_json.h.
#pragma once
#include <string>
#include <vector>

#include "answers/year_sums.h"

namespace nonrunner::words {

// A figure of the year's first page with its name and a remark; what is nothing is left out.
struct YearRow {
  std::string what;
  Money amount;
  std::string remark;
};
std::vector<YearRow> how_it_comes_about(const answers::YearSums&);  // they add up to the result
std::vector<YearRow> there_at_the_end(const answers::YearSums&, const Currency&);
// When that is: "at the end of the year", or "as it stands today" of one that has not ended.
std::string end_of(const answers::YearSums&, Day today);
// Where an hour of a car is not that of the year's own hours; empty where it is.
std::string hours_before(const answers::YearSums&);
std::string to_json(const answers::YearSums&, const Currency&);

}  // namespace nonrunner::words
