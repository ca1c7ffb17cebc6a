#include "reports/shopping.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>

#include "reports/cautions.h"
#include "reports/formula.h"
#include "reports/head.h"
#include "reports/shopping_words.h"
#include "reports/table.h"

namespace nonrunner::reports {

namespace {

using Place = ShoppingLine::Place;

struct PlaceWords {
  Place place;
  const char *sheet, *title, *where;
};
constexpr std::array places = {PlaceWords{Place::yard, "Yard", "At the yard", "yard"},
                               PlaceWords{Place::counter, "Counter", "Over the counter", "counter"},
                               PlaceWords{Place::ordered, "Ordered", "To be ordered", "order"}};

// Columns of a list; those from `vehicle` on are not shown and only feed the sums.
enum : std::uint16_t { tick, what, quantity, price, most, paid, vehicle, core, chance, expected, got, cash };

struct Listed {
  Sheet* sheet = nullptr;
  Cell expected, open, paid, cash, cash_if;  // sums
  Cell first, last;                          // rows of the list
  Money sum, cash_sum, cash_if_sum;
  std::size_t count = 0;
};

std::string with(const std::string& before, const std::string& after) {
  return before.empty() || after.empty() ? before + after : before + "; " + after;
}

// What it is, and below it all that the one in the yard has to know.
std::string what_and_why(const ShoppingLine& line, const Currency& currency) {
  std::string why = with(with(line.source, line.note), when_needed(line, currency));
  if (line.core.fine() != 0)
    why = with(why, "+" + line.core.times(Quantity::of(1000)).shown(currency) + " core deposit on each");
  return line.what + (why.empty() ? "" : "\n" + why);
}

Money cash_of(const ShoppingLine& line) {
  return Price::of_fine(line.price.fine() + line.core.fine()).times(line.quantity);
}

class List {
 public:
  List(const ShoppingFigures& figures, const PlaceWords& words, Listed& listed)
      : f_(figures),
        listed_(listed),
        sheet_(*listed.sheet),
        table_(sheet_, 3,
               {{"Got", 6, look::box},
                {"What, and for what", 52, {Form::text, Role::plain, true, Look::Side::apart}},
                {"How many", 9, look::decimal_input},
                {"Price of one", 13, look::money_input},
                {"Most to pay", 13, look::money},
                {"Paid, in all", 14, look::money_box},
                {"Vehicle", 12, look::text},
                {"Core deposit on one", 12, look::price},
                {"Chance and bad ones", 12, look::decimal},
                {"Expected", 12, look::money},
                {"Got, 1", 8, look::whole},
                {"Cash, open", 12, look::money}}) {
    for (const ShoppingLine& line : figures.lines)
      if (line.place == words.place) lines_.push_back(&line);
    std::stable_sort(lines_.begin(), lines_.end(),
                     [](const auto* a, const auto* b) { return a->vehicle < b->vehicle; });
    sheet_.text({0, 0}, words.title, look::title);
    sheet_.across(
        {1, 0}, shown,
        "Tick what is got, or write what was paid for it in all, deposits apart: the totals follow. What is "
        "ticked here is not in the book: enter the papers there.",
        look::note);
    sheet_.hidden_columns(vehicle, cash);
    sheet_.printed_columns(vehicle);
  }

  void write() {
    std::string of;
    for (const ShoppingLine* line : lines_) {
      if (line->vehicle != of) write_vehicle(of = line->vehicle);
      write_line(*line);
    }
    if (table_.empty()) sheet_.hide();
    table_.close("nothing to get here");
    listed_.first = table_.first(0), listed_.last = table_.last(0);
    listed_.count = lines_.size();
    write_sums();
  }

 private:
  static constexpr int shown = 6;

