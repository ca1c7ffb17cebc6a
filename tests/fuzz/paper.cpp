// A receipt as a file: read, and recorded into a book.
#include "book/events/fields.h"
#include "book/events/receipt.h"
#include "fuzz/fuzzed.h"
#include "text/toml.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace nonrunner;
  const std::string text(reinterpret_cast<const char*>(data), size);
  fuzzed::recorded([&](book::Recording& recording) {
    const Value value = parse_toml(text, "paper.toml");
    record(recording,
           book::read<book::Receipt>(Table(value, "paper.toml", "the receipt"), recording.currency()));
  });
  return 0;
}
