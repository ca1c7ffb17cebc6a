#include "exact/spread.h"

#include <algorithm>
#include <boost/multiprecision/cpp_int.hpp>
#include <catch2/catch.hpp>
#include <functional>
#include <string>
#include <vector>

#include "exact/decimal.h"
#include "exact/ends.h"

using namespace nonrunner;

namespace {

using Units = std::vector<std::int64_t>;
using Wide = boost::multiprecision::int128_t;

Units units(const std::vector<Money>& shares) {
  Units all;
  for (const Money share : shares) all.push_back(share.minor());
  return all;
}

// The slow obvious way for a total and weights that are not negative. Whole parts by counting up; then, unit
// by unit, to whoever lacks most of the next unit's worth, the earlier one where two lack the same. All in
// units of 1 / sum.
Units slowly(std::int64_t total, const Units& weights) {
  std::int64_t sum = 0, given = 0;
  for (const std::int64_t weight : weights) sum += weight;
  Units shares(weights.size(), 0);
  for (std::size_t i = 0; i < weights.size(); ++i)
    while ((shares[i] + 1) * sum <= total * weights[i]) ++shares[i], ++given;
  std::vector<bool> served(weights.size(), false);
  for (; given < total; ++given) {
    std::size_t next = weights.size();
    for (std::size_t i = 0; i < weights.size(); ++i) {
      if (served[i]) continue;
      const auto lacks = [&](std::size_t j) { return total * weights[j] - shares[j] * sum; };
      if (next == weights.size() || lacks(i) > lacks(next)) next = i;
    }
    served[next] = true;
    ++shares[next];
  }
  return shares;
}

// Every list of up to `most` weights out of `choice`, except those that add up to zero.
void each_list(const Units& choice, std::size_t most, Units& list,
               const std::function<void(const Units&)>& visit) {
  if (std::any_of(list.begin(), list.end(), [](std::int64_t weight) { return weight != 0; })) visit(list);
  if (list.size() == most) return;
  for (const std::int64_t weight : choice) {
    list.push_back(weight);
    each_list(choice, most, list, visit);
    list.pop_back();
  }
}

std::string shown(std::int64_t total, const Units& weights) {
  std::string text = std::to_string(total) + " over";
  for (const std::int64_t weight : weights) text += " " + std::to_string(weight);
  return text;
}

}  // namespace

TEST_CASE("every total to 200 is shared out as the slow obvious way does it, and so is its mirror image",
          "[exact]") {
  std::size_t cases = 0;
  std::string apart;
  Units list;
  each_list({0, 1, 2, 3, 7}, 4, list, [&](const Units& weights) {
    for (std::int64_t total = 0; total <= 200; ++total, ++cases) {
      const Units expected = slowly(total, weights);
      if (apart.empty() && units(spread(Money::of_minor(total), weights)) != expected)
        apart = shown(total, weights);
      Units mirrored = expected;
      for (std::int64_t& share : mirrored) share = -share;
      if (apart.empty() && units(spread(Money::of_minor(-total), weights)) != mirrored)
        apart = shown(-total, weights);
    }
  });
  CHECK(apart == "");
  CHECK(cases == 776 * 201);  // 5 + 25 + 125 + 625 lists, less the four of nothing but zeros
}

TEST_CASE("no unit is lost and no share is a unit away, with large and with negative weights", "[exact]") {
  std::string apart;
  const std::int64_t huge = 4'000'000'000'000'000'000;
  for (const Units& weights : {Units{huge, huge}, Units{huge, 1, huge - 1}, Units{5, -2}, Units{-2, 5, 4},
                               Units{-3}, Units{-3, -4, 1}, Units{1'000'000'007, 998'244'353, 2}})
    for (std::int64_t total = -200; total <= 200; ++total) {
      const Units shares = units(spread(Money::of_minor(total), weights));
      Wide sum = 0, given = 0;
      for (const std::int64_t weight : weights) sum += weight;
      bool good = true;
      for (std::size_t i = 0; i < shares.size(); ++i) {
        given += shares[i];
        const Wide off = Wide(shares[i]) * sum - Wide(total) * weights[i];
        good = good && abs(off) < abs(sum);
      }
      if (apart.empty() && (!good || given != total)) apart = shown(total, weights);
    }
  CHECK(apart == "");
}

TEST_CASE("a total without anything to share it over is refused, and nothing is shared out over anything",
          "[exact]") {
  CHECK_THROWS_WITH(spread(Money::of_minor(5), {}),
                    "nothing to share 5 minor units over: the weights add up to 0");
  CHECK_THROWS_WITH(spread(Money::of_minor(5), {3, -3}),
                    "nothing to share 5 minor units over: the weights add up to 0");
  CHECK(units(spread(Money{}, {3, -3})) == Units{0, 0});
  const std::int64_t huge = 4'000'000'000'000'000'000;
  CHECK_THROWS_WITH(spread(Money::of_minor(5), {huge, 1 - huge}),
                    "a share is too large for the book: expected at most 1000000000000000 minor units");
  CHECK(spread(Money{}, {}).empty());
}

TEST_CASE("what is given back in steps adds up to the whole, whatever the steps", "[exact]") {
  std::string apart;
  for (std::int64_t amount = -200; amount <= 200; ++amount)
    for (std::int64_t all = 1; all <= 7; ++all)
      for (unsigned steps = 0; steps < (1u << (all - 1)); ++steps) {  // a bit: a step ends after this piece
        std::int64_t before = 0, given = 0;
        for (std::int64_t piece = 1; piece <= all; ++piece) {
          if (piece < all && (steps >> (piece - 1) & 1u) == 0) continue;
          given += step_share(Money::of_minor(amount), all, before, piece - before).minor();
          before = piece;
        }
        if (apart.empty() && given != amount) apart = std::to_string(amount) + " in " + std::to_string(all);
      }
  CHECK(apart == "");
}

TEST_CASE(
    "of ten cents of tax on three pieces the first return gives three, the next four, the last takes the "
    "rest",
    "[exact]") {
  const Money tax = Money::of_minor(10);
  CHECK(step_share(tax, 3000, 0, 1000).minor() == 3);
  CHECK(step_share(tax, 3000, 1000, 1000).minor() == 4);
  CHECK(step_share(tax, 3000, 2000, 1000).minor() == 3);
  CHECK(step_share(tax, 3000, 0, 3000).minor() == 10);
}
