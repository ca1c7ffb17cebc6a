// What is appraised, with what is said beside the file, and what a book keeps of it.
#include "answers/appraise.h"

#include <catch2/catch.hpp>

#include "answers/pip.h"
#include "appraisal/jobs.h"
#include "book/events/finding.h"
#include "book/fixture.h"

using namespace nonrunner;
using answers::ToAppraise;

namespace {

const std::string file = appraisal::small_job_with("name = \"gas\"", "name = \"gas = bad\"");

ToAppraise small() {
  return answers::file_to_appraise(file, "pip.toml", nullptr, Currency{}, Day(2026, 5, 2));
}

std::string said_of(ToAppraise& job, const std::vector<std::string>& outcomes) {
  return book::Shop::said([&] { answers::see(job, outcomes); });
}

// The small job with this price asked, kept on a day of June.
void keep_asking(book::Shop& shop, const std::string& price, unsigned day, const std::string& settled = {}) {
  shop.record([&](book::Recording& recording) {
    book::keep_appraisal(recording, "pip", Day(2025, 6, day), 0,
                         {appraisal::small_job_with("asking = 900", "asking = " + price), settled, ""});
  });
}

}  // namespace

TEST_CASE("a test is seen by its name or its number, with an equals sign in the name as well", "[answers]") {
  for (const char* given : {"gas = bad=none", "1=2"}) {
    ToAppraise job = small();
    answers::see(job, {given});
    REQUIRE(job.seen.size() == 1);
    CHECK(job.seen[0].test == "gas = bad");
    CHECK(job.seen[0].outcome == "none");
    CHECK(job.job.tests[0].seen == 1u);
  }
}

TEST_CASE("a test that is seen twice, by name or number, is refused", "[answers]") {
  ToAppraise job = small();
  CHECK(said_of(job, {"1=2", "gas = bad=none"}) ==
        "test \"gas = bad\" stands twice, expected one outcome of it");
}

TEST_CASE("an offer stands in for the price asked", "[answers]") {
  ToAppraise job = small();
  answers::ask(job, Money::parse("775.50", job.job.currency));
  CHECK(job.job.deal.asking == 775.5);
}

TEST_CASE("what is kept is the file as it is, and what a test has shown beside it", "[answers]") {
  book::Shop shop;
  ToAppraise job = small();
  answers::see(job, {"1=2"});
  {
    book::Recording recording(shop.book(), "2026-05-02T10:00:00Z", Day(2026, 5, 2));
    answers::keep(recording, job, Day(2026, 5, 2), "{}");
    recording.keep();
  }
  const ToAppraise again = answers::car_to_appraise(shop.book(), "pip");
  CHECK(again.text == file);
  CHECK(again.job.tests[0].seen == 1u);
  const auto findings = book::findings(shop.book(), "pip");
  REQUIRE(findings.size() == 1);
  REQUIRE(findings[0].facts.size() == 1);
  CHECK(findings[0].facts[0].name == "gas = bad");
  CHECK(findings[0].facts[0].value == "none");
  CHECK(book::Shop::said([&] { answers::car_to_appraise(shop.book(), "gull"); }) ==
        "appraise: no vehicle has the tag \"gull\"; see: nonrunner vehicles");
}

TEST_CASE("a figure changed by hand is kept beside the file, and of a car it is appraised with it",
          "[answers]") {
  const std::string by_hand = "by_hand = [{ at = \"deal.asking\", is = [850] }]\n";
  const ToAppraise of_file = answers::file_to_appraise(file, "pip.toml", nullptr, Currency{}, Day(2026, 5, 2),
                                                       {{"deal.asking", "850"}});
  CHECK(of_file.settled.figures == by_hand);
  CHECK(of_file.text == file);
  book::Shop shop;
  keep_asking(shop, "900", 1);
  const ToAppraise of_car = answers::car_to_appraise(shop.book(), "pip", {{"deal.asking", "850"}});
  CHECK(of_car.settled.figures == by_hand);
  CHECK(of_car.job.deal.asking == 850);
}

TEST_CASE("a test that was made is not left out, another one is", "[answers]") {
  ToAppraise job = small();
  answers::leave_out(job, 0);
  CHECK(job.job.tests[0].spoiled);
  ToAppraise made = small();
  answers::see(made, {"1=2"});
  answers::leave_out(made, 0);
  CHECK_FALSE(made.job.tests[0].spoiled);
}

