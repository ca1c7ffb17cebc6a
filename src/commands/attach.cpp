#include "book/events/attach.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/event_words.h"

namespace nonrunner::commands {

namespace {
constexpr std::initializer_list<const char*> attach_words = {"vehicle", "file"};

int run_attach(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const auto attach = typed_event<book::Attach>(given, terminal, book, "attach", attach_words);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, attach); },
      fmt::format("{} kept with {} in {}", attach.file.filename().string(), attach.vehicle,
                  book.attachments().string()));
}
}  // namespace

extern const Command attach;
const Command attach{
    {"attach", "TAG FILE", "a photograph or a scan, copied beside the book", "nonrunner attach pip title.jpg",
     with_new(options_of<book::Attach>(attach_words)), true, ""},
    run_attach};

}  // namespace nonrunner::commands