  void write_vehicle(const std::string& tag) {
    table_.row(20);
    const auto found = std::find_if(f_.vehicles.begin(), f_.vehicles.end(),
                                    [&](const ShoppingVehicle& each) { return each.tag == tag; });
    std::string words = tag;
    if (found != f_.vehicles.end())
      words += ": " + found->cause + (found->cause_is_noted ? "" : ", the likeliest: none is noted");
    sheet_.across({table_.at(), 0}, shown, words, look::total);
  }

  void write_line(const ShoppingLine& line) {
    const Currency& currency = f_.currency;
    table_.row(22);
    sheet_.blank(table_.cell(tick), look::box);
    table_.text(what, what_and_why(line, f_.currency));
    table_.count(quantity, line.quantity);
    table_.price(price, line.price);
    if (line.most) table_.price(most, *line.most);
    sheet_.blank(table_.cell(paid), look::money_box);
    table_.price(core, line.core);
    // Expected of one: its price, times what the chance that it is needed and a bad one come to. Rounded once
    // six digits further, to take the noise of binary fractions away.
    const Money amount = line.expected.times(line.quantity);
    const std::string all = table_.in(quantity) + "*" + table_.in(price);
    if (line.price.fine() != 0) {
      table_.number(chance,
                    static_cast<double>(line.expected.fine()) / static_cast<double>(line.price.fine()));
      table_.money(
          expected,
          formula::rounded(formula::rounded(all + "*" + table_.in(chance), currency.digits + 6), currency),
          amount);
    } else {
      table_.money(expected, amount);
    }
    table_.number(got, "IF(OR(" + table_.in(tick) + "<>\"\"," + table_.in(paid) + "<>\"\"),1,0)", 0);
    table_.money(
        cash,
        "IF(" + table_.in(got) + "=1,0," +
            formula::rounded(table_.in(quantity) + "*(" + table_.in(price) + "+" + table_.in(core) + ")",
                             currency) +
            ")",
        cash_of(line));
    table_.text(vehicle, line.vehicle);
    listed_.sum += amount;
    (line.certain ? listed_.cash_sum : listed_.cash_if_sum) += cash_of(line);
    if (!line.certain) if_needed_.push_back(table_.in(cash));
  }

  void write_sums() {
    const Currency& currency = f_.currency;
    const std::uint32_t last_line = table_.at();
    std::uint32_t at = last_line + 1;
    const auto line = [&](const std::string& words, const std::string& formula, Money amount, bool total) {
      sheet_.height(at, 20);
      sheet_.text({at, what}, words, total ? look::total : look::text);
      sheet_.formula({at, paid}, formula, amount, total ? look::money_total : look::money);
      return Cell{at++, paid};
    };
    listed_.expected =
        line("expected, in all", formula::sum(table_.range(expected), currency), listed_.sum, true);
    listed_.open = line("of it still to be bought",
                        formula::rounded("SUM(" + table_.range(expected) + ")-SUMPRODUCT(" +
                                             table_.range(got) + "," + table_.range(expected) + ")",
                                         currency),
                        listed_.sum, false);
    // Not SUM: a price typed as text has to be seen.
    listed_.paid = line("paid so far", formula::rounded("SUMPRODUCT(" + table_.range(paid) + "*1)", currency),
                        Money(), false);
    std::string ifs;
    for (const std::string& each : if_needed_) ifs += (ifs.empty() ? "" : "+") + each;
    if (ifs.empty()) ifs = "0";
    listed_.cash = line("cash to take along, with core deposits",
                        formula::rounded("SUM(" + table_.range(cash) + ")-(" + ifs + ")", currency),
                        listed_.cash_sum, true);
    listed_.cash_if = line("and for what is only if it is needed", formula::rounded(ifs, currency),
                           listed_.cash_if_sum, false);
    sheet_.together(last_line, at - 1);
  }

