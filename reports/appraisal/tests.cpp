// What to find out first, what the answer would change, and the deals on the table.
#include <algorithm>

#include "reports/appraisal/parts.h"

namespace nonrunner::reports::appraisal_sheets {

void write_tests(Parts& parts) {
  Sheet& sheet = *parts.tests;
  const AppraisalFigures& f = parts.figures;
  sheet.widths({56, 15, 15, 15, 24});
  sheet.text({0, 0}, "Tests and plan", look::title);
  sheet.across(
      {1, 0}, 5,
      "Worth is counted above the profit aimed at, by that aim alone. The plan was worked out for the "
      "figures as they "
      "stood; when those change much, appraise again.",
      look::note);
  say_when_changed(parts, sheet, 2);
  std::uint32_t at = 3;
  sheet.text({at, 0}, "Deciding now is worth");
  sheet.decimal({at, 1}, f.decide_now, look::money);
  const std::string now = fixed({at, 1});
  sheet.text({++at, 0}, "The best plan is worth");
  sheet.decimal({at, 1}, f.best_plan, look::money);
  const std::string best = fixed({at, 1});
  sheet.text({++at, 0}, "So testing first is worth");
  sheet.formula({at, 1}, best + "-" + now, f.best_plan - f.decide_now, look::money_total);
  sheet.text({++at, 0}, "Knowing everything would be worth, at most");
  sheet.decimal({at, 1}, f.perfect_information, look::money);
  sheet.text({++at, 0}, "The plan begins with a test (1: yes)");
  sheet.whole({at, 1}, f.plan_begins_with_test ? 1 : 0);
  const std::string begins = fixed({at, 1});
  parts.test_first = {++at, 1};
  const bool worth_it = f.plan_begins_with_test && f.best_plan - f.decide_now >= 0.01 * f.asking;
  sheet.text({at, 0}, "and is worth at least 1 % of the asking price (1: yes)");
  sheet.formula(parts.test_first,
                "IF(AND(" + begins + "=1," + best + "-" + now + ">=0.01*" + parts.at(row::asking) + "),1,0)",
                worth_it ? 1 : 0, look::whole);

  at += 2;
  if (!f.tests_seen.empty()) {
    sheet.text({at, 0}, "Seen so far", look::section);
    for (const auto& [test, outcome] : f.tests_seen) sheet.text({++at, 0}, test + ": " + outcome);
    at += 2;
  }
  sheet.headings({at, 0}, {"Test still to make", "Costs", "Worth, gross", "Worth, net"}, 1);
  const std::uint32_t first = at + 1;
  std::vector<std::string> names;
  for (const TestFigures& test : f.tests) {
    ++at;
    sheet.wrapped({at, 0}, test.name);
    names.push_back(test.name);
    sheet.decimal({at, 1}, test.cost, look::money);
    sheet.decimal({at, 2}, test.gross, look::money);
    sheet.formula({at, 3}, here(Cell{at, 2}) + "-" + here(Cell{at, 1}), test.gross - test.cost, look::money);
  }
  if (f.tests.empty()) sheet.text({++at, 0}, "none");
  const std::uint32_t last = at;
  at += 2;
  sheet.headings({at, 0}, {"The best plan, step by step", "Worth"}, 1);
  for (const PlanLine& line : f.plan) {
    ++at;
    const std::string text = std::string(static_cast<std::size_t>(4 * line.depth), ' ') + line.text;
    sheet.wrapped({at, 0}, text);
    sheet.decimal({at, 1}, line.worth, look::money);
  }
  at += 2;
  if (!f.after_first_test.empty()) {
    sheet.headings(
        {at, 0},
        {"After the first test, for a counter-offer that depends on it", "Chance", "Walk-away price", "Then"},
        1, 3);
    for (const AfterOutcome& each : f.after_first_test) {
      ++at;
      sheet.wrapped({at, 0}, each.outcome);
      sheet.decimal({at, 1}, each.chance, look::percent);
      sheet.decimal({at, 2}, each.walk_away, look::money);
      sheet.text({at, 3}, each.then, look::note_apart);
    }
    at += 2;
  }
  sheet.headings({at, 0}, {"Deals on the table", "Price", "Expected profit", "Never above", "Chance of loss"},
                 1);
  for (const OfferRow& offer : f.offers) {
    ++at;
    sheet.wrapped({at, 0}, offer.name + (offer.take && f.offers.size() > 1 ? " (the one to take)" : ""));
    sheet.decimal({at, 1}, offer.price, look::money);
    sheet.decimal({at, 2}, offer.expected_profit, look::money);
    sheet.decimal({at, 3}, offer.walk_away, look::money);
    sheet.decimal({at, 4}, offer.loss_chance, look::percent);
  }
  if (f.tests.empty()) return;
  Chart chart;
  chart.title = "What each test alone is worth, its cost taken off";
  chart.across = f.currency.code;
  chart.says = "What each test alone is worth, its cost taken off";
  chart.legend = false;
  chart.from_zero =
      std::all_of(f.tests.begin(), f.tests.end(), [](const TestFigures& t) { return t.gross >= t.cost; });
  chart.across_format = "#,##0";
  chart.series.push_back({"net", parts.book.labels(names), sheet.at({first, 3}, {last, 3}), Paint::strong,
                          Mark::none, false, true, true});
  sheet.new_page(at + 2);
  sheet.chart({at + 2, 0}, chart, 5, std::clamp(8 + static_cast<int>(names.size()), 12, 40));
}

}  // namespace nonrunner::reports::appraisal_sheets
