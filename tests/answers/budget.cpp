// The sample job "sprat" against its appraisal: what was expected, what it came to, and what nobody had asked
// for.
#include "answers/budget.h"

#include <map>

#include "answers/pip.h"
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

namespace {

const std::string noted =
    "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", cause = \"gasket\" }";
std::string advert(const char* day) {
  return std::string("{ do = \"advertised\", date = 2025-06-") + day +
         ", vehicle = \"pip\", price = 2900.00 }";
}
std::string found(const char* day, const char* what) {
  return std::string("{ do = \"finding\", date = 2025-06-") + day + ", vehicle = \"pip\", text = \"seen\", " +
         what + " }";
}
std::string state_of(Pip& pip, const std::string& what) {
  const auto budget = budget_of(pip.book(), "pip");
  for (const BudgetLine& line : budget ? budget->lines : std::vector<BudgetLine>())
    if (line.estimate.what == what) return name_of(line.state);
  return "no line";
}

}  // namespace

TEST_CASE("what came up after a car was ready is open, and the same word once more is no news", "[answers]") {
  Pip late;
  late.post(advert("05") + ", " + found("07", "cause = \"gasket\""));
  CHECK(state_of(late, "set") == "open");
  CHECK(state_of(late, "wing") == "done");
  Pip again;
  again.post(noted + ", " + advert("05") + ", " + found("07", "cause = \"gasket\""));
  CHECK(state_of(again, "set") == "done");
  Pip rot(appraisal::small_job);
  rot.post(noted + ", " + advert("05") + ", " + found("07", "trouble = [\"rot=there\"]"));
  CHECK(state_of(rot, "rot") == "open");
}

TEST_CASE("a line is done by what is booked under it, unless more was said to come", "[answers]") {
  Pip pip;
  pip.post(noted);
  CHECK(state_of(pip, "opening up") == "done");  // the cause is found
  pip.bought("wing", "49.00");
  CHECK(state_of(pip, "wing") == "open");
  pip.bought("wing", "0.50", "itemised = false, again = true");
  CHECK(state_of(pip, "wing") == "done");  // nine tenths of 55
  pip.bought("set", "40.00", "itemised = false", ", more = true");
  CHECK(state_of(pip, "set") == "open");
  Pip chain(appraisal::small_job_with("works = 0.8\n",
                                      "works = 0.8\notherwise = \"engine\"\n[[correction]]\nname = "
                                      "\"engine\"\nparts = [{ name = \"engine\", qty = "
                                      "1, new = 500 }]\n"));
  chain.post(found("03", "cause = \"gasket\", failed = [\"reseal\"]"));
  CHECK(state_of(chain, "set") == "done");  // it was made
  CHECK(state_of(chain, "engine") == "open");
}

TEST_CASE("what went back, to the shelf or to another car opens its line again", "[answers]") {
  const auto open_after = [](const std::string& more, const std::string& about = "itemised = false",
                             const std::string& of_line = "") {
    Pip pip;
    pip.post(noted);
    pip.bought("set", "118.00", about, ", id = \"set\"" + of_line);
    CHECK(state_of(pip, "set") == "done");
    pip.post(more);
    const auto budget = budget_of(pip.book(), "pip");
    CHECK(shown(budget->cash_to_come) == "273.00");  // fees 100, the set 118, the wing 55
    return state_of(pip, "set");
  };
  const std::string away =
      "{ do = \"transfer\", date = 2025-06-06, from = \"pip\", to = \"wren\", what = \"set\", amount = "
      "118.00";
  const std::string shelved =
      "{ do = \"shelve\", date = 2025-06-06, vehicle = \"pip\", stock = \"sets\", qty = 1, amount = 118.00, "
      "what = \"set\"";
  const std::string back =
      "{ do = \"return\", date = 2025-06-06, line = \"set\", goods = 118.00, purse = \"cash\"";
  const std::string paper = "supplier = \"Cleave\", number = \"5\"", counted = ", qty = 1";
  CHECK(open_after(away + " }") == "open");
  CHECK(open_after(away + ", line = \"set\" }") == "open");
  CHECK(open_after(away + ", line = \"set\" }", paper, counted) == "open");
  CHECK(open_after(shelved + " }") == "open");
  CHECK(open_after(shelved + " }", paper, counted) == "open");
  CHECK(open_after(back + " }") == "open");
  CHECK(open_after(back + ", restocking = 18.00 }") == "open");
  CHECK(open_after(back + " }", paper, counted) == "open");
  // It came from another car and went there again.
  Pip to_and_fro;
  to_and_fro.post(
      noted +
      ", { do = \"buy\", date = 2025-06-02, vehicle = \"wren\", price = 500.00, purse = \"cash\" }, "
      "{ do = \"transfer\", date = 2025-06-05, from = \"wren\", to = \"pip\", what = \"set\", amount = "
      "20.00 }");
  CHECK(state_of(to_and_fro, "set") == "done");
  to_and_fro.post(
      "{ do = \"transfer\", date = 2025-06-06, from = \"pip\", to = \"wren\", what = \"set\", amount = 20.00 "
      "}");
  CHECK(state_of(to_and_fro, "set") == "open");
}

