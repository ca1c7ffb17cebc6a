// Rounding and apportioning against published tables.
#include <catch2/catch.hpp>

#include "exact/decimal.h"
#include "exact/spread.h"

using namespace nonrunner;

namespace {

std::int64_t rounded(const std::string& text, int places_in, std::int64_t range, Rounding rounding) {
  const auto units = scaled(text, places_in);
  REQUIRE(units);
  return scaled(*units, 1, range, rounding);
}

std::vector<std::int64_t> shares(std::int64_t total, const std::vector<std::int64_t>& weights) {
  std::vector<std::int64_t> all;
  for (const Money share : spread(Money::of_minor(total), weights)) all.push_back(share.minor());
  return all;
}

}  // namespace

TEST_CASE("the seven roundings to a whole number are those of the published table", "[exact][outside]") {
  // Java platform documentation, java.math.RoundingMode, summary table (read in the source).
  using Row = std::tuple<std::string, int, int, int, int, int, int, int>;
  const auto [input, half_even, half_away, half_towards_zero, away, towards_zero, ceiling, floor] =
      GENERATE(values<Row>({
          {"5.5", 6, 6, 5, 6, 5, 6, 5},
          {"2.5", 2, 3, 2, 3, 2, 3, 2},
          {"1.6", 2, 2, 2, 2, 1, 2, 1},
          {"1.1", 1, 1, 1, 2, 1, 2, 1},
          {"1.0", 1, 1, 1, 1, 1, 1, 1},
          {"-1.0", -1, -1, -1, -1, -1, -1, -1},
          {"-1.1", -1, -1, -1, -2, -1, -1, -2},
          {"-1.6", -2, -2, -2, -2, -1, -1, -2},
          {"-2.5", -2, -3, -2, -3, -2, -2, -3},
          {"-5.5", -6, -6, -5, -6, -5, -5, -6},
      }));
  CAPTURE(input);
  CHECK(rounded(input, 1, 10, Rounding::half_even) == half_even);
  CHECK(rounded(input, 1, 10, Rounding::half_away) == half_away);
  CHECK(rounded(input, 1, 10, Rounding::half_towards_zero) == half_towards_zero);
  CHECK(rounded(input, 1, 10, Rounding::away) == away);
  CHECK(rounded(input, 1, 10, Rounding::towards_zero) == towards_zero);
  CHECK(rounded(input, 1, 10, Rounding::ceiling) == ceiling);
  CHECK(rounded(input, 1, 10, Rounding::floor) == floor);
}

TEST_CASE("rules A and B of ISO 80000-1 annex B, and rounding once", "[exact][outside]") {
  // ISO 80000-1:2009, annex B (from memory, recomputed). Inputs in thousandths, results in units of the
  // range.
  struct Row {
    const char* input;
    std::int64_t range_thousandths, a, b;
  };
  const auto [input, range, a, b] = GENERATE(values<Row>({
      {"12.223", 100, 122, 122},
      {"12.251", 100, 123, 123},
      {"12.275", 100, 123, 123},
      {"12.25", 100, 122, 123},
      {"12.35", 100, 124, 124},
      {"1223.3", 10000, 122, 122},
      {"1225.1", 10000, 123, 123},
      {"1227.5", 10000, 123, 123},
      {"1225.0", 10000, 122, 123},
      {"1235.0", 10000, 124, 124},
  }));
  CAPTURE(input);
  CHECK(rounded(input, 3, range, Rounding::half_even) == a);
  CHECK(rounded(input, 3, range, Rounding::half_away) == b);
  // Once only: 12.254 is 12.3; by way of 12.25 it would be 12.2.
  CHECK(rounded("12.254", 3, 100, Rounding::half_even) == 123);
}

TEST_CASE("cents are rounded from decimals, so that the traps of binary numbers do not exist", "[exact]") {
  using Row = std::tuple<std::string, int, int, int>;
  const auto [input, half_even, half_away, floor] = GENERATE(values<Row>({
      {"0.005", 0, 1, 0},
      {"0.015", 2, 2, 1},
      {"0.025", 2, 3, 2},
      {"1.005", 100, 101, 100},
      {"2.675", 268, 268, 267},
      {"-0.005", 0, -1, -1},
      {"-0.015", -2, -2, -2},
      {"99.995", 10000, 10000, 9999},
      {"1234.565", 123456, 123457, 123456},
  }));
  CAPTURE(input);
  CHECK(rounded(input, 3, 10, Rounding::half_even) == half_even);
  CHECK(rounded(input, 3, 10, Rounding::half_away) == half_away);
  CHECK(rounded(input, 3, 10, Rounding::floor) == floor);
}

TEST_CASE("published apportionments by largest remainders", "[exact][outside]") {
  using V = std::vector<std::int64_t>;
  // Homework solution, Hamilton's method, 42 seats (read in the source).
  CHECK(shares(42, {247000, 185000, 459000, 400000, 413000}) == V{6, 5, 11, 10, 10});
  // Census of 1790, 60 seats, Hamilton's method; an electoral encyclopaedia (read in the source).
  CHECK(shares(60, {630560, 475327, 432879, 353523, 331589, 278514, 236841, 206236, 179570, 141822, 85533,
                    70835, 68705, 68446, 55540}) == V{11, 8, 7, 6, 6, 5, 4, 3, 3, 2, 1, 1, 1, 1, 1});
  // Our own: ties to the earlier line, a weight of zero gets nothing, weights with decimals.
  CHECK(shares(10000, {1, 1, 1}) == V{3334, 3333, 3333});
  CHECK(shares(51237, {5000, 7500, 250, 2000}) == V{17369, 26053, 868, 6947});
  CHECK(shares(9999, {3, 0, 2, 1}) == V{5000, 0, 3333, 1666});
}
