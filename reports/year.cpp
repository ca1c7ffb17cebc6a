#include "reports/year.h"

#include "reports/year/parts.h"

namespace nonrunner::reports {

void write_year(const YearFigures& figures, const std::filesystem::path& out) {
  using namespace year_sheets;
  Workbook book(out, figures.currency,
                {"The shop's year " + std::to_string(figures.year), "no tax advice", figures.made_on,
                 std::to_string(figures.year), "year", figures.book},
                figures.entries.size() > many_entries);
  must_add_up(figures);
  Parts parts(figures, book);
  parts.first = &book.sheet("Year");
  parts.account = &book.sheet("Account");
  parts.months = &book.sheet("Months");
  parts.vehicles = &book.sheet("Vehicles");
  parts.brought = &book.sheet("Brought");
  parts.pieces = &book.sheet("Pieces");
  parts.parts_sold = &book.sheet("PartsSold");
  parts.bought = &book.sheet("Bought");
  parts.helpers = &book.sheet("Helpers");
  parts.sales = &book.sheet("Sales");
  parts.limits = &book.sheet("SalesLimit");
  parts.capital = &book.sheet("Capital");
  parts.purses = &book.sheet("Purses");
  parts.shelf = &book.sheet("Shelf");
  parts.due = &book.sheet("Due");
  parts.owed = &book.sheet("Owed");
  parts.tools = &book.sheet("Tools");
  parts.tools_kept = &book.sheet("ToolsKept");
  parts.overhead = &book.sheet("Overhead");
  parts.without = &book.sheet("NoPaper");
  parts.trips = &book.sheet("Trips");
  parts.entries = &book.sheet("Entries");
  parts.trial = &book.sheet("Trial");
  write_months(parts);
  write_vehicles(parts);
  write_pieces(parts);
  write_bought(parts);
  write_helpers(parts);
  write_sales(parts);
  write_limits(parts);
  write_purses(parts);
  write_shelf(parts);
  write_lists(parts);
  write_trips(parts);
  write_entries(parts);
  write_trial(parts);
  write_capital(parts);
  write_first(parts);
  book.close();
}

}  // namespace nonrunner::reports
