// Amounts, prices, rates, numbers of pieces: what is read, written and read again is the same, also by way of a book.
#include "book/events/owner.h"
#include "book/events/receipt.h"
#include "book/events/sell.h"
#include "exact/rate.h"
#include "fuzz/fuzzed.h"

namespace {

// Money put in, and a paper with so many pieces at that price.
void enter(nonrunner::book::Recording& recording, const std::string& text) {
  using namespace nonrunner;
  const Currency& currency = recording.currency();
  fuzzed::answered([&] {
    record(recording, book::OwnerMoney{true, Day(2026, 2, 1), "cash", Money::parse(text, currency)});
  });
  fuzzed::answered([&] {
    book::Receipt receipt;
    receipt.day = Day(2026, 2, 2);
    receipt.supplier = "Harrow";
    book::ReceiptLine line;
    line.what = "bolts";
    line.kind = "overhead";
    line.unit = Price::parse(text, currency);
    line.quantity = Quantity::parse(text);
    receipt.total = line.unit->times(line.quantity);
    receipt.paid = {{"cash", receipt.total}};
    receipt.lines.push_back(line);
    record(recording, receipt);
  });
}

}  // namespace

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
  fuzzed::recorded([&](book::Recording& recording) { enter(recording, text); });
  return 0;
}
