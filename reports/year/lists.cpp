// What is listed line by line: tools, overhead, what has no paper, what is due and owed, trips, sales and
// their count in moving twelve months, and every entry of the year.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "reports/table.h"
#include "reports/year/parts.h"
#include "reports/year_words.h"

namespace nonrunner::reports::year_sheets {

namespace {

// What a list says beside the day, the entry, what it was and the amount.
struct Beside {
  bool paper = false;
  const char* about = nullptr;  // the heading; none: there is nothing to say
};

// One list with its sum; the cell of the sum.
Cell write_lines(Sheet& sheet, const std::string& title, Beside beside, const std::vector<YearLine>& lines) {
  std::vector<Column> columns = {{"Day", 12, look::day}, {"Entry", 9, look::number}};
  if (beside.paper) columns.push_back({"Paper", 32, look::wrapped});
  columns.push_back({"What", 50, look::wrapped});
  if (beside.about) columns.push_back({beside.about, 24, look::wrapped});
  columns.push_back({"Amount", 16, look::money, summed});
  const auto amount = static_cast<std::uint16_t>(columns.size() - 1);
  sheet.landscape();
  Table table(sheet, 2, std::move(columns));
  sheet.text({0, 0}, title, look::title);
  for (const YearLine& line : lines) {
    table.row();
    table.day(0, line.day);
    if (line.entry != 0) table.number(1, static_cast<double>(line.entry));
    std::uint16_t next = 2;
    if (beside.paper) table.text(next++, line.paper);
    table.text(next++, line.entry == 0 ? "from the years before" : line.what);
    if (beside.about) table.text(next, line.about);
    table.money(amount, line.amount);
  }
  if (table.empty()) sheet.hide();
  return {table.close("in all", "none").row, amount};
}

constexpr std::uint32_t due_heading = 2;
enum : std::uint16_t { due_by, due_from, due_what, due_amount };

Cell write_due(Sheet& sheet, const std::string& title, const char* who, const std::vector<Due>& rows) {
  Table table(sheet, due_heading,
              {{"By", 14, look::day},
               {who, 34, look::wrapped},
               {"What", 50, look::wrapped},
               {"Amount", 18, look::money, summed}});
  sheet.text({0, 0}, title, look::title);
  for (const Due& due : rows) {
    table.row();
    if (due.by)
      table.day(due_by, *due.by);
    else
      table.text(due_by, "no last day");
    table.text(due_from, due.from);
    table.text(due_what, due.what);
    table.money(due_amount, due.amount);
  }
  if (table.empty()) sheet.hide();
  return {table.close("in all", "nothing").row, due_amount};
}

}  // namespace

void write_lists(Parts& parts) {
  const YearFigures& f = parts.figures;
  parts.tools_total = write_lines(*parts.tools, fmt::format("Tools, {}", f.year), {true}, f.tools);
  parts.tools_kept_total = write_lines(
      *parts.tools_kept, fmt::format("Tools kept as an asset, end of {}", f.year), {true}, f.tools_kept);
  parts.overhead_total =
      write_lines(*parts.overhead, fmt::format("Overhead, {}", f.year), {true}, f.overhead);
  parts.without_total = write_lines(*parts.without, fmt::format("Without a receipt, {}", f.year),
                                    {true, "For"}, f.without_paper);
  parts.parts_sold_total =
      write_lines(*parts.parts_sold, fmt::format("Parts and scrap sold off cars, gross, {}", f.year),
                  {false, "Off"}, f.parts_sold);
  parts.due_total = write_due(*parts.due, fmt::format("Due to the shop, end of {}", f.year), "From", f.due);
  std::vector<Due> owed;
  for (const YearOwed& each : f.owed) owed.push_back({in_words(each.kind), each.name, {}, each.amount});
  parts.owed_total = write_due(*parts.owed, fmt::format("Owed by the shop, end of {}", f.year), "To", owed);
  const auto of_owed = [&](std::uint16_t col) {
    return parts.owed->at({due_heading + 1, col}, {parts.owed_total.row - 1, col});
  };
  parts.owed_on_cards = "SUMIFS(" + of_owed(due_amount) + "," + of_owed(due_what) + ",\"" +
                        in_words(YearOwed::Kind::card) + "\")";
}

void write_trips(Parts& parts) {
  enum : std::uint16_t { day, vehicles, why, distance };
  Sheet& sheet = *parts.trips;
  const YearFigures& f = parts.figures;
  Table table(sheet, 3,
              {{"Day", 12, look::day},
               {"For", 34, look::wrapped},
               {"Why, and where", 54, look::wrapped},
               {"Distance, " + f.distance_unit, 16, look::decimal, summed}});
  sheet.text({0, 0}, fmt::format("Trips, {}", f.year), look::title);
  sheet.across({1, 0}, 4,
               "Distance, day, purpose and vehicle; no money in the book. What counts for tax is for local "
               "law to say.",
               look::note);
  for (const Trip& trip : f.trips) {
    table.row();
    table.day(day, trip.day);
    table.text(vehicles, trip.vehicles);
    table.text(why, (trip.taken_back ? "taken back: " : "") + trip.why +
                        (trip.where.empty() ? "" : ": " + trip.where));
    table.count(distance, trip.distance);
  }
  if (table.empty()) sheet.hide();
  parts.trip_total = {table.close("in all", "no trips").row, distance};
}

std::int64_t sold_in_twelve_months(const std::vector<Sale>& sales, Day end) {
  return std::count_if(sales.begin(), sales.end(),
                       [&](const Sale& sale) { return sale.day <= end && sale.day > end.a_year_earlier(); });
}

std::int64_t most_in_twelve_months(const std::vector<Sale>& sales, int year) {
  // From one day to the next the count only grows by a sale: the most is reached on a day of one, or was
  // brought along into the year.
  std::int64_t most = sold_in_twelve_months(sales, Day(year, 1, 1));
  for (const Sale& sale : sales)
    if (sale.day.year() == year) most = std::max(most, sold_in_twelve_months(sales, sale.day));
  return most;
}

void write_sales(Parts& parts) {
  enum : std::uint16_t { day, tag, description, vin, odometer, buyer, price };
  Sheet& sheet = *parts.sales;
  const YearFigures& f = parts.figures;
  sheet.landscape();
  Table table(sheet, 3,
              {{"Day", 12, look::day},
               {"Vehicle", 14, look::wrapped},
               {"Description", 42, look::wrapped},
               {"VIN", 20, look::text},
               {"Odometer", 12, look::text},
               {"Buyer", 28, look::wrapped},
               {"Price", 16, look::money, summed}});
  sheet.text({0, 0}, fmt::format("Sales, {}", f.year), look::title);
  sheet.across({1, 0}, 7, "What the papers of a sale name, as far as it was noted.", look::note);
  for (const Sale& sale : f.sales) {
    if (sale.day.year() != f.year) continue;
    table.row();
    table.day(day, sale.day);
    table.text(tag, sale.tag);
    table.text(description, sale.description);
    table.text(vin, sale.vin);
    table.text(odometer, sale.odometer);
    table.text(buyer, sale.buyer);
    table.money(price, sale.price);
  }
  if (table.empty()) sheet.hide();
  table.close("in all", "no sales");
}

namespace {

// The limit that was set, or a cell to type one in.
void write_limit(Parts& parts) {
  Sheet& sheet = *parts.limits;
  parts.limit = {2, 2};
  const bool set = parts.figures.sales_limit.has_value();
  sheet.text({2, 0}, "Limit set");
  if (set)
    sheet.whole(parts.limit, *parts.figures.sales_limit, look::whole_input);
  else
    sheet.blank(parts.limit, look::whole_input);
  sheet.formula_text({2, 3}, "IF(ISNUMBER(" + fixed(parts.limit) + "),\"\",\"none set: may be typed in\")",
                     set ? "" : "none set: may be typed in", look::note_apart);
}

}  // namespace

void write_limits(Parts& parts) {
  enum : std::uint16_t { day, tag, price, count, against };
  Sheet& sheet = *parts.limits;
  const YearFigures& f = parts.figures;
  const bool set = f.sales_limit.has_value();
  Table table(sheet, 4,
              {{"Day", 14, look::day},
               {"Vehicle", 24, look::text},
               {"Price", 18, look::money},
               {"Sales in the twelve months to it", 26, look::whole},
               {"Against the limit", 24, look::text_apart}});
  sheet.text({0, 0}, "Sales in moving twelve months", look::title);
  sheet.across(
      {1, 0}, 5,
      "From how many sales a person needs a dealer's licence, and who counts, is for local law to say; the "
      "limit is the number that was set.",
      look::note);
  write_limit(parts);
  const std::string limit = fixed({2, 2});
  const std::uint32_t first = 5,
                      last = first + static_cast<std::uint32_t>(std::max<std::size_t>(f.sales.size(), 1)) - 1;
  const std::string days = fixed({first, day}) + ":" + fixed({last, day});
  // Beside a day and what it is.
  const auto counted_to = [&](Day end) {
    const std::int64_t sold = sold_in_twelve_months(f.sales, end);
    table.day(day, end);
    table.number(count,
                 "COUNTIFS(" + days + ",\"<=\"&" + table.in(day) + "," + days + ",\">\"&EDATE(" +
                     table.in(day) + ",-12))",
                 static_cast<double>(sold));
    table.words(against,
                "IF(ISNUMBER(" + limit + "),IF(" + table.in(count) + ">" + limit + ",\"over it\",IF(" +
                    table.in(count) + "=" + limit + ",\"reaches it\",\"below it\")),\"\")",
                !set                     ? ""
                : sold > *f.sales_limit  ? "over it"
                : sold == *f.sales_limit ? "reaches it"
                                         : "below it");
  };
  for (const Sale& sale : f.sales) {
    table.row();
    table.text(tag, sale.tag);
    table.money(price, sale.price);
    counted_to(sale.day);
  }
  table.close("no sales");
  table.row();
  table.text(tag, "first day of the year");
  counted_to(Day(f.year, 1, 1));
  const std::uint32_t at = table.at() + 1, counted = f.sales.empty() ? first + 1 : first;
  sheet.text({at, 0}, fmt::format("most in {}", f.year), look::total);
  parts.most_in_twelve = most_in_twelve_months(f.sales, f.year);
  parts.most_sales = {at, count};
  sheet.formula(parts.most_sales,
                fmt::format("SUMPRODUCT(MAX((YEAR({})={})*{}))", here({counted, day}, {at - 1, day}), f.year,
                            here({counted, count}, {at - 1, count})),
                static_cast<double>(parts.most_in_twelve), {Form::whole, Role::total});
}

void write_helpers(Parts& parts) {
  Sheet& sheet = *parts.helpers;
  Table table(
      sheet, 3,
      {{"Who", 50, look::wrapped}, {"Entries", 12, look::whole, summed}, {"Paid", 18, look::money, summed}});
  sheet.text({0, 0}, fmt::format("Paid for hours, {}", parts.figures.year), look::title);
  sheet.across({1, 0}, 3, "What a helper's pay has to be told to whom, local law says.", look::note);
  for (const YearHelper& each : parts.figures.helpers) {
    table.row();
    table.text(0, each.name.empty() ? "no name was said" : each.name);
    table.number(1, static_cast<double>(each.entries));
    table.money(2, each.amount);
  }
  if (table.empty()) sheet.hide();
  table.close("in all", "nobody");
}

// The journal: every figure of the year can be traced to a line of it.
void write_entries(Parts& parts) {
  enum : std::uint16_t { entry, day, kind, what, amount, mark };
  Sheet& sheet = *parts.entries;
  sheet.landscape();
  Table table(sheet, 3,
              {{"Entry", 9, look::number},
               {"Day", 12, look::day},
               {"Kind", 18, look::text},
               {"What", 66, look::wrapped},
               {"Amount", 16, look::money},
               {"", 28, look::text_apart}});
  sheet.text({0, 0}, fmt::format("Every entry of {}", parts.figures.year), look::title);
  sheet.across(
      {1, 0}, 6,
      "In the order of the days. Amount: the price of a sale, else what went through the purses. What was "
      "voided stands here with the entry that took it back.",
      look::note);
  for (const YearEntry& each : parts.figures.entries) {
    table.row();
    table.number(entry, static_cast<double>(each.entry));
    table.day(day, each.day);
    table.text(kind, each.kind);
    table.text(what, each.what);
    table.money(amount, each.amount);
    if (each.voided_by != 0) table.text(mark, fmt::format("voided by entry {}", each.voided_by));
    if (each.voids != 0) table.text(mark, fmt::format("takes back entry {}", each.voids));
    if (parts.figures.entries.size() > many_entries) sheet.rows_done(table.at());
  }
  if (table.empty()) sheet.hide();
  table.close("no entries");
}

}  // namespace nonrunner::reports::year_sheets
