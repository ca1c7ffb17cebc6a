#include "reports/shopping.h"

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>

#include "reports/cautions.h"
#include "reports/sheet.h"

namespace nonrunner::reports {

namespace {

using Place = ShoppingLine::Place;

struct PlaceWords {
  Place place;
  const char *sheet, *title, *from;
};
constexpr std::array places = {PlaceWords{Place::yard, "Yard", "At the yard", "Yard"},
                               PlaceWords{Place::counter, "Counter", "Over the counter", "Shop"},
                               PlaceWords{Place::ordered, "Ordered", "To be ordered", "Supplier"}};

struct Listed {
  Sheet* sheet = nullptr;
  Cell expected, open, paid;  // totals
  Cell first, last;           // rows of the list
  Money sum;
  std::size_t count = 0;
};

constexpr std::uint16_t tick = 0, vehicle = 1, what = 2, quantity = 3, price = 4, core = 5, each = 6,
                        expected = 7, paid = 8, over = 9, from = 10, needed = 11, note = 12;

std::string rounded(const std::string& formula, const Currency& currency) {
  return "ROUND(" + formula + "," + std::to_string(currency.digits) + ")";
}

// For whom the list rests on no more than the likeliest cause.
std::string likeliest_in_words(const ShoppingFigures& f, const std::vector<const ShoppingLine*>& lines) {
  std::string text;
  for (const ShoppingVehicle& each_one : f.vehicles) {
    const bool listed = std::any_of(lines.begin(), lines.end(),
                                    [&](const auto* line) { return line->vehicle == each_one.tag; });
    if (listed && !each_one.cause_is_noted)
      text += (text.empty() ? "" : " ") + std::string("No cause is noted for ") + each_one.tag +
              ": its lines are those of the likeliest, \"" + each_one.cause + "\".";
  }
  return text;
}

void write_list(const ShoppingFigures& f, const PlaceWords& words, Listed& listed) {
  Sheet& sheet = *listed.sheet;
  sheet.landscape();
  sheet.widths({6, 12, 36, 10, 12, 12, 12, 12, 13, 12, 20, 38, 26});
  sheet.frozen(4, 0, 3);
  sheet.text({0, 0}, words.title, look::title);
  sheet.text(
      {1, 0},
      "Tick what is got and write what was paid; what it differs by and what is still to be bought follow.",
      look::note);
  std::vector<const ShoppingLine*> lines;
  for (const ShoppingLine& line : f.lines)
    if (line.place == words.place) lines.push_back(&line);
  sheet.text({2, 0}, likeliest_in_words(f, lines), look::note);
  sheet.headings({3, 0},
                 {"Got", "Vehicle", "What", "Quantity", "Price of one", "Core deposit on one",
                  "Each, expected", "Expected", "Paid", "Over the price", words.from, "Needed", "Note"},
                 quantity, from);
  std::stable_sort(lines.begin(), lines.end(),
                   [](const ShoppingLine* a, const ShoppingLine* b) { return a->vehicle < b->vehicle; });
  std::uint32_t at = 4;
  listed.first = {at, 0};
  for (const ShoppingLine* line : lines) {
    const auto cell = [&](std::uint16_t col) { return here(Cell{at, col}); };
    const Money amount = line->expected.times(line->quantity);
    const bool has_core = line->core.fine() != 0;
    sheet.height(at, 20);
    sheet.blank({at, tick}, look::box);
    sheet.text({at, vehicle}, line->vehicle, look::text_apart);
    sheet.text({at, what}, line->what);
    sheet.decimal({at, quantity}, line->quantity, look::decimal_input);
    sheet.price({at, price}, line->price, look::price_input);
    if (has_core) sheet.price({at, core}, line->core);
    sheet.text({at, needed}, line->needed, look::note_apart);
    sheet.price({at, each}, line->expected, look::price_input);
    sheet.formula({at, expected}, rounded(cell(quantity) + "*" + cell(each), f.currency), amount);
    sheet.blank({at, paid}, look::money_box);
    sheet.formula_text({at, over},
                       "IF(ISNUMBER(" + cell(paid) + ")," +
                           rounded(cell(paid) + "-" + cell(quantity) + "*" + cell(price), f.currency) +
                           ",\"\")",
                       "", look::money);
    sheet.text({at, from}, line->from, look::text_apart);
    sheet.text({at, note}, line->note, look::note_apart);
    listed.sum += amount;
    ++at;
  }
  listed.count = lines.size();
  if (lines.empty()) sheet.text({at, what}, "nothing"), ++at;
  listed.last = {at - 1, 0};
  const auto range = [&](std::uint16_t col) { return here({4, col}, {at - 1, col}); };
  listed.expected = {at, expected};
  listed.paid = {at, paid};
  listed.open = {at + 1, expected};
  sheet.text({at, what}, "in all", look::total);
  sheet.formula(listed.expected, rounded("SUM(" + range(expected) + ")", f.currency), listed.sum,
                look::money_total);
  sheet.formula(listed.paid, rounded("SUM(" + range(paid) + ")", f.currency), Money(), look::money_total);
  sheet.text({at + 1, what}, "of this still to be bought");
  sheet.formula(listed.open, rounded("SUMIFS(" + range(expected) + "," + range(paid) + ",\"\")", f.currency),
                listed.sum);
}

void write_not_there(const ShoppingFigures& f, Sheet& sheet) {
  sheet.widths({12, 22, 14, 40, 40});
  sheet.frozen(4, 0, 3);
  sheet.text({0, 0}, "Looked for, and not there", look::title);
  sheet.text(
      {1, 0},
      "So that nobody drives for it twice. Each is a note that begins so: nonrunner note TAG \"not there: "
      "radiator, at Cleave Yard\".",
      look::note);
  sheet.headings({3, 0}, {"Day", "Place", "Vehicle", "What", "Note"}, 9);
  std::uint32_t at = 4;
  for (const LookedFor& each_one : f.not_there) {
    sheet.day({at, 0}, each_one.day);
    sheet.text({at, 1}, each_one.place);
    sheet.text({at, 2}, each_one.vehicle);
    sheet.text({at, 3}, each_one.what);
    sheet.text({at, 4}, each_one.note, look::note);
    ++at;
  }
  if (f.not_there.empty()) sheet.text({at, 0}, "nothing");
}

using ByVehicle = std::map<std::string, std::array<Money, 3>>;

// The lists beside the cost to complete that `show` and the job workbook give. `at`: the last row written;
// `first_row`: of the table by vehicle, in the order of the map.
void write_what_is_to_complete(const ShoppingFigures& f, Sheet& sheet, std::uint32_t& at,
                               std::uint32_t first_row, const ByVehicle& by_vehicle) {
  if (f.vehicles.empty()) return;
  at += 2;
  sheet.headings(
      {at, 0},
      {"Cost to complete, expected", "On the lists", "Fees, opening up", "In all", "Lines for the cause"}, 1,
      4);
  for (const ShoppingVehicle& each_one : f.vehicles) {
    ++at;
    Money on_lists;
    sheet.text({at, 0}, each_one.tag);
    const auto listed = by_vehicle.find(each_one.tag);
    if (listed == by_vehicle.end()) {
      sheet.money({at, 1}, Money());
    } else {
      for (const Money amount : listed->second) on_lists += amount;
      const auto place = static_cast<std::uint32_t>(std::distance(by_vehicle.begin(), listed));
      sheet.formula({at, 1}, here(Cell{first_row + place, 4}), on_lists);
    }
    if (on_lists + each_one.beside != each_one.to_complete)
      throw std::logic_error("shopping workbook: the lines of " + each_one.tag + " come to " +
                             (on_lists + each_one.beside).plain(f.currency) + ", its cost to complete is " +
                             each_one.to_complete.plain(f.currency));
    sheet.money({at, 2}, each_one.beside);
    sheet.formula({at, 3}, rounded(here(Cell{at, 1}) + "+" + here(Cell{at, 2}), f.currency),
                  each_one.to_complete, look::money_total);
    sheet.text({at, 4},
               each_one.cause_is_noted ? each_one.cause : "the likeliest, none noted: " + each_one.cause,
               look::note_apart);
  }
}

void write_first(const ShoppingFigures& f, Workbook& book, Sheet& sheet, const std::array<Listed, 3>& lists) {
  sheet.widths({40, 16, 16, 16, 36});
  sheet.text({0, 0}, "Shopping", look::title);
  sheet.text(
      {1, 0},
      "All amounts in " + f.currency.code + ", made " + f.made_on.iso() +
          ". What is written on the lists is counted here. Expected: what may not be needed counts with its "
          "chance.",
      look::note);
  constexpr std::uint32_t answer = 3, picture = 8, picture_rows = 16, table = 26;
  Money sum;
  ByVehicle by_vehicle;
  for (std::size_t p = 0; p < 3; ++p) sum += lists[p].sum;
  for (const ShoppingLine& line : f.lines)
    by_vehicle[line.vehicle][static_cast<std::size_t>(line.place)] += line.expected.times(line.quantity);

  sheet.headings({table, 0}, {"By place", "Expected", "Still to be bought", "Paid so far", ""}, 1);
  for (std::uint32_t p = 0; p < 3; ++p) {
    const Listed& list = lists[p];
    const std::uint32_t at = table + 1 + p;
    sheet.text({at, 0}, places[p].title);
    sheet.formula({at, 1}, list.sheet->at(list.expected), list.sum);
    sheet.formula({at, 2}, list.sheet->at(list.open), list.sum);
    sheet.formula({at, 3}, list.sheet->at(list.paid), Money());
    sheet.text({at, 4}, std::to_string(list.count) + (list.count == 1 ? " line" : " lines"),
               look::note_apart);
  }
  const std::uint32_t total = table + 4;
  sheet.text({total, 0}, "in all", look::total);
  for (const auto& [col, amount] : {std::pair<std::uint16_t, Money>(1, sum), {2, sum}, {3, Money()}})
    sheet.formula({total, col}, rounded("SUM(" + here({table + 1, col}, {table + 3, col}) + ")", f.currency),
                  amount, look::money_total);

  std::uint32_t at = total + 2;
  sheet.headings({at, 0},
                 {"By vehicle, expected", places[0].title, places[1].title, places[2].title, "In all"}, 1);
  for (const auto& [tag, amounts] : by_vehicle) {
    ++at;
    sheet.text({at, 0}, tag);
    Money of_vehicle;
    for (std::uint16_t p = 0; p < 3; ++p) {
      const Listed& list = lists[p];
      // Tags are letters, digits and hyphens; compared as a whole, so that no tag is taken for a pattern.
      const std::string tags = list.sheet->at({list.first.row, vehicle}, {list.last.row, vehicle}),
                        amounts_there = list.sheet->at({list.first.row, expected}, {list.last.row, expected});
      sheet.formula(
          {at, static_cast<std::uint16_t>(1 + p)},
          rounded("SUMPRODUCT((" + tags + "=" + here(Cell{at, 0}) + ")*1," + amounts_there + ")", f.currency),
          amounts[p]);
      of_vehicle += amounts[p];
    }
    sheet.formula({at, 4}, rounded("SUM(" + here({at, 1}, {at, 3}) + ")", f.currency), of_vehicle,
                  look::money_total);
  }
  const std::uint32_t last_vehicle = at;
  write_what_is_to_complete(f, sheet, at, total + 3, by_vehicle);
  at += 2;
  for (const char* each_one : cautions::of_shopping)
    sheet.height(at, 26), sheet.across({at++, 0}, 5, each_one, look::caution);

  sheet.height(answer, 28);
  sheet.text({answer, 0}, "Expected, still to buy", look::answer);
  sheet.formula({answer, 1}, here(Cell{total, 2}), sum, look::answer_money);
  for (std::uint16_t col = 2; col < 5; ++col) sheet.blank({answer, col}, look::answer);
  for (std::uint32_t p = 0; p < 3; ++p) {
    sheet.height(answer + 1 + p, 20);
    sheet.text({answer + 1 + p, 0}, places[p].title, look::figure);
    sheet.formula({answer + 1 + p, 1}, here(Cell{table + 1 + p, 2}), lists[p].sum, look::figure_money);
  }
  if (!by_vehicle.empty()) {
    Chart chart;
    chart.kind = Chart::Kind::stacked_bars;
    chart.title = "Expected, by vehicle and place, " + f.currency.code;
    chart.across_format = "#,##0";
    const std::uint32_t first_vehicle = total + 3;
    const Paint paints[] = {Paint::light, Paint::strong, Paint::striped};
    for (std::uint16_t p = 0; p < 3; ++p) {
      const auto col = static_cast<std::uint16_t>(1 + p);
      chart.series.push_back({places[p].title, sheet.at({first_vehicle, 0}, {last_vehicle, 0}),
                              sheet.at({first_vehicle, col}, {last_vehicle, col}), paints[p], Mark::none,
                              false, true, true});
    }
    sheet.chart({picture, 0}, chart, 5, picture_rows);
  }
  book.name("expected", sheet, {total, 1});
  book.name("still_to_be_bought", sheet, {total, 2});
  book.name("paid", sheet, {total, 3});
}

}  // namespace

void write_shopping(const ShoppingFigures& figures, const std::filesystem::path& out) {
  Workbook book(out, figures.currency, {"Shopping", "", figures.made_on});
  Sheet& first = book.sheet("Shopping");
  std::array<Listed, 3> lists;
  for (std::size_t p = 0; p < 3; ++p) {
    lists[p].sheet = &book.sheet(places[p].sheet);
    write_list(figures, places[p], lists[p]);
  }
  write_not_there(figures, book.sheet("NotThere"));
  write_first(figures, book, first, lists);
  book.close();
}

}  // namespace nonrunner::reports
