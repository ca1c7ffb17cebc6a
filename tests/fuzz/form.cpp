// A form of the page: read as it comes from the network, made into an event, and recorded into a book.
#include "answers/entering.h"
#include "fuzz/fuzzed.h"
#include "page/form_event.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace nonrunner;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  fuzzed::answered([&] {
    const page::Form form = page::Form::read(text);
    fuzzed::must(page::Form::read(form.encoded()).fields == form.fields, "a form reads back as it was");
    fuzzed::recorded([&](book::Recording& recording) {
      answers::Entering entering = page::entering_of(recording.book(), form, recording.today());
      answers::settle_unasked(recording.book(), entering);
      answers::take_places(recording, Table(entering.event, "form", "the form").day("date"),
                           entering.also_replaced);
      book::record_event(recording, Table(entering.event, "form", "the form"), "/nonexistent", {});
    });
  });
  return 0;
}