TEST_CASE("of pieces that two cars share each has its part", "[answers]") {
  Pip pip(appraisal::with(certain_job(), "qty = 1, new = 118", "qty = 4, new = 29.5"));
  pip.post(noted +
           ", { do = \"buy\", date = 2025-06-02, vehicle = \"wren\", price = 500.00, purse = \"cash\" }");
  pip.post(
      "{ do = \"receipt\", date = 2025-06-05, supplier = \"Cleave\", number = \"5\", paid = \"cash\", total "
      "= 118.00, "
      "line = [{ id = \"sets\", what = \"set\", qty = 4, amount = 118.00, kind = \"part\", share = { pip = "
      "1, wren = 3 } }] }");
  CHECK(state_of(pip, "set") == "open");
  CHECK(shown(budget_of(pip.book(), "pip")->cash_to_come) ==
        "243.50");  // fees 100, 3 of 4 at 29.50, the wing 55
  pip.post(
      "{ do = \"return\", date = 2025-06-06, line = \"sets\", qty = 4, goods = 118.00, purse = \"cash\" }");
  CHECK(shown(budget_of(pip.book(), "pip")->cash_to_come) == "273.00");
}

TEST_CASE("a plan of a later day opens a line that was done or left", "[answers]") {
  for (const char* const says : {"done", "not needed"}) {
    Pip pip;
    pip.post(noted);
    const auto planned = [&](const char* day, const char* amount) {
      pip.post(std::string("{ do = \"plan\", date = 2025-06-") + day +
               ", vehicle = \"pip\", name = \"radiator\", amount = " + amount + ", hours = 2 }");
    };
    planned("04", "90.00");
    pip.post(std::string(
                 "{ do = \"done\", date = 2025-06-05, vehicle = \"pip\", lines = [\"radiator\"], says = \"") +
             says + "\" }");
    CHECK(state_of(pip, "radiator") == says);
    CHECK_THAT(budget_of(pip.book(), "pip")->hours_to_come, Catch::Matchers::WithinAbs(11, 1e-9));
    planned("05", "95.00");  // on that day the word holds
    CHECK(state_of(pip, "radiator") == says);
    planned("06", "100.00");
    CHECK(state_of(pip, "radiator") == "open");
    CHECK(shown(budget_of(pip.book(), "pip")->cash_to_come) == "373.00");
    CHECK_THAT(budget_of(pip.book(), "pip")->hours_to_come, Catch::Matchers::WithinAbs(13, 1e-9));
    // Planned first and said for the day before in the same evening: it holds.
    pip.post(
        "{ do = \"done\", date = 2025-06-05, vehicle = \"pip\", lines = [\"radiator\"], says = \"done\" }");
    CHECK(state_of(pip, "radiator") == "done");
  }
}

