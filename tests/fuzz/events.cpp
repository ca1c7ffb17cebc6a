// A file of events: read, and recorded into a book.
#include "book/events/post.h"
#include "fuzz/fuzzed.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace nonrunner;
  const std::string text(reinterpret_cast<const char*>(data), size);
  // Files that an event names are looked for where there is none.
  fuzzed::recorded(
      [&](book::Recording& recording) { book::post(recording, text, "events.toml", "/nonexistent", {}); });
  return 0;
}
