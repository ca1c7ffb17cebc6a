// What to find out first, what the answer would change, and the deals on the table.
#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "reports/appraisal/parts.h"
#include "reports/table.h"

namespace nonrunner::reports::appraisal_sheets {

namespace {

// Hidden: the second only feeds the picture, the first holds a text, over which its number is not printed.
constexpr std::uint16_t shield_column = 5, room_column = 6;

class Tests {
 public:
  explicit Tests(Parts& parts) : parts_(parts), f_(parts.figures), sheet_(*parts.tests) {}

  void write() {
    write_worth();
    write_tests();
    write_after_first_test();
    write_offers();
    if (!f_.tests.empty()) draw();
  }

 private:
  void write_worth() {
    sheet_.text({at_, 0}, "Deciding now is worth");
    sheet_.decimal({at_, 1}, f_.decide_now, look::money);
    const std::string now = fixed({at_, 1});
    sheet_.text({++at_, 0}, "The best plan is worth");
    sheet_.decimal({at_, 1}, f_.best_plan, look::money);
    const std::string best = fixed({at_, 1});
    sheet_.text({++at_, 0}, "So testing first is worth");
    sheet_.formula({at_, 1}, best + "-" + now, f_.best_plan - f_.decide_now, look::money_total);
    sheet_.text({++at_, 0}, "Knowing everything would be worth, at most");
    sheet_.decimal({at_, 1}, f_.perfect_information, look::money);
    at_ += 2;
  }

  void write_tests() {
    if (!f_.tests_seen.empty()) {
      sheet_.text({at_, 0}, "Seen so far", look::section);
      for (const auto& [test, outcome] : f_.tests_seen) sheet_.text({++at_, 0}, test + ": " + outcome);
      at_ += 2;
    }
    sheet_.headings({at_, 0}, {"Test still to make", "Costs", "Worth, gross", "Worth, net"}, 1);
    first_ = at_ + 1;
    for (const TestFigures& test : f_.tests) {
      ++at_;
      sheet_.wrapped({at_, 0}, test.name);
      sheet_.decimal({at_, 1}, test.cost, look::money);
      sheet_.decimal({at_, 2}, test.gross, look::money);
      sheet_.formula({at_, 3}, here(Cell{at_, 2}) + "-" + here(Cell{at_, 1}), test.gross - test.cost,
                     look::money);
    }
    if (f_.tests.empty()) sheet_.text({++at_, 0}, "none");
    last_ = at_;
    at_ += 2;
  }

  void write_after_first_test() {
    if (f_.after_first_test.empty()) return;
    sheet_.headings(
        {at_, 0},
        {"After the first test, for a counter-offer that depends on it", "Chance", "Walk-away price", "Then"},
        1, 3);
    for (const AfterOutcome& each : f_.after_first_test) {
      ++at_;
      sheet_.wrapped({at_, 0}, each.outcome);
      sheet_.decimal({at_, 1}, each.chance, look::percent);
      sheet_.decimal({at_, 2}, each.walk_away, look::money);
      sheet_.text({at_, 3}, each.then, look::note_apart);
    }
    at_ += 2;
  }

  void write_offers() {
    sheet_.headings({at_, 0},
                    {"Deals on the table", "Price", "Expected profit", "Never above", "Chance of loss"}, 1);
    for (const OfferRow& offer : f_.offers) {
      ++at_;
      sheet_.wrapped({at_, 0}, offer.name + (offer.take && f_.offers.size() > 1 ? " (the one to take)" : ""));
      sheet_.decimal({at_, 1}, offer.price, look::money);
      sheet_.decimal({at_, 2}, offer.expected_profit, look::money);
      sheet_.decimal({at_, 3}, offer.walk_away, look::money);
      sheet_.decimal({at_, 4}, offer.loss_chance, look::percent);
    }
  }

