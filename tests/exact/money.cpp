#include "exact/money.h"

#include <catch2/catch.hpp>
#include <type_traits>

#include "exact/ends.h"
#include "exact/price.h"
#include "exact/rate.h"
#include "exact/thousandths.h"

using namespace nonrunner;

template <class A, class B>
concept adds_up = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept multiplies = requires(A a, B b) {
  a* b;
};

static_assert(!adds_up<Money, double> && !adds_up<Money, int> && !adds_up<Money, Quantity>);
static_assert(!adds_up<Hours, Quantity> && !adds_up<Hours, Distance>, "hours are not pieces");
static_assert(!multiplies<Money, double>, "a share of an amount needs a Rate, which says how it rounds");
static_assert(!std::is_convertible_v<double, Money> && !std::is_constructible_v<Money, double>);

TEST_CASE("money is read from and written as decimals of its currency", "[exact]") {
  const Currency usd = Currency::of("USD"), jpy = Currency::of("JPY"), kwd = Currency::of("KWD");
  CHECK(Money::parse("1250.5", usd).minor() == 125050);
  CHECK(Money::parse("-18", usd).plain(usd) == "-18.00");
  CHECK(Money::parse("1234567.89", usd).shown(usd) == "1,234,567.89");
  CHECK(Money::parse("1,234,567.89", usd).minor() == 123456789);  // as it is shown
  CHECK(Money::parse("-1,000", usd).minor() == -100000);
  CHECK(Money::parse("-999.00", usd).shown(usd) == "-999.00");
  CHECK(Money::parse("-1999", jpy).shown(jpy) == "-1,999");
  CHECK(Money::parse("0.125", kwd).minor() == 125);
  for (const char* wrong :
       {"",         "-",     ".5",   "5.",     "1.005",    "1e3",      " 1", "1 ",  "1,00", "1,0000",
        "1000,000", "0,125", ",100", "1,,000", "1,000,00", "1.000,00", "+1", "--1", "0x10", "٣"})
    CHECK_THROWS_AS(Money::parse(wrong, usd), Refusal);
  CHECK_THROWS_AS(Money::parse("0.5", jpy), Refusal);
}

TEST_CASE("money beyond the range of a book is refused and never wraps", "[exact]") {
  const Money most = Money::of_minor(Money::limit);
  CHECK_THROWS_AS(most + Money::of_minor(1), Refusal);
  CHECK_THROWS_AS(-most - Money::of_minor(1), Refusal);
  CHECK_THROWS_AS(Money::parse("99999999999999999999", Currency::of("USD")), Refusal);
}

TEST_CASE("a price with three decimals gives an amount rounded half away from zero", "[exact]") {
  const Currency usd;
  CHECK(Price::parse("0.105", usd).times(Quantity::parse("1")).minor() == 11);
  CHECK(Price::parse("-0.105", usd).times(Quantity::parse("1")).minor() == -11);
  CHECK(Price::parse("3.333", usd).times(Quantity::parse("3")).minor() == 1000);
  CHECK(Price::parse("15.75", usd).times(Quantity::parse("2.25")).minor() == 3544);
  CHECK(Price::parse("15.75", usd).plain(usd) == "15.75");
  CHECK(Price::parse("15.755", usd).plain(usd) == "15.755");
}

TEST_CASE("a rate is a fraction or a percentage, and a break-even is rounded up", "[exact]") {
  CHECK(Rate::parse("6.5%") == Rate::parse("0.065"));
  CHECK(Rate::parse("0.05").of(Money::of_minor(325000), Rounding::half_away).minor() == 16250);
  CHECK(Rate::parse("0.03").grossed_up(Money::of_minor(100000)).minor() == 103093);  // 103092.78...
  for (const char* wrong : {"1", "-0.1", "100%", "", "%", "5 %", "0.0000000001"})
    CHECK_THROWS_AS(Rate::parse(wrong), Refusal);
}