  const ShoppingFigures& f_;
  Listed& listed_;
  Sheet& sheet_;
  Table table_;
  std::vector<const ShoppingLine*> lines_;
  std::vector<std::string> if_needed_;
};

void write_not_there(const ShoppingFigures& f, Sheet& sheet) {
  Table table(sheet, 3,
              {{"Day", 12, look::day},
               {"Place", 20, look::wrapped},
               {"Vehicle", 14, look::text},
               {"What", 50, look::wrapped}});
  sheet.text({0, 0}, "Looked for, and not there", look::title);
  sheet.across({1, 0}, 4,
               "So that nobody drives for it twice. Each is a note on its car that begins with \"not "
               "there:\", such as "
               "\"not there: radiator, at Cleave Yard\".",
               look::note);
  for (const LookedFor& each : f.not_there) {
    table.row();
    table.day(0, each.day);
    table.text(1, each.place);
    table.text(2, each.vehicle);
    table.text(3, each.what);
  }
  if (table.empty()) sheet.hide();
  table.close("nothing");
}

// The lists beside the cost to complete that `show` and the job workbook give.
void write_cars(const ShoppingFigures& f, Sheet& sheet, const std::array<Listed, 3>& lists) {
  enum : std::uint16_t { tag, first_place, on_lists = 4, beside, to_complete, cause };
  Table table(sheet, 3,
              {{"Vehicle", 12, look::text},
               {places[0].title, 13, look::money, summed},
               {places[1].title, 13, look::money, summed},
               {places[2].title, 13, look::money, summed},
               {"On the lists", 13, look::money, summed},
               {"Fees, opening up", 13, look::money, summed},
               {"Cost to complete", 13, look::money, summed},
               {"Lines for the cause", 30, {Form::text, Role::note, true, Look::Side::apart}}});
  sheet.text({0, 0}, "By car, expected", look::title);
  sheet.across({1, 0}, 8, "What may not be needed counts with its chance. All of it, got or not.",
               look::note);
  std::map<std::string, std::array<Money, 3>> by_vehicle;
  for (const ShoppingLine& line : f.lines)
    by_vehicle[line.vehicle][static_cast<std::size_t>(line.place)] += line.expected.times(line.quantity);
  for (const ShoppingVehicle& each : f.vehicles) by_vehicle.try_emplace(each.tag);
  for (const auto& each : by_vehicle) {
    const std::string& name = each.first;
    const std::array<Money, 3>& amounts = each.second;
    table.row();
    table.text(tag, name);
    Money listed;
    for (std::uint16_t p = 0; p < 3; ++p) {
      const Listed& list = lists[p];
      // Compared as a whole, so that no tag is taken for a pattern.
      const std::string tags = list.sheet->at({list.first.row, vehicle}, {list.last.row, vehicle}),
                        there = list.sheet->at({list.first.row, expected}, {list.last.row, expected});
      table.money(
          static_cast<std::uint16_t>(first_place + p),
          formula::rounded("SUMPRODUCT((" + tags + "=" + table.in(tag) + ")*1," + there + ")", f.currency),
          amounts[p]);
      listed += amounts[p];
    }
    table.money(on_lists,
                formula::sum(here(table.cell(first_place), table.cell(first_place + 2)), f.currency), listed);
    const auto found = std::find_if(f.vehicles.begin(), f.vehicles.end(),
                                    [&](const ShoppingVehicle& car) { return car.tag == name; });
    const Money more = found == f.vehicles.end() ? Money() : found->beside;
    if (found != f.vehicles.end() && listed + more != found->to_complete)
      throw std::logic_error("shopping workbook: the lines of " + name + " come to " +
                             (listed + more).plain(f.currency) + ", its cost to complete is " +
                             found->to_complete.plain(f.currency));
    table.money(beside, more);
    table.money(to_complete, formula::rounded(table.in(on_lists) + "+" + table.in(beside), f.currency),
                listed + more);
    if (found != f.vehicles.end())
      table.text(cause, found->cause_is_noted ? found->cause : "the likeliest, none noted: " + found->cause);
  }
  if (table.empty()) sheet.hide();
  table.close("in all", "no cars");
}

void write_first(const ShoppingFigures& f, Workbook& book, Sheet& sheet, const std::array<Listed, 3>& lists) {
  Head page(book, sheet, "Shopping");
  page.say("All amounts in " + f.currency.code + ", made " + f.made_on.iso() +
           ". What is ticked and written on the lists is counted here, and is not in the book.");
  const auto all = [&](Cell Listed::*which) {
    std::string formula;
    for (const Listed& list : lists) formula += (formula.empty() ? "" : "+") + list.sheet->at(list.*which);
    return formula::rounded(formula, f.currency);
  };
  Money sum;
  for (const Listed& list : lists) sum += list.sum;
  page.answer("Expected, still to buy", all(&Listed::open), sum, "");
  for (std::size_t p = 0; p < 3; ++p)
    page.figure(places[p].title, lists[p].sheet->at(lists[p].open), std::optional(lists[p].sum),
                fmt::format("{} {}", lists[p].count, lists[p].count == 1 ? "line" : "lines"));
  for (std::size_t p = 0; p < 2; ++p)
    page.figure(fmt::format("Cash to take to the {}", places[p].where), lists[p].sheet->at(lists[p].cash),
                std::optional(lists[p].cash_sum), "at the prices asked, with core deposits");
  page.figure("Cash for what is only if it is needed", all(&Listed::cash_if),
              std::optional(lists[0].cash_if_sum + lists[1].cash_if_sum + lists[2].cash_if_sum),
              "at all places");
  page.figure("Paid so far", all(&Listed::paid), std::optional(Money()),
              "shows an error where a price was typed as text");
  page.when_changed("prices and quantities are no longer those of the book.");
  if (!f.lines.empty()) {
    Chart chart;
    chart.kind = Chart::Kind::bars;
    chart.title = "Expected by place, still to be bought";
    chart.across = f.currency.code;
    chart.across_format = "#,##0";
    chart.legend = false;
    chart.from_zero = true;
    chart.says = "Expected, still to be bought: " + sum.shown(f.currency) + " in all";
    const std::uint32_t first = page.row() - 8;  // the three figures of the places
    chart.series.push_back({"still to be bought", sheet.at({first, 0}, {first + 2, 0}),
                            sheet.at({first, 1}, {first + 2, 1}), Paint::strong, Mark::none, false, true,
                            true});
    page.picture(chart, 11);
  }
  std::vector<std::string> waiting;
  for (const figures::WaitingReceipt& each : f.waiting) waiting.push_back(in_words(each, f.currency));
  page.list("Waits to be itemised, and may be one of these lines: ", waiting, 8);
  page.legend("quantities and prices on the lists. Boxes are to be ticked and filled in.");
  page.close({cautions::of_shopping.begin(), cautions::of_shopping.end()});
  for (const auto& [name, which] :
       {std::pair("expected", &Listed::expected), std::pair("still_to_be_bought", &Listed::open),
        std::pair("paid", &Listed::paid), std::pair("cash_to_take_along", &Listed::cash)})
    for (std::size_t p = 0; p < 3; ++p)
      book.name(fmt::format("{}_{}", name, places[p].where), *lists[p].sheet, lists[p].*which);
}

}  // namespace

void write_shopping(const ShoppingFigures& figures, const std::filesystem::path& out) {
  Workbook book(
      out, figures.currency,
      {"Shopping", "", figures.made_on, "shopping", "what is ticked here is not in the book", figures.book});
  Sheet& first = book.sheet("Shopping");
  std::array<Listed, 3> lists;
  for (std::size_t p = 0; p < 3; ++p) {
    lists[p].sheet = &book.sheet(places[p].sheet);
    List(figures, places[p], lists[p]).write();
  }
  write_cars(figures, book.sheet("Cars"), lists);
  write_not_there(figures, book.sheet("NotThere"));
  write_first(figures, book, first, lists);
  book.close();
}

}  // namespace nonrunner::reports
