// Published cases of standard costing. Source: M. Franklin, P. Graybeal and D. Cooper, Principles of
// Accounting, volume 2: Managerial Accounting (OpenStax, 2019), sections 8.2 (materials) and 8.3 (labour);
// read in the source. The book prints unfavourable variances as positive, as here. Exact: no tolerance.
#include <catch2/catch.hpp>

#include "reports/variance.h"

using namespace nonrunner;
using namespace nonrunner::reports;

namespace {

Money usd(const char* text) { return Money::parse(text, Currency()); }
Price price(const char* text) { return Price::parse(text, Currency()); }

}  // namespace

TEST_CASE("material variances of section 8.2", "[reports][outside]") {
  // 0.25 lb at 7.00 expected, 0.50 lb at 9.00 used.
  const Variance v = variance(Quantity::parse("0.25"), price("7"), Quantity::parse("0.5"), usd("4.50"));
  CHECK(v.price == usd("1.00"));
  CHECK(v.quantity == usd("1.75"));
  CHECK(v.total == usd("2.75"));
  // 20 lb bought at 6.00 and at 9.00 where 7.00 was expected.
  CHECK(variance(Quantity::parse("20"), price("7"), Quantity::parse("20"), usd("120")).price == usd("-20"));
  CHECK(variance(Quantity::parse("20"), price("7"), Quantity::parse("20"), usd("180")).price == usd("40"));
  // 0.20 lb used where 0.25 lb was expected.
  CHECK(variance(Quantity::parse("0.25"), price("7"), Quantity::parse("0.2"), usd("1.40")).quantity ==
        usd("-0.35"));
}

TEST_CASE("labour variances of section 8.3", "[reports][outside]") {
  // 0.10 h at 8.00 expected, 0.20 h at 9.50 worked.
  const Variance v = variance(Hours::parse("0.1"), price("8"), Hours::parse("0.2"), usd("1.90"));
  CHECK(v.price == usd("0.30"));
  CHECK(v.quantity == usd("0.80"));
  CHECK(v.total == usd("1.10"));
  CHECK(variance(Hours::parse("0.1"), price("8"), Hours::parse("0.1"), usd("0.75")).price == usd("-0.05"));
  CHECK(variance(Hours::parse("0.1"), price("8"), Hours::parse("0.1"), usd("0.95")).price == usd("0.15"));
  CHECK(variance(Hours::parse("0.1"), price("8"), Hours::parse("0.05"), usd("0.40")).quantity ==
        usd("-0.40"));
}
