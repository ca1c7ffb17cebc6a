// Trips, tools, overhead, what is due and owed, what has no paper, and the sales in moving twelve months.
#include <fmt/format.h>

#include <algorithm>

#include "reports/year/parts.h"

namespace nonrunner::reports::year_sheets {

namespace {

// One list with its sum; the cell of the sum.
Cell write_lines(Sheet& sheet, std::uint32_t& at, const char* title, const char* about,
                 const std::vector<YearLine>& lines, int digits) {
  sheet.text({at, 0}, title, look::section);
  sheet.headings({++at, 0}, {"Day", "Entry", "Paper", "What", about, "Amount"}, 5);
  const std::uint32_t first = ++at;
  Money sum;
  for (const YearLine& line : lines) {
    sheet.day({at, 0}, line.day);
    if (line.entry != 0) sheet.whole({at, 1}, line.entry, look::number);
    sheet.text({at, 2}, line.paper);
    sheet.text({at, 3}, line.what);
    sheet.text({at, 4}, line.about);
    sheet.money({at, 5}, line.amount);
    sum += line.amount;
    ++at;
  }
  if (lines.empty()) sheet.text({at, 0}, "none"), ++at;
  const Cell total{at, 5};
  sheet.text({at, 0}, "in all", look::total);
  sheet.formula(total, "ROUND(SUM(" + here({first, 5}, {at - 1, 5}) + ")," + std::to_string(digits) + ")",
                sum, look::money_total);
  at += 3;
  return total;
}

Cell write_due(Sheet& sheet, std::uint32_t& at, const char* title, const char* who,
               const std::vector<YearDue>& rows, int digits) {
  sheet.text({at, 0}, title, look::section);
  sheet.headings({++at, 0}, {"By", "", who, "What", "", "Amount"}, 5);
  const std::uint32_t first = ++at;
  Money sum;
  for (const YearDue& due : rows) {
    if (due.by)
      sheet.day({at, 0}, *due.by);
    else
      sheet.text({at, 0}, "no last day");
    sheet.text({at, 2}, due.who);
    sheet.text({at, 3}, due.what);
    sheet.money({at, 5}, due.amount);
    sum += due.amount;
    ++at;
  }
  if (rows.empty()) sheet.text({at, 0}, "nothing"), ++at;
  const Cell total{at, 5};
  sheet.text({at, 0}, "in all", look::total);
  sheet.formula(total, "ROUND(SUM(" + here({first, 5}, {at - 1, 5}) + ")," + std::to_string(digits) + ")",
                sum, look::money_total);
  at += 3;
  return total;
}

}  // namespace

void write_trips(Parts& parts) {
  Sheet& sheet = *parts.trips;
  const YearFigures& f = parts.figures;
  sheet.widths({12, 30, 44, 16});
  sheet.text({0, 0}, fmt::format("Trips, {}", f.year), look::title);
  sheet.text({1, 0},
             "Distance, day, purpose and vehicle; no money in the book. What counts for tax is for local law "
             "to say.",
             look::note);
  sheet.headings({3, 0}, {"Day", "For", "Why", "Distance, " + f.distance_unit}, 3);
  sheet.frozen(4, 0, 3);
  std::uint32_t at = 4;
  Distance sum;
  for (const YearTrip& trip : f.trips) {
    sheet.day({at, 0}, trip.day);
    sheet.text({at, 1}, trip.vehicles);
    sheet.text({at, 2}, trip.why);
    sheet.decimal({at, 3}, trip.distance);
    sum += trip.distance;
    ++at;
  }
  if (f.trips.empty()) sheet.text({at, 0}, "no trips"), ++at;
  sheet.text({at, 0}, "in all", look::total);
  parts.trip_total = {at, 3};
  sheet.formula(parts.trip_total, "ROUND(SUM(" + here({4, 3}, {at - 1, 3}) + "),3)", sum.approximately(),
                look::decimal_total);
}

void write_papers(Parts& parts) {
  Sheet& sheet = *parts.papers;
  const YearFigures& f = parts.figures;
  const int digits = f.currency.digits;
  sheet.landscape();
  sheet.widths({12, 8, 30, 46, 24, 16});
  sheet.text({0, 0}, fmt::format("Tools, overhead, due and owed, {}", f.year), look::title);
  std::uint32_t at = 2;
  parts.tools_total = write_lines(sheet, at, "Tools", "For", f.tools, digits);
  if (!f.tools_kept.empty())
    parts.tools_kept_total = write_lines(sheet, at, "Tools kept as an asset", "For", f.tools_kept, digits);
  parts.overhead_total = write_lines(sheet, at, "Overhead", "Account", f.overhead, digits);
  parts.without_total = write_lines(sheet, at, "Without a receipt", "For", f.without_paper, digits);
  parts.due_total = write_due(sheet, at, "Due to the shop at the end", "From", f.due, digits);
  parts.owed_total = write_due(sheet, at, "Owed by the shop at the end", "To", f.owed, digits);
}

std::int64_t sold_in_twelve_months(const std::vector<YearSale>& sales, Day end) {
  return std::count_if(sales.begin(), sales.end(), [&](const YearSale& sale) {
    return sale.day <= end && sale.day > end.a_year_earlier();
  });
}

std::int64_t most_in_twelve_months(const std::vector<YearSale>& sales, int year) {
  // From one day to the next the count only grows by a sale: the most is reached on a day of one, or was
  // brought along into the year.
  std::int64_t most = sold_in_twelve_months(sales, Day(year, 1, 1));
  for (const YearSale& sale : sales)
    if (sale.day.year() == year) most = std::max(most, sold_in_twelve_months(sales, sale.day));
  return most;
}

void write_sales(Parts& parts) {
  Sheet& sheet = *parts.sales;
  const YearFigures& f = parts.figures;
  sheet.widths({14, 22, 18, 26, 20});
  sheet.text({0, 0}, "Sales in moving twelve months", look::title);
  sheet.text({1, 0},
             "From how many sales a person needs a dealer's licence, and who counts, is for local law to "
             "say; the limit is the number that was set.",
             look::note);
  sheet.text({2, 0}, "Limit set");
  if (f.sales_limit)
    sheet.whole({2, 2}, *f.sales_limit, look::whole_input);
  else
    sheet.blank({2, 2}, look::whole_input);
  sheet.formula_text({2, 3}, "IF(ISNUMBER(" + fixed({2, 2}) + "),\"\",\"none set: may be typed in\")",
                     f.sales_limit ? "" : "none set: may be typed in", look::note_apart);
  parts.limit = {2, 2};
  const std::string limit = fixed({2, 2});
  sheet.headings({4, 0}, {"Day", "Vehicle", "Price", "Sales in the twelve months to it", "Against the limit"},
                 2, 4);
  constexpr std::uint32_t first = 5;
  const std::uint32_t last = first + static_cast<std::uint32_t>(std::max<std::size_t>(f.sales.size(), 1)) - 1;
  const std::string days = fixed({first, 0}) + ":" + fixed({last, 0});
  std::uint32_t at = first;
  // Beside a day and what it is.
  const auto count = [&](Day end) {
    const std::int64_t sold = sold_in_twelve_months(f.sales, end);
    const std::string day = here(Cell{at, 0});
    sheet.formula({at, 3},
                  "COUNTIFS(" + days + ",\"<=\"&" + day + "," + days + ",\">\"&EDATE(" + day + ",-12))",
                  static_cast<double>(sold), look::whole);
    const std::string here_sold = here(Cell{at, 3});
    sheet.formula_text({at, 4},
                       "IF(ISNUMBER(" + limit + "),IF(" + here_sold + ">" + limit + ",\"over it\",IF(" +
                           here_sold + "=" + limit + ",\"reaches it\",\"below it\")),\"\")",
                       !f.sales_limit           ? ""
                       : sold > *f.sales_limit  ? "over it"
                       : sold == *f.sales_limit ? "reaches it"
                                                : "below it",
                       look::text_apart);
    ++at;
  };
  for (const YearSale& sale : f.sales) {
    sheet.day({at, 0}, sale.day);
    sheet.text({at, 1}, sale.tag);
    sheet.money({at, 2}, sale.price);
    count(sale.day);
  }
  if (f.sales.empty()) sheet.text({at, 0}, "no sales"), ++at;
  const Day first_day(f.year, 1, 1);
  sheet.day({at, 0}, first_day);
  sheet.text({at, 1}, "first day of the year");
  count(first_day);
  const std::uint32_t counted = f.sales.empty() ? first + 1 : first;
  sheet.text({at, 0}, fmt::format("most in {}", f.year), look::total);
  parts.most_in_twelve = most_in_twelve_months(f.sales, f.year);
  parts.most_sales = {at, 3};
  sheet.formula(parts.most_sales,
                fmt::format("SUMPRODUCT(MAX((YEAR({})={})*{}))", here({counted, 0}, {at - 1, 0}), f.year,
                            here({counted, 3}, {at - 1, 3})),
                static_cast<double>(parts.most_in_twelve), {Form::whole, Role::total});
}

}  // namespace nonrunner::reports::year_sheets
