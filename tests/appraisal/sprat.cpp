// The sample job sprat against figures worked out beforehand by another program: expected values to the cent,
// sampled ones within 0.005 on a chance and 15 on money.
#include <catch2/catch.hpp>
#include <functional>

#include "appraisal/jobs.h"
#include "appraisal/source.h"

using namespace nonrunner;
using namespace nonrunner::appraisal;
using Catch::Matchers::WithinAbs;

namespace {
const Job& sprat() {
  static const Job job = job_at("sample-jobs/sprat/job.toml");
  return job;
}
const Appraisal& with_its_aim() {
  static const Appraisal a = appraised(sprat());
  return a;
}
const Appraisal& with_no_aim() {
  static const Appraisal a = [] {
    Job job = sprat();
    job.aims[Aim::profit] = 0;
    return appraised(job);
  }();
  return a;
}
}  // namespace

TEST_CASE("sprat: every fix has its gain, the best ones are made and two faults are left", "[appraisal]") {
  const Job& job = sprat();
  const Courses courses(job, job.sound->mean());
  const std::vector<std::vector<std::string>> gains = {{"0.41"},
                                                       {"-8.45", "34.55"},
                                                       {"6.43"},
                                                       {"-16.40", "88.86", "-231.72"},
                                                       {"41.72", "-149.45"},
                                                       {"23.79", "10.82"},
                                                       {"-78.35"},
                                                       {"-149.89", "-49.60"}};
  const std::vector<int> made = {0, 1, 0, 1, 0, 0, -1, -1};
  REQUIRE(courses.fixes().choices.size() == gains.size());
  for (std::size_t i = 0; i < gains.size(); ++i) {
    const FixChoice& choice = courses.fixes().choices[i];
    REQUIRE(choice.gains.size() == gains[i].size());
    for (std::size_t k = 0; k < gains[i].size(); ++k) CHECK(cents(choice.gains[k]) == gains[i][k]);
    CHECK((choice.fix ? static_cast<int>(*choice.fix) : -1) == made[i]);
  }
  CHECK(fmt::format("{:.4f}", courses.pace()) == "1.1667");
  CHECK(cents(courses.sound()) == "3633.33");
  CHECK(cents(courses.fixes().still_off) == "391.83");
  CHECK(cents(courses.fixes().cash) == "518.00");
  CHECK(cents(courses.fixes().hours * courses.pace()) == "7.97");
}

TEST_CASE("sprat: every correction has its expected cash and own hours", "[appraisal]") {
  const Job& job = sprat();
  const Courses courses(job, job.sound->mean());
  const std::vector<std::pair<std::string, std::string>> expected = {
      {"55.69", "2.68"}, {"204.32", "8.57"}, {"438.07", "19.23"}, {"435.00", "1.94"}, {"889.15", "27.09"}};
  for (std::size_t i = 0; i < expected.size(); ++i) {
    CHECK(cents(courses.correction(3, i).cash) == expected[i].first);
    CHECK(cents(courses.correction(3, i).hours * courses.pace()) == expected[i].second);
  }
  CHECK(cents(courses.opening_hours(0)) == "1.94");
  CHECK(cents(courses.opening_hours(0) * job.shop.hour + job.deal.fees.mean()) == "195.89");
}

TEST_CASE("sprat: every course of every cause has its expected profit", "[appraisal]") {
  const std::vector<std::array<std::string, 4>> expected = {{"2339.66", "1363.00", "453.29", "337.16"},
                                                            {"2064.60", "1113.00", "453.29", "337.16"},
                                                            {"1530.69", "613.00", "453.29", "337.16"},
                                                            {"982.55", "333.00", "453.29", "337.16"}};
  const Appraisal& a = with_its_aim();
  REQUIRE(a.causes.size() == 4);
  for (std::size_t c = 0; c < 4; ++c) {
    for (std::size_t k = 0; k < 4; ++k) CHECK(cents(a.causes[c].profit[k]) == expected[c][k]);
    CHECK(a.causes[c].best == Course::put_right);
  }
  CHECK_THAT(a.causes[0].probability, WithinAbs(0.22, 1e-15));
  CHECK_THAT(a.causes[3].probability, WithinAbs(0.14, 1e-15));
}

TEST_CASE("sprat: bought now it brings so much, and the walk-away price is set by the aim for profit",
          "[appraisal]") {
  const Appraisal& a = with_its_aim();
  CHECK(cents(a.asked.expected.profit) == "146.21");
  CHECK(cents(a.asked.expected.cash_profit) == "616.39");
  CHECK(cents(a.asked.expected.own_hours) == "23.51");
  CHECK(cents(a.walk_away.by[Aim::profit]) == "1096.20");
  CHECK(cents(a.walk_away.by[Aim::per_hour]) == "1549.19");
  CHECK(cents(a.walk_away.price) == "1096.20");
  CHECK(a.walk_away.binding == Aim::profit);
  CHECK(a.verdict == Verdict::offer_less);
  CHECK(cents(a.plan.decide_now) == "0.00");
  CHECK(cents(a.plan.best) == "0.43");
}

TEST_CASE("sprat: the risk is as another program sampled it", "[appraisal]") {
  const Appraisal& a = with_its_aim();
  CHECK_THAT(a.asked.risk.loss_chance, WithinAbs(0.059, 0.005));
  const std::array<double, 5> quantiles = {-34, 409, 673, 872, 1095};
  for (std::size_t i = 0; i < 5; ++i) CHECK_THAT(a.asked.risk.cash_profit[i], WithinAbs(quantiles[i], 15));
  CHECK_THAT(*a.walk_away.by[Aim::loss_chance], WithinAbs(1691, 15));
  CHECK_THAT(a.asked.risk.sampled_cash_profit, WithinAbs(a.asked.expected.cash_profit, 0.5));
  CHECK_THAT(a.asked.risk.sampled_profit, WithinAbs(a.asked.expected.profit, 0.5));
}

