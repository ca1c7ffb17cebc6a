// Five invented cars and one purse, worked out by hand in the comments of their files.
#include "answers/choose.h"

#include <catch2/catch.hpp>

#include "appraisal/jobs.h"

using namespace nonrunner;
using namespace nonrunner::answers;
using appraisal::cents;
using Catch::Matchers::WithinAbs;

namespace {

std::vector<CarToChoose> five() {
  std::vector<CarToChoose> cars;
  for (const char* tag : {"wren", "pip", "tern", "drake", "rook"}) {
    const appraisal::Job job = appraisal::job_at(fmt::format("sample-jobs/five-cars/{}.toml", tag));
    cars.push_back({job, job.deal.asking});
  }
  return cars;
}

std::string tags(const ChooseAnswer& answer, const ChosenSet& set) {
  std::string all;
  for (const std::size_t car : set.cars) all += (all.empty() ? "" : " ") + answer.cars[car].tag;
  return all;
}

}  // namespace

TEST_CASE("each of the five cars comes to what is worked out by hand", "[answers][deciding]") {
  const ChooseAnswer answer = choose(five(), {2600, 30}, 4096);
  const std::vector<std::array<std::string, 3>> expected = {
      {"1250.00", "1550.00", "10.00"}, {"440.00", "1360.00", "15.00"}, {"620.00", "1000.00", "10.00"}};
  for (std::size_t i = 0; i < expected.size(); ++i) {
    REQUIRE(answer.cars[i].is_in_question());
    CHECK(cents(answer.cars[i].takes->profit) == expected[i][0]);
    CHECK(cents(answer.cars[i].takes->cash) == expected[i][1]);
    CHECK(cents(answer.cars[i].takes->hours) == expected[i][2]);
  }
  CHECK(answer.cars[3].verdict == appraisal::Verdict::test_first);
  CHECK(answer.cars[3].first_test == "bar on the crank pulley");
  CHECK_FALSE(answer.cars[3].is_in_question());
  CHECK(answer.cars[4].verdict == appraisal::Verdict::offer_less);
  CHECK(cents(answer.cars[4].walk_away) == "1460.00");
}

TEST_CASE("the best set, the next one, and what more cash or hours would bring", "[answers][deciding]") {
  ChooseAnswer answer = choose(five(), {2500, 30}, 4096);
  CHECK(tags(answer, answer.best) == "wren");  // 1,250; pip and tern are 1,060 for 2,360
  CHECK(tags(answer, *answer.next_best) == "pip tern");
  CHECK(cents(answer.next_best->profit) == "1060.00");
  CHECK(cents(answer.with_more_cash) == "620.00");  // then tern as well, for 2,550
  CHECK(cents(answer.with_more_hours) == "0.00");
  answer = choose(five(), {4000, 30}, 4096);
  CHECK(tags(answer, answer.best) == "wren tern");  // pip would be five hours too many
  CHECK(cents(answer.with_more_hours) == "440.00");
  answer = choose(five(), {std::nullopt, std::nullopt}, 4096);
  CHECK(tags(answer, answer.best) == "wren pip tern");
  CHECK_FALSE(answer.with_more_cash);
}

TEST_CASE("a set that overruns the purse in more than one case in ten has a safer one beside it",
          "[answers][deciding]") {
  const ChooseAnswer answer = choose(five(), {2600, 30}, 16384);
  CHECK(tags(answer, answer.best) == "wren tern");
  // Over where wren's coil costs more than 250 of [100, 200, 300]: beta(3, 3) beyond three quarters,
  // 1 - (10 x^3 - 15 x^4 + 6 x^5) = 0.1035.
  CHECK_THAT(answer.best.over_cash, WithinAbs(0.1035, 0.01));
  REQUIRE(answer.safer);
  CHECK(tags(answer, *answer.safer) == "wren");
  CHECK(answer.best.over_hours == 0);
}

TEST_CASE("the next best set is the best of all others, and there is none where the other is to buy nothing",
          "[answers][deciding]") {
  const ChooseAnswer answer = choose(five(), {4000, 30}, 4096);
  CHECK(tags(answer, *answer.next_best) == "wren pip");  // 1,690; pip and tern are 1,060
  std::vector<CarToChoose> one = five();
  one.resize(1);
  CHECK_FALSE(choose(one, {2600, 30}, 64).next_best);
}

