// A vehicle's number: what is accepted is 17 characters with the digit that belongs to them, and is accepted
// again. Written down as what was found on a car it comes out of the book as it is.
#include "exact/vin.h"

#include "book/events/finding.h"
#include "fuzz/fuzzed.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace nonrunner;
  const std::string text(reinterpret_cast<const char*>(data), size);
  fuzzed::answered([&] {
    const std::string vin = checked_vin(text);
    fuzzed::must(vin.size() == 17 && vin[8] == vin_check_digit(vin), "the check digit fits");
    fuzzed::must(checked_vin(vin) == vin, "what was accepted is accepted again");
    fuzzed::recorded([&](book::Recording& recording) {
      record(recording, book::Finding{Day(2026, 2, 1), "pip", vin, {}});
      fuzzed::must(book::findings(recording.book(), "pip").back().text == vin, "it is in the book as it is");
    });
  });
  return 0;
}
