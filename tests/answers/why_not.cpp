// Why a car's cause cannot be put right, for each reason there is.
#include "answers/why_not.h"

#include <cmath>

#include "answers/budget.h"
#include "answers/fixes.h"
#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

std::string told(const std::optional<WhyNot>& why) {
  if (!why) return "it can";
  switch (why->kind) {
    case WhyNot::Kind::paper_is_lost:
      return "paper is lost";
    case WhyNot::Kind::cause_unknown:
      return "cause unknown";
    case WhyNot::Kind::trouble_bars:
      return "trouble bars: " + why->trouble;
    case WhyNot::Kind::failed:
      return "failed";
    case WhyNot::Kind::no_correction:
      return "no correction";
    case WhyNot::Kind::in_pieces:
      return "in pieces since " + why->since.iso();
  }
  return "";
}
std::string why(Pip& pip) {
  const auto cause = appraised_cause(pip.book(), "pip");
  REQUIRE(cause);
  return told(why_not_put_right(*cause));
}
std::string finding(const std::string& says) {
  return "{ do = \"finding\", date = 2025-06-05, vehicle = \"pip\", text = \"seen\", " + says + " }";
}

}  // namespace

TEST_CASE(
    "a cause without a correction, one that nobody thought of and a correction that failed each say why",
    "[answers]") {
  {
    Pip pip;
    pip.post(finding("cause = \"pump\""));
    CHECK(why(pip) == "no correction");
  }
  {
    Pip pip;
    pip.post(finding("cause = \"something else\""));
    CHECK(why(pip) == "cause unknown");
  }
  {
    Pip pip;
    pip.post(finding("cause = \"gasket\""));
    REQUIRE(budget_of(pip.book(), "pip"));
    pip.post(finding("failed = [\"reseal\"]"));
    CHECK(told(budget_of(pip.book(), "pip")->not_put_right) == "failed");
    CHECK(why(pip) == "failed");
  }
}

TEST_CASE("a car in pieces is put right no more, whatever its cause", "[answers]") {
  Pip pip;
  FixesAnswer whole;
  say_whether_put_right(whole, pip.book(), "pip");
  CHECK(told(whole.not_put_right) == "it can");
  pip.post("{ do = \"part out\", date = 2025-06-06, vehicle = \"pip\", still_brings = 800.00 }");
  FixesAnswer parted;
  say_whether_put_right(parted, pip.book(), "pip");
  CHECK(told(parted.not_put_right) == "in pieces since 2025-06-06");
}

TEST_CASE("a lost paper and a trouble that bars the road stand before the cause", "[answers]") {
  Pip lost(appraisal::with(certain_job(), "tag = \"pip\"\n", "tag = \"pip\"\npaper = \"lost\"\n"));
  CHECK(why(lost) == "paper is lost");
  Pip barred(appraisal::small_job_with("takes_off = 30\n", "takes_off = 30\nbars_road = true\n"));
  barred.post(finding("trouble = [\"rot=there\"]"));
  CHECK(why(barred) == "trouble bars: rot");
}

TEST_CASE(
    "of a car that is not put right what was planned by hand and the costs of selling are still to come",
    "[answers][budget]") {
  Pip barred(appraisal::small_job_with("takes_off = 30\n", "takes_off = 30\nbars_road = true\n"));
  barred.post(finding("trouble = [\"rot=there\"]"));
  const auto before = budget_of(barred.book(), "pip");
  REQUIRE(before);
  CHECK(told(before->not_put_right) == "trouble bars: rot");
  CHECK(before->if_cause.empty());
  for (const BudgetLine& line : before->lines) CHECK(line.estimate.what == "fees");
  for (const BudgetWork& work : before->work) CHECK(work.estimate.operation == "opening up");
  barred.post("{ do = \"plan\", date = 2025-06-05, vehicle = \"pip\", name = \"battery\", amount = 45.00 }");
  const auto after = budget_of(barred.book(), "pip");
  REQUIRE(after);
  CHECK(after->cash_to_come - before->cash_to_come == Money::of_minor(4500));
  CHECK(expected_of(*after, barred.book().currency()).to_complete == after->cash_to_come);
  CHECK(expected_of(*after, barred.book().currency()).selling_costs ==
        Money::of_minor(std::llround(before->job.sale.costs.mean() * 100)));
}

