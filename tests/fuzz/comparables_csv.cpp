// Similar cars as CSV, as they are pasted: read, or refused with one line; every row that is read is one that
// the book may keep.
#include "book/care/comparables_csv.h"

#include "fuzz/fuzzed.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace nonrunner;
  const std::string text(reinterpret_cast<const char*>(data), size);
  fuzzed::recorded([&](book::Recording& recording) {
    const Day today(2026, 3, 1);
    for (const book::KeptComparable& each :
         book::read_comparables_csv(text, "seen.csv", recording.currency(), "", today)) {
      fuzzed::must(each.price > Money{} && each.day <= today && each.odometer >= Distance{},
                   "a row is one to keep");
      keep_comparable(recording, each);
      fuzzed::must(!keep_comparable(recording, each), "the same row again adds nothing");
    }
  });
  return 0;
}