TEST_CASE("of a line that is gone the close ones are offered, and where there is none nothing is asked",
          "[answers]") {
  answers::LeftBehind left;
  left.name = "gasket set";
  CHECK(answers::told(answers::question_of(left, "pip")) == "nothing");
  left.may_be = {"set"};
  CHECK(answers::told(answers::question_of(left, "pip")) ==
        "appraise: \"gasket set\" of pip is no longer in the estimate; is \"set\" the same?\n"
        "y: the same (same gasket set=set)\nn: it is another line");
  left.may_be = {"set", "set of gaskets"};
  CHECK(answers::told(answers::question_of(left, "pip")) ==
        "appraise: \"gasket set\" of pip is no longer in the estimate; which line is it now?\n"
        "1: set (same gasket set=set)\n2: set of gaskets (same gasket set=set of gaskets)\nn: none of these");
}

TEST_CASE("a line that has another name in what is kept follows, and of a car that is sold nothing is kept",
          "[answers]") {
  answers::Pip pip;
  const ToAppraise job =
      answers::file_to_appraise(appraisal::small_job, "pip.toml", nullptr, Currency{}, Day(2025, 6, 4));
  pip.record([&](book::Recording& recording) {
    answers::keep(recording, job, Day(2025, 6, 4), "{}", {{"wing", "set"}});
  });
  const auto findings = book::findings(pip.book(), "pip");
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].text == "lines that have another name in the appraisal");
  REQUIRE(findings[0].facts.size() == 1);
  CHECK(findings[0].facts[0].what == book::fact::same);
  CHECK(findings[0].facts[0].name == "wing");
  CHECK(findings[0].facts[0].value == "set");
  pip.post("{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1450.00, purse = \"cash\" }");
  CHECK(book::Shop::said([&] { answers::expect_may_be_kept(pip.book(), job); }) ==
        "appraise: not kept: pip was sold on 2025-06-20 (entry 4); to take that back: nonrunner void 4 --why "
        "\"...\"");
}

TEST_CASE("what a test showed that the appraisal kept now does not know stays in words, and that is remarked",
          "[answers]") {
  answers::Pip pip;
  std::vector<std::string> remarks;
  pip.record([&](book::Recording& recording) {
    answers::keep_seen(recording, "pip", Day(2025, 6, 3), {"gas=none", "plugs=oily"});
    remarks = recording.remarks();
  });
  const auto findings = book::findings(pip.book(), "pip");
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].text == "tests seen, before it was decided: gas=none, plugs=oily");
  CHECK(findings[0].facts.empty());
  REQUIRE(remarks.size() == 1);
  CHECK(remarks[0].starts_with("what tests have shown is kept in words only: note: the appraisal of pip"));
}

TEST_CASE("a car that was decided by another appraisal than the last one stands under that", "[answers]") {
  book::KeptAppraisal kept;
  kept.job = "a";
  const std::string bare = answers::named(kept);
  kept.settled = "pace = [1, 1, 1]\n";
  CHECK(answers::named(kept) != bare);

  book::Shop shop;
  keep_asking(shop, "900", 1);
  keep_asking(shop, "800", 2);
  const auto all = book::appraisals_of(shop.book(), "pip");
  REQUIRE(all.size() == 2);
  const auto decided = [&](const std::string& by, book::EntryId bought_by) {
    std::string said;
    shop.record(
        [&](book::Recording& recording) { said = answers::decide_by(recording, "pip", by, bought_by); });
    return said;
  };
  CHECK(decided(answers::named(all[1]), 0).empty());
  CHECK(decided(answers::named(all[0]), 0) ==
        "it was decided by the appraisal of 2025-06-01; another was kept meanwhile, on 2025-06-02");
  CHECK(decided("none of these", 0) == "the appraisal that it was decided by is not in this book");
  const book::EntryId bought =
      shop.post("{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 700.00, purse = \"cash\" }");
  CHECK(decided("none of these", bought) ==
        "the appraisal that it was decided by is not in this book: it stands under that of 2025-06-02");
  CHECK(decided(answers::named(all[0]), bought) ==
        "it was decided by the appraisal of 2025-06-01, and stands under that one; another was kept "
        "meanwhile, on 2025-06-02");
  CHECK(book::appraisal_in_force(shop.book(), "pip")->job == all[0].job);
  // The other way round it is the day of the purchase that both bear.
  CHECK(decided(answers::named(all[1]), bought) ==
        "it was decided by the appraisal of 2025-06-02, and stands under that one; another was kept "
        "meanwhile, on 2025-06-02");
  keep_asking(shop, "750", 5);
  const auto late = book::appraisals_of(shop.book(), "pip").back();
  CHECK(decided(answers::named(late), bought) ==
        "it was decided by the appraisal of 2025-06-05, and stands under that one, though it was bought "
        "before that, on 2025-06-02");
}