TEST_CASE("a set that overruns the hours in more than one case in ten has a safer one as well",
          "[answers][deciding]") {
  std::vector<CarToChoose> one = five();
  one.erase(one.begin(), one.begin() + 2);
  one.resize(1);
  REQUIRE(one[0].job.vehicle.tag == "tern");
  one[0].job.corrections[0].operations[0].hours = ThreePoint{6, 10, 14};
  const ChooseAnswer answer = choose(one, {std::nullopt, 11.5}, 16384);
  CHECK(tags(answer, answer.best) == "tern");
  // Beyond 5.5 of the 8: 1 - (10 x^3 - 15 x^4 + 6 x^5) at 0.6875.
  CHECK_THAT(answer.best.over_hours, WithinAbs(0.1803, 0.01));
  REQUIRE(answer.safer);
  CHECK(answer.safer->cars.empty());
}

TEST_CASE("what is asked is decided at the price that is given for it", "[answers][deciding]") {
  std::vector<CarToChoose> cars = five();
  cars.erase(cars.begin(), cars.begin() + 4);
  cars[0].price = 1400;  // below the 1,460 at which rook is walked away from
  CHECK(choose(cars, {}, 4096).cars[0].verdict == appraisal::Verdict::buy);
}

TEST_CASE("the highest price below a fee band is the one at which the lower fee counts",
          "[appraisal][deciding]") {
  appraisal::Job job = appraisal::job_at("sample-jobs/five-cars/pip.toml");
  // What is left for price and fee is 2,100 - 50 - 300 - 300 = 1,450: 1,340 with the fee of 110.
  CHECK(cents(appraisal::appraised(job, 64).walk_away.price) == "1340.00");
  job.aims[appraisal::Aim::profit] =
      560;  // 890 is left: 780 with 110 would be below the band, 830 with 60 above it
  CHECK(cents(appraisal::appraised(job, 64).walk_away.price) == "799.99");
}

TEST_CASE("a place that could earn otherwise lowers the profit and nothing else", "[appraisal][deciding]") {
  appraisal::Job job = appraisal::job_at("sample-jobs/five-cars/tern.toml");
  const appraisal::Appraisal with = appraisal::appraised(job, 64);
  job.shop.bay_per_day = 0;
  const appraisal::Appraisal without = appraisal::appraised(job, 64);
  CHECK(cents(without.asked.expected.profit - with.asked.expected.profit) == "80.00");
  CHECK(cents(without.walk_away.price - with.walk_away.price) == "80.00");
  CHECK(without.asked.expected.cash_profit == with.asked.expected.cash_profit);
  CHECK(without.asked.risk.cash_profit == with.asked.risk.cash_profit);
  CHECK(without.asked.cash_needed.expected == with.asked.cash_needed.expected);
}

TEST_CASE("the chance that somebody else buys meanwhile takes off what a test is worth",
          "[appraisal][deciding]") {
  appraisal::Job job = appraisal::job_at("sample-jobs/five-cars/drake.toml");
  appraisal::Appraisal a = appraisal::appraised(job, 64);
  CHECK(cents(a.plan.decide_now) == "150.00");
  CHECK(cents(a.plan.best) == "440.00");
  CHECK(cents(a.plan.tests[0].net) == "290.00");
  CHECK(cents(a.plan.perfect_information) == "350.00");  // half of 1,000 less 150: nobody else counts
  job.tests[0].gone = 0.8;                               // 0.2 x 500 - 10 = 90: decide now
  a = appraisal::appraised(job, 64);
  CHECK(a.verdict == appraisal::Verdict::buy);
  CHECK(cents(a.plan.tests[0].net) == "-60.00");
  job.tests[0].gone = 0;
  CHECK(cents(appraisal::appraised(job, 64).plan.best) == "490.00");
}

TEST_CASE("two cars of one name are refused, and one that has none", "[answers][deciding]") {
  std::vector<CarToChoose> cars = five();
  cars.resize(1);
  cars.push_back(cars.front());
  CHECK_THROWS_WITH(choose(cars, {2600, 30}, 64), "choose: two cars are called wren, expected each once");
  cars.resize(1);
  cars.front().job.vehicle.tag.clear();
  CHECK_THROWS_WITH(choose(cars, {2600, 30}, 64),
                    "choose: a job file without [vehicle] tag, expected one by which the car is called");
}
