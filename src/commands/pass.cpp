#include "book/events/pass.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/event_words.h"

namespace nonrunner::commands {

namespace {
constexpr std::initializer_list<const char*> pass_words = {"vehicle"};

int run_pass(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  auto pass = typed_event<book::Pass>(given, terminal, book, "pass", pass_words);
  if (const auto why = given.word_if(1)) pass.why = *why;
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, pass); },
      pass.vehicle + " was looked at and left; what looking cost is overhead");
}
}  // namespace

extern const Command pass;
const Command pass{
    {"pass", "TAG [WHY]", "a car looked at and left: its costs become the overhead of looking",
     "nonrunner pass troupe asked too much", with_new(options_of<book::Pass>(pass_words)), true, ""},
    run_pass};

}  // namespace nonrunner::commands