TEST_CASE("the price follows from what is left undone, what was made and what was not", "[answers]") {
  const auto price = [](Pip& pip) { return budget_of(pip.book(), "pip")->estimate.sale_price; };
  Pip left;
  left.post(
      noted +
      ", { do = \"done\", date = 2025-06-04, vehicle = \"pip\", lines = [\"wing\"], says = \"not needed\" }");
  CHECK_THAT(price(left), Catch::Matchers::WithinAbs(2940 - 190, 1e-9));
  // Planned after it was left it is made after all.
  left.post("{ do = \"plan\", date = 2025-06-07, vehicle = \"pip\", name = \"wing\", amount = 60.00 }");
  CHECK_THAT(price(left), Catch::Matchers::WithinAbs(2940, 1e-9));
  CHECK(budget_of(left.book(), "pip")->left_faults.empty());
  Pip unmade;
  unmade.post(noted + ", " + advert("05"));
  CHECK_THAT(price(unmade), Catch::Matchers::WithinAbs(3000 - 10, 1e-9));  // no mark of 50 was made
  Pip made;
  made.post(noted);
  made.bought("set", "118.00");
  made.post(advert("06"));
  CHECK_THAT(price(made), Catch::Matchers::WithinAbs(3000 - 10 - 50, 1e-9));
}

TEST_CASE("a plan stands in the place of the estimate's line, and an advert that is paid is expected no more",
          "[answers]") {
  Pip pip;
  pip.post(noted +
           ", { do = \"plan\", date = 2025-06-04, vehicle = \"pip\", name = \"set\", amount = 140.00 }");
  const auto budget = budget_of(pip.book(), "pip");
  CHECK(shown(budget->cash_to_come) == "295.00");  // fees 100, the plan of 140, the wing 55
  CHECK(shown(expected_of(*budget, Currency()).selling_costs) == "40.00");
  pip.post(
      "{ do = \"selling cost\", date = 2025-06-05, vehicle = \"pip\", what = \"advert\", amount = 5.00, "
      "purse = \"cash\" }");
  CHECK(shown(expected_of(*budget_of(pip.book(), "pip"), Currency()).selling_costs) == "35.00");
}

TEST_CASE(
    "of several causes the sum by chances is of those that can be put right, the dearest only where it is "
    "dearer",
    "[answers]") {
  Pip one;  // the pump has no correction
  const auto alone = budget_of(one.book(), "pip");
  CHECK(alone->by_chances() == alone->cash_to_come);
  CHECK_FALSE(alone->dearest());
  const auto with_pump = [](const std::string& price) {
    return appraisal::with(
        certain_job(), "found = 800\n",
        "found = 800\ncorrection = \"change\"\n[[correction]]\nname = \"change\"\nparts = [{ name "
        "= \"pump\", qty = 1, new = " +
            price +
            " }]\nworks = 0.9\notherwise = \"dear\"\n"
            "[[correction]]\nname = \"dear\"\nparts = [{ name = \"engine\", qty = 1, new = 500 }]\n");
  };
  Pip dear(with_pump("400"));
  const auto two = budget_of(dear.book(), "pip");
  REQUIRE(two->dearest());
  CHECK(two->dearest()->cause == "pump");
  // With gasket 118 and with the pump 400 and a tenth of 500, beside what both need.
  CHECK(two->dearest()->to_come - two->cash_to_come == Money::of_minor(33200));
  CHECK(two->by_chances() - two->cash_to_come == Money::of_minor(8300));
  for (const OtherLine& line : two->only_if)
    if (line.estimate.what == "engine") CHECK_THAT(line.chance, Catch::Matchers::WithinAbs(0.025, 1e-12));
  CHECK(two->only_if.size() == 2);
  Pip cheap(with_pump("5"));
  CHECK_FALSE(budget_of(cheap.book(), "pip")->dearest());
}

TEST_CASE("left behind is a line that the new file has no more, with what was booked and worked under it",
          "[answers]") {
  Pip pip;
  pip.bought("set", "118.00");
  pip.bought("wing", "20.00");
  const auto left = left_behind(
      pip.book(), "pip",
      appraisal::job_of(appraisal::with(certain_job(), "name = \"set\"", "name = \"set, complete\"")));
  REQUIRE(left.size() == 1);
  CHECK(left[0].name == "set");
  CHECK(shown(left[0].booked) == "118.00");
  CHECK(left[0].may_be == std::vector<std::string>{"set, complete"});
}
