#include "resale/asking_price.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace nonrunner::resale;
using Catch::Matchers::WithinAbs;

namespace {

struct Result {
  double got = 0, days = 0, net = 0, offers = 0;
  std::vector<double> sold;  // by stage
};

// The slow obvious way: every car (S), every day on which a buyer could come at each of the prices, played to
// its end. `from`: only cars that are still there on that day count, and only what comes after it.
Result play(const Market& market, const std::vector<double>& prices, const std::vector<int>& weeks,
            int from = 0) {
  Result result;
  result.sold.resize(prices.size());
  double mean = 0, there = 0;
  for (std::size_t d = 0; d < market.sold_on_day.size(); ++d)
    mean += static_cast<double>(d + 1) * market.sold_on_day[d];
  const auto end = [&](double chance, double got, double days) {
    if (days <= from) return;
    there += chance;
    result.got += chance * got;
    result.days += chance * (days - from);
  };
  const double share = 1.0 / static_cast<double>(market.fetches.size());
  for (const double s : market.fetches) {
    double chance = share;
    int day = 0;
    for (std::size_t i = 0; i < prices.size(); ++i) {
      const double got = prices[i] * market.realised;
      if (s >= got)
        for (int d = 1; d <= weeks[i] * 7 && d <= static_cast<int>(market.sold_on_day.size()); ++d) {
          const double sold = chance * market.sold_on_day[static_cast<std::size_t>(d - 1)];
          end(sold, got, day + d);
          result.sold[i] += sold;
        }
      double within = 0;
      for (int d = 1; d <= weeks[i] * 7 && d <= static_cast<int>(market.sold_on_day.size()); ++d)
        within += market.sold_on_day[static_cast<std::size_t>(d - 1)];
      if (s >= got) chance *= 1 - within;
      day += weeks[i] * 7;
    }
    end(chance, s * market.realised, day + mean);
    result.offers += chance;
  }
  result.got /= there, result.days /= there;
  result.net = result.got * (1 - market.rate) - result.days * market.per_day;
  return result;
}

Market some_market(std::mt19937& random) {
  Market market;
  std::normal_distribution<double> fetches(3200, 250);
  for (int i = 0; i < 40; ++i) market.fetches.push_back(std::abs(fetches(random)) + 100);
  double total = 0;
  const std::size_t days = 10 + random() % 30;
  for (std::size_t d = 0; d < days; ++d)
    market.sold_on_day.push_back(static_cast<double>(1 + random() % 9)), total += market.sold_on_day.back();
  for (double& each : market.sold_on_day) each /= total;
  market.realised = 0.90 + 0.001 * static_cast<double>(random() % 100);
  market.per_day = static_cast<double>(random() % 12);
  market.rate = random() % 2 == 0 ? 0 : 0.04;
  return market;
}

}  // namespace

TEST_CASE("a plan of prices goes as every car played day by day goes", "[resale]") {
  std::mt19937 random(31);
  for (int round = 0; round < 40; ++round) {
    const Market market = some_market(random);
    std::vector<double> prices;
    std::vector<int> weeks;
    double price = 3900;
    for (std::size_t i = 0; i <= random() % 3; ++i) {
      prices.push_back(price);
      price -= 50 + static_cast<double>(random() % 500);
      weeks.push_back(1 + static_cast<int>(random() % 5));
    }
    const AskingPlan plan = played(market, prices, weeks);
    const Result slow = play(market, prices, weeks);
    CHECK_THAT(plan.expected_got, WithinAbs(slow.got, 1e-7));
    CHECK_THAT(plan.expected_days, WithinAbs(slow.days, 1e-9));
    CHECK_THAT(plan.expected_net, WithinAbs(slow.net, 1e-7));
    CHECK_THAT(plan.best_offer_chance, WithinAbs(slow.offers, 1e-12));
    CHECK_THAT(plan.worth.at(0), WithinAbs(plan.expected_net, 1e-7));
    double chances = plan.best_offer_chance;
    for (std::size_t i = 0; i < prices.size(); ++i) {
      CHECK_THAT(plan.stages[i].chance, WithinAbs(slow.sold[i], 1e-12));
      chances += plan.stages[i].chance;
    }
    CHECK_THAT(chances, WithinAbs(1, 1e-12));
    for (std::size_t day = 0; day < plan.worth.size(); day += 5)
      CHECK_THAT(plan.worth[day], WithinAbs(play(market, prices, weeks, static_cast<int>(day)).net, 1e-6));
  }
}

TEST_CASE("no plan that the slow way tries beats the one that is proposed", "[resale]") {
  std::mt19937 random(8);
  for (int round = 0; round < 4; ++round) {
    const Market market = some_market(random);
    const AskingPlan best = asking_plan(market);
    REQUIRE(best.stages.size() <= 3);
    for (std::size_t i = 1; i < best.stages.size(); ++i) {
      CHECK(best.stages[i].ask < best.stages[i - 1].ask);
      CHECK(best.stages[i].from_day == best.stages[i - 1].until_day);
    }
    for (int tries = 0; tries < 400; ++tries) {
      std::vector<double> prices;
      std::vector<int> weeks;
      double price = 4200;
      for (std::size_t i = 0; i <= random() % 3; ++i) {
        price -= 50 * static_cast<double>(1 + random() % 12);
        prices.push_back(price);
        weeks.push_back(1 + static_cast<int>(random() % 5));
      }
      CHECK(play(market, prices, weeks).net <=
            best.expected_net + 12);  // half a round step, since prices are round
    }
  }
}