TEST_CASE("sprat, with nothing aimed at: each test has its worth, and the plan is rolled back to its end",
          "[appraisal][plan]") {
  const Appraisal& a = with_no_aim();
  CHECK(cents(a.plan.decide_now) == "146.21");
  CHECK(cents(a.plan.perfect_information) == "132.03");
  CHECK(cents(a.plan.best) == "222.93");
  const std::vector<std::array<std::string, 3>> worth = {{"4.67", "55.50", "50.83"},
                                                         {"12.33", "56.34", "44.01"},
                                                         {"20.67", "79.33", "58.66"},
                                                         {"25.67", "84.27", "58.60"}};
  REQUIRE(a.plan.tests.size() == 4);
  for (std::size_t t = 0; t < 4; ++t) {
    CHECK(cents(a.plan.tests[t].cost) == worth[t][0]);
    CHECK(cents(a.plan.tests[t].gross) == worth[t][1]);
    CHECK(cents(a.plan.tests[t].net) == worth[t][2]);
  }
  struct Line {
    int depth;
    std::string text;
  };
  std::string written;
  const std::function<void(const PlanStep&, std::size_t)> write = [&](const PlanStep& step,
                                                                      std::size_t depth) {
    for (const PlanStep::Branch& branch : step.branches) {
      const PlanStep& then = branch.step.at(0);
      const std::string act = then.act == Do::test  ? "test: " + a.job.tests[then.which].name
                              : then.act == Do::buy ? "buy"
                                                    : "walk away";
      written +=
          fmt::format("{}{} (chance {:.4f}): {}, worth {:.2f}\n", std::string(2 * depth, ' '),
                      a.job.tests[step.which].outcomes[branch.outcome], branch.chance, act, then.worth);
      write(then, depth + 1);
    }
  };
  REQUIRE(a.plan.steps.act == Do::test);
  CHECK(a.job.tests[a.plan.steps.which].name == "combustion gas in the coolant");
  write(a.plan.steps, 1);
  CHECK(written == R"(  colour changes (chance 0.4048): walk away, worth 0.00
  no change (chance 0.5952): test: turn the crankshaft by hand, worth 409.27
    turns freely (chance 0.9139): buy, worth 447.43
    tight or locked (chance 0.0861): test: hand-pump the cooling system, worth 58.53
      holds (chance 0.2813): test: compression, dry, worth 125.44
        even (chance 0.3846): buy, worth 392.94
        two neighbours low (chance 0.1845): walk away, worth 0.00
        low all over (chance 0.4310): walk away, worth 0.00
      drops, wet outside (chance 0.2814): test: compression, dry, worth 126.40
        even (chance 0.4852): buy, worth 313.43
        two neighbours low (chance 0.1565): walk away, worth 0.00
        low all over (chance 0.3583): walk away, worth 0.00
      drops, dry outside (chance 0.4373): walk away, worth 0.00
)");
  CHECK(a.verdict == Verdict::test_first);
}

TEST_CASE("sprat by comparables and flat priors: the value of a sound one is the least-squares one",
          "[appraisal]") {
  const std::string text =
      with(read_file(std::string(NONRUNNER_SOURCE) + "/sample-jobs/sprat/by-comparables.toml"), "grade = 3\n",
           "grade = 3\nslopes = \"flat\"\n");
  const Job job = job_of(text);
  const SoundValue sound = sound_value_of(job);
  CHECK(cents(sound.mean) == "3712.97");
  REQUIRE(sound.fit);
  CHECK(fmt::format("{:.6f}", sound.fit->realised) == "0.941667");
  CHECK(cents(sound.fit->residual_sd) == "85.94");
  CHECK(cents(sound.fit->price.scale) == "90.23");
  CHECK_THAT(sound.fit->price.df, WithinAbs(6, 1e-9));
  const Appraisal a = appraise(job, sound);
  CHECK(cents(a.asked.expected.profit) ==
        cents(146.21 + 3712.97 - 3633.33));  // all causes are put right, no commission
  CHECK_THAT(a.asked.risk.sampled_cash_profit, WithinAbs(a.asked.expected.cash_profit, 0.5));
}

TEST_CASE("sprat: what a test has shown changes the odds and the price to walk away at", "[appraisal]") {
  Job job = sprat();
  see(job, "combustion gas in the coolant=no change");
  const Appraisal a = appraised(job);
  // Bayes by hand: 0.22 x 0.97, 0.30 x 0.95, 0.34 x 0.12, 0.14 x 0.40 of 0.5952.
  CHECK_THAT(a.causes[0].probability, WithinAbs(0.22 * 0.97 / 0.5952, 1e-12));
  CHECK_THAT(a.causes[1].probability, WithinAbs(0.30 * 0.95 / 0.5952, 1e-12));
  CHECK_THAT(a.causes[2].probability, WithinAbs(0.34 * 0.12 / 0.5952, 1e-12));
  CHECK_THAT(a.causes[3].probability, WithinAbs(0.14 * 0.40 / 0.5952, 1e-12));
  const double profit =
      (0.22 * 0.97 * 2339.66 + 0.30 * 0.95 * 2064.60 + 0.34 * 0.12 * 1530.69 + 0.14 * 0.40 * 982.55) /
          0.5952 -
      195.89;
  CHECK_THAT(*a.walk_away.by[Aim::profit], WithinAbs(profit - 500, 0.02));
  CHECK(a.verdict == Verdict::test_first);
  CHECK(a.plan.tests.size() == 3);
}