  void draw() {
    Chart chart;
    chart.title = "What each test alone is worth, its cost taken off";
    const std::uint32_t count = drawn(chart, f_.tests.size(), 32);
    std::vector<std::string> names;
    for (std::size_t i = 0; i < count; ++i) names.push_back(f_.tests[i].name);
    chart.across = f_.currency.code;
    chart.says = "What each test alone is worth, its cost taken off";
    chart.legend = false;
    chart.from_zero =
        std::all_of(f_.tests.begin(), f_.tests.end(), [](const TestFigures& t) { return t.gross >= t.cost; });
    chart.across_format = "#,##0";
    chart.series.push_back({"net", parts_.book.labels(names), sheet_.at({first_, 3}, {first_ + count - 1, 3}),
                            Paint::strong, Mark::none, false, true, true});
    // Left of the longest bar below zero an unseen one keeps room for its figure, which would else run into the name.
    const auto least = std::ranges::min(std::span(f_.tests).first(count), {},
                                        [](const TestFigures& t) { return t.gross - t.cost; });
    if (const double room = 4.0 / 3 * (least.gross - least.cost); room < 0) {
      sheet_.text({first_, shield_column}, "room", look::note);
      sheet_.formula({first_, room_column}, "4/3*MIN(0," + here({first_, 3}, {first_ + count - 1, 3}) + ")",
                     room, look::money_note);
      chart.over_each_other = true;
      chart.series.push_back({"", parts_.book.labels(names),
                              sheet_.at({first_, room_column}, {first_ + count - 1, room_column}),
                              Paint::none});
    }
    sheet_.chart({at_ + 3, 0}, chart, 5, std::max(8 + static_cast<int>(count), 12));
  }

  Parts& parts_;
  const AppraisalFigures& f_;
  Sheet& sheet_;
  std::uint32_t at_ = 3;
  std::uint32_t first_ = 0, last_ = 0;  // of the tests still to make
};

}  // namespace

void write_tests(Parts& parts) {
  Sheet& sheet = *parts.tests;
  sheet.widths({56, 15, 15, 15, 24, 2, 2});
  sheet.hidden_columns(shield_column, room_column);
  sheet.printed_columns(shield_column);
  sheet.text({0, 0}, "Tests and plan", look::title);
  sheet.across(
      {1, 0}, 5,
      "Worth is counted above the profit aimed at, all aims held, for the figures as they stood; when those "
      "change, appraise again.",
      look::note);
  say_when_changed(parts, sheet, 2);
  Tests(parts).write();
}

// Step by step at the price asked, and up to the walk-away price, where it is another plan.
void write_plan(Parts& parts) {
  const AppraisalFigures& f = parts.figures;
  Sheet& sheet = *parts.plan;
  Table table(
      sheet, 4,
      {{"Step by step", 72, look::wrapped}, {"At the price", 16, look::money}, {"Worth", 16, look::money}});
  sheet.text({0, 0}, "The best plan", look::title);
  sheet.across(
      {1, 0}, 3,
      fmt::format("At the price asked{}. As appraised: it does not follow changes on the other sheets.",
                  f.limit_plan.empty()               ? ""
                  : f.limit_plan_price > f.walk_away ? ", and just above the walk-away price"
                                                     : ", and at the walk-away price"),
      look::note);
  say_when_changed(parts, sheet, 2);
  const auto steps = [&](double price, const std::vector<PlanLine>& lines) {
    for (const PlanLine& line : lines) {
      table.row();
      table.number(1, price);
      table.text(0, std::string(static_cast<std::size_t>(4 * line.depth), ' ') + line.text);
      table.number(2, line.worth);
    }
  };
  steps(f.asking, f.plan);
  steps(f.limit_plan_price, f.limit_plan);
  table.close("not worked out");
}

// What is done with the car in each case, if it is bought now.
void write_ways(Parts& parts) {
  enum : std::uint16_t { cause, with, chance, at_asking, at_walk_away };
  constexpr Look after_chance{Form::text, Role::plain, true, Look::Side::apart};
  Sheet& sheet = *parts.ways;
  sheet.landscape();
  Table table(sheet, 4,
              {{"Cause", 28, look::wrapped},
               {"With", 24, look::wrapped},
               {"Chance", 10, look::percent},
               {"At the price asked", 42, after_chance},
               {"At the walk-away price", 40, look::wrapped}});
  sheet.text({0, 0}, "Which way each case goes", look::title);
  sheet.across({1, 0}, 5,
               "The most profitable ways that hold all aims at the price; at the price asked, where none do, "
               "the most profitable ones. As appraised: these do not follow changes on the other sheets.",
               look::note);
  say_when_changed(parts, sheet, 2);
  for (const WayRow& way : parts.figures.ways) {
    table.row();
    table.text(cause, way.cause);
    table.text(with, way.troubles.empty() ? "nothing else" : way.troubles);
    table.number(chance, way.chance);
    table.text(at_asking, way.at_asking);
    table.text(at_walk_away, parts.figures.walk_away < 0 ? "not even as a gift" : way.at_walk_away);
  }
  table.close("not worked out");
}

}  // namespace nonrunner::reports::appraisal_sheets
