// Amounts, prices, rates, numbers of pieces: what is read, written and read again is the same.
#include "book/events/sell.h"
#include "exact/rate.h"
#include "fuzz/fuzzed.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace nonrunner;
  const std::string text(reinterpret_cast<const char*>(data), size);
  for (const char* code : {"USD", "JPY", "KWD"}) {
    const Currency currency = Currency::of(code);
    fuzzed::answered([&] {
      const Money money = Money::parse(text, currency);
      fuzzed::must(Money::parse(money.plain(currency), currency) == money, "an amount reads back");
      fuzzed::must(is_zero(money - money), "an amount less itself is nothing");
    });
    fuzzed::answered([&] {
      const Price price = Price::parse(text, currency);
      fuzzed::must(Price::parse(price.plain(currency), currency).plain(currency) == price.plain(currency),
                   "a price reads back");
      price.times(Quantity::of(1'500));
    });
    fuzzed::answered([&] { book::commission_of(text, Money::of_minor(123'456), currency); });
  }
  fuzzed::answered([&] {
    const Quantity quantity = Quantity::parse(text);
    fuzzed::must(Quantity::parse(quantity.shown()) == quantity, "a number of pieces reads back");
  });
  fuzzed::answered([&] { Rate::parse(text).of(Money::of_minor(99'999), Rounding::half_away); });
  fuzzed::answered([&] { Currency::of(text); });
  return 0;
}
