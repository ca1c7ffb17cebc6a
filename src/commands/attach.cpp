#include "book/events/attach.h"

#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_attach(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Attach attach{date_of(given, terminal), given.word(0), given.word(1), "", ""};
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, attach); },
      fmt::format("{} kept with {} in {}", attach.file.filename().string(), attach.vehicle,
                  book.attachments().string()));
}
}  // namespace

extern const Command attach;
const Command attach{{"attach",
                      "TAG FILE",
                      "a photograph or a scan, copied beside the book",
                      "nonrunner attach pip title.jpg",
                      {date_option(), new_option()},
                      true,
                      ""},
                     run_attach};

}  // namespace nonrunner::commands