TEST_CASE("a car whose price is known is advertised so that haggling ends there, and never dropped",
          "[resale]") {
  const Market market{{3000}, {0.2, 0.3, 0.5}, 0.75, 4, 0};
  const AskingPlan plan = asking_plan(market);
  REQUIRE(plan.stages.size() == 1);
  CHECK(plan.stages[0].ask == 4000);
  CHECK(plan.stages[0].got == 3000);
  CHECK_THAT(plan.stages[0].chance, WithinAbs(1, 1e-12));
  CHECK_THAT(plan.expected_days, WithinAbs(0.2 + 0.6 + 1.5, 1e-12));
  CHECK_THAT(plan.expected_net, WithinAbs(3000 - 4 * 2.3, 1e-9));
}

TEST_CASE("where only offers tell what it fetches, the price asked is one that one in four pays",
          "[resale]") {
  // As of three comparables: half of it within 400 of 3,000, with long tails either way.
  Market market;
  for (int i = 1; i < 100; ++i)
    market.fetches.push_back(std::max(1.0, 3000 + 400 * std::tan(3.14159265 * (i / 100.0 - 0.5))));
  market.sold_on_day.assign(30, 1 / 30.0);
  market.realised = 0.92;
  market.per_day = 3;
  const AskingPlan plan = asking_plan(market);
  CHECK(plan.for_offers);
  REQUIRE(plan.stages.size() == 1);
  const double ask = plan.stages[0].ask;
  const auto payers =
      std::count_if(market.fetches.begin(), market.fetches.end(), [&](double s) { return s >= ask * 0.92; });
  CHECK(payers >= 25);
  CHECK(plan.stages[0].chance > 0.05);
  CHECK(plan.stages[0].until_day == 14);  // in the first week fewer than one in four of them have come
  // The slow way: no round price that so many pay brings more, however long it stands from then on.
  for (double price = 1000; price <= 6000; price += 50)
    for (int weeks = 2; weeks <= 5; ++weeks)
      if (std::count_if(market.fetches.begin(), market.fetches.end(),
                        [&](double s) { return s >= price * 0.92; }) >= 25)
        CHECK(play(market, {price}, {weeks}).net <= plan.expected_net + 25);
  // Told well what it fetches, it is advertised and dropped.
  for (double& each : market.fetches) each = 3000 + (each - 3000) / 20;
  CHECK_FALSE(asking_plan(market).for_offers);
}

TEST_CASE("dearer days mean a lower first price and a quicker sale", "[resale]") {
  Market market;
  for (int i = 0; i < 99; ++i) market.fetches.push_back(2800 + 8 * i);
  market.sold_on_day.assign(40, 1 / 40.0);
  market.realised = 0.94;
  double ask = 1e9, days = 1e9;
  for (const double per_day : {0.5, 3.0, 12.0, 60.0}) {
    market.per_day = per_day;
    const AskingPlan plan = asking_plan(market);
    CHECK(plan.stages[0].ask <= ask);
    CHECK(plan.expected_days <= days + 1e-9);
    ask = plan.stages[0].ask, days = plan.expected_days;
  }
  CHECK(ask < 3300);
}

TEST_CASE("the day of parting out is the first on which the unsold car is worth less than its pieces",
          "[resale]") {
  Market market;
  for (int i = 0; i < 60; ++i) market.fetches.push_back(900 + 25 * i);
  market.sold_on_day.assign(21, 1 / 21.0);
  market.realised = 0.93;
  market.per_day = 3;
  const AskingPlan plan = asking_plan(market);
  const double last = plan.worth.back();
  REQUIRE(last < plan.worth.front());
  CHECK_FALSE(part_out_day(plan, last - 500));
  CHECK(part_out_day(plan, plan.worth.front() + 1) == 0);
  const double between = (plan.worth.front() + last) / 2;
  const auto day = part_out_day(plan, between);
  REQUIRE(day);
  REQUIRE(*day > 0);
  CHECK(plan.worth[static_cast<std::size_t>(*day)] < between);
  for (std::size_t before = 0; before < static_cast<std::size_t>(*day); ++before)
    CHECK(plan.worth[before] >= between);
}

TEST_CASE("standing unsold at a price makes the values that would have sold less likely", "[resale]") {
  Market market;
  for (int i = 0; i < 1000; ++i) market.fetches.push_back(2000 + i);
  market.sold_on_day = {0.1, 0.2, 0.3, 0.4};
  market.realised = 0.9;
  // At 2750 (2475 got) for two days: values from 2475 up keep 0.7 of their weight; then at 2500 (2250) for
  // one: 0.9.
  const Market after = after_standing(market, {{2750, 2}, {2500, 1}});
  REQUIRE(after.fetches.size() == 1000);
  const auto share_below = [&](double s) {
    double count = 0;
    for (const double each : after.fetches) count += each < s ? 1 : 0;
    return count / 1000;
  };
  const double low = 250, middle = 225 * 0.9, high = 525 * 0.9 * 0.7, all = low + middle + high;
  CHECK_THAT(share_below(2250), WithinAbs(low / all, 0.0011));
  CHECK_THAT(share_below(2475), WithinAbs((low + middle) / all, 0.0011));
  // Standing for no time says nothing; standing for ever at the lowest price leaves the lowest value.
  CHECK(after_standing(market, {{2750, 0}}).fetches == market.fetches);
  CHECK(after_standing(market, {{2000, 30}}).fetches.back() == 2000);
}