namespace {

// What is still to come on pip, in cash and in own hours, by the lines that its budget has.
std::string to_come(Pip& pip) {
  const auto budget = budget_of(pip.book(), "pip");
  REQUIRE(budget);
  std::string all = shown(budget->cash_to_come) + fmt::format(", {:g} hours:", budget->hours_to_come);
  for (const BudgetLine& line : budget->lines)
    if (!line.finished()) all += " " + line.estimate.what + " " + shown(line.to_come);
  for (const BudgetWork& work : budget->work)
    if (!work.finished()) all += fmt::format(", {} {:g} h", work.estimate.operation, work.to_come);
  return all;
}
const std::string both_without = appraisal::with(certain_job(), "correction = \"reseal\"\n", "");

}  // namespace

// Fees 100 are to come whatever is done with the car. Opening it up takes 10 and 2 hours whatever the cause; reseal 118
// and 7 + 2 hours, the wing 55 and 2.
TEST_CASE("nobody opens up a car of which no cause that is left can be put right", "[answers][budget]") {
  {
    Pip none(both_without);
    CHECK(to_come(none) == "100.00, 0 hours: fees 100.00");
  }
  {
    Pip failed(certain_job());
    failed.post(finding("failed = [\"reseal\"]"));
    CHECK(to_come(failed) == "100.00, 0 hours: fees 100.00");
  }
  {
    Pip ruled_out(certain_job());
    ruled_out.post(finding("ruled_out = [\"gasket\"]"));
    CHECK(to_come(ruled_out) == "100.00, 0 hours: fees 100.00");
  }
  // The likeliest cannot be put right, another one can: it is opened up to see which.
  Pip pump_likelier(appraisal::with(certain_job(), "odds = 3", "odds = 0.5"));
  CHECK(to_come(pump_likelier) == "110.00, 2 hours: fees 100.00 opening up 10.00, opening up 2 h");
  Pip either(certain_job());
  CHECK(to_come(either) ==
        "283.00, 13 hours: fees 100.00 opening up 10.00 set 118.00 wing 55.00, opening up 2 h, operation 1 7 "
        "h, "
        "operation 2 2 h, wing 2 h");
}

// Rot 150 and 7 hours.
TEST_CASE("a trouble that the appraisal is sure of counts as one that was found", "[answers][budget]") {
  const std::string sure =
      appraisal::with(appraisal::small_job_with("works = 0.8\n", ""), "chance = 0.2", "chance = 1");
  Pip there(sure);
  CHECK(to_come(there) ==
        "433.00, 20 hours: fees 100.00 opening up 10.00 set 118.00 rot 150.00 wing 55.00, opening up 2 h, "
        "operation 1 7 h, operation 2 2 h, rot 7 h, wing 2 h");
  Pip barred(appraisal::with(sure, "takes_off = 30\n", "takes_off = 30\nbars_road = true\n"));
  CHECK(why(barred) == "trouble bars: rot");
  CHECK(to_come(barred) == "100.00, 0 hours: fees 100.00");
}

TEST_CASE("a part under the name of a fault, of the fees or of another part adds up to what all of them cost",
          "[answers][budget]") {
  using appraisal::with;
  // 118 for the set and 55 for the wing; 100 of fees and 118.
  Pip fault(with(certain_job(), "name = \"wing\"", "name = \"set\""));
  CHECK(to_come(fault) ==
        "283.00, 13 hours: fees 100.00 opening up 10.00 set 173.00, opening up 2 h, operation 1 7 h, "
        "operation 2 2 "
        "h, set 2 h");
  Pip fees(with(certain_job(), "name = \"set\"", "name = \"fees\""));
  CHECK(to_come(fees) ==
        "283.00, 13 hours: fees 218.00 opening up 10.00 wing 55.00, opening up 2 h, operation 1 7 h, "
        "operation 2 2 "
        "h, wing 2 h");
  // One at 118 and two at 40.
  Pip twice(with(certain_job(), "new = 118 }]", "new = 118 }, { name = \"set\", qty = 2, new = 40 }]"));
  CHECK(to_come(twice) ==
        "363.00, 13 hours: fees 100.00 opening up 10.00 set 198.00 wing 55.00, opening up 2 h, operation 1 7 "
        "h, "
        "operation 2 2 h, wing 2 h");
}
