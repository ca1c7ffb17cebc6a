// The sample job "sprat" against its appraisal: what was expected, what it came to, and what nobody had asked
// for.
#include "answers/budget.h"

#include <map>

#include "book/fixture.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

class Sprat : public book::Shop {
 public:
  Sprat() {
    today = Day(2026, 11, 25);
    now = "2026-11-25T12:00:00Z";
    post_sample("sprat");
  }
};

}  // namespace

TEST_CASE("the job sprat against its appraisal, heading by heading", "[answers][jobs]") {
  Sprat sprat;
  const auto budget = budget_of(sprat.book(), "sprat");
  REQUIRE(budget);
  CHECK(budget->cause == "coolant pump failed");
  CHECK(budget->cause_is_noted);
  std::map<std::string, std::pair<Money, Money>> headings;
  for (const BudgetLine& line : budget->lines) {
    auto& sum =
        headings[line.estimate.kind == appraisal::EstimatedLine::Kind::fix ? "fixes" : line.estimate.group];
    sum.first += line.expected;
    sum.second += line.booked;
  }
  const Currency usd = Currency::of("USD");
  const auto expected = [&](const std::string& heading) { return headings[heading].first.plain(usd); };
  const auto booked = [&](const std::string& heading) { return headings[heading].second.plain(usd); };
  CHECK(expected("fees") == "157.00");
  CHECK(booked("fees") == "157.00");
  CHECK(expected("coolant pump and radiator") == "204.32");
  CHECK(booked("coolant pump and radiator") == "206.63");
  CHECK(expected("fixes") == "518.00");
  CHECK(booked("fixes") == "535.30");
  CHECK(booked("discovery") == "296.38");
  CHECK(booked("yard extras") == "20.96");
  CHECK(booked("readying") == "92.24");
  CHECK(booked("tests before buying") == "10.24");
  CHECK_THAT(budget->estimate.sale_price, Catch::WithinAbs(3241.50, 5e-3));

  std::map<std::string, Hours> hours;
  double expected_hours = 0;
  for (const BudgetWork& work : budget->work) {
    hours[work.estimate.group] += work.booked;
    expected_hours += work.estimate.hours;
  }
  CHECK_THAT(expected_hours,
             Catch::WithinAbs(1.944444 + 8.575 + 7.972222, 1e-5));  // opening up, correction, fixes
  CHECK(hours["opening up"].shown() == "1.6");
  CHECK(hours["coolant pump and radiator"].shown() == "10.1");
  CHECK((hours["front brakes worn, discs lipped"] + hours["rear bumper cover split"]).shown() == "5.6");
  CHECK(hours["discovery"].shown() == "8.6");
  CHECK(hours["readying"].shown() == "4");
}
