#include "book/events/part_out.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/event_words.h"

namespace nonrunner::commands {

namespace {
constexpr std::initializer_list<const char*> part_out_words = {"vehicle", "still_brings"};

int run_part_out(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const auto part_out = typed_event<book::PartOut>(given, terminal, book, "part out", part_out_words);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, part_out); },
      fmt::format("{} goes to pieces; still expected of it: {}", part_out.vehicle,
                  part_out.still_brings.shown(book.currency())));
}
}  // namespace

extern const Command part_out;
const Command part_out{
    {"part-out", "TAG STILL-BRINGS", "a car goes to pieces: what its parts are still expected to bring",
     "nonrunner part-out drayman 2600", options_of<book::PartOut>(part_out_words), true,
     "Parts sold: nonrunner recover. When the last is gone: nonrunner write-off. Say it again\n"
     "when you expect another sum; what was recovered since is taken off by itself."},
    run_part_out};

}  // namespace nonrunner::commands
