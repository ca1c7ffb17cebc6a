#include "reports/year.h"

#include "reports/year/parts.h"

namespace nonrunner::reports {

void write_year(const YearFigures& figures, const std::filesystem::path& out) {
  using namespace year_sheets;
  Workbook book(out, figures.currency,
                {"The shop's year " + std::to_string(figures.year), "no tax advice", figures.made_on});
  Parts parts(figures, book);
  parts.first = &book.sheet("Year");
  parts.vehicles = &book.sheet("Vehicles");
  parts.months = &book.sheet("Months");
  parts.purses = &book.sheet("Purses");
  parts.shelf = &book.sheet("Shelf");
  parts.trips = &book.sheet("Trips");
  parts.papers = &book.sheet("Papers");
  parts.sales = &book.sheet("Sales");
  parts.trial = &book.sheet("Trial");
  write_vehicles(parts);
  write_months(parts);
  write_purses(parts);
  write_shelf(parts);
  write_trips(parts);
  write_papers(parts);
  write_sales(parts);
  write_trial(parts);
  write_first(parts);
  book.close();
}

}  // namespace nonrunner::reports
