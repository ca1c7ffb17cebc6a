#include "book/events/post.h"

#include "book/events/typed.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/placed.h"
#include "exact/ends.h"
#include "text/counted.h"
#include "text/toml.h"
#include "words/appraise_for_book.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {
int run_post(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const std::string file = given.word(0);
  const std::string text = read_file(file, any_size);
  const std::filesystem::path beside =
      file == "-" ? std::filesystem::current_path() : std::filesystem::path(file).parent_path();
  // Read before the book is held: others wait for what is recorded, not for what is read.
  const book::EventsFile events = book::read_events(text, file == "-" ? "standard input" : file, beside);
  if (events.value.entries.empty())
    throw Refusal(
        events.name +
        ": found nothing, expected [[event]] and under it do = \"owner in\" or the like, once for each "
        "event; see: nonrunner help events");
  Progress progress(terminal, "posting");
  book::Recording recording(book, terminal.now, terminal.today);
  recording.wary = true;
  recording.typed_by = terminal.login();
  const book::EntryId before = book::last_entry(book);
  const book::Posted posted =
      book::post(recording, events, words::appraise_for_book(book), std::ref(progress));
  progress.wipe();
  book::remember_typed(recording, before);
  recording.keep();
  for (std::string& told : settle_unplaced(given, terminal, book, before + 1, posted.last))
    recording.remarks().push_back(std::move(told));
  if (given.json()) {
    terminal.out << words::facts_as_json({{"events", static_cast<std::int64_t>(posted.events)},
                                          {"first_entry", posted.first},
                                          {"last_entry", posted.last},
                                          {"remarks", recording.remarks()}});
    return 0;
  }
  for (const std::string& remark : recording.remarks()) terminal.out << remark << "\n";
  if (posted.first == 0)
    terminal.out << fmt::format("{} posted\n", counted(posted.events, "event"));
  else
    terminal.out << fmt::format("{} posted: {}\n", counted(posted.events, "event"),
                                posted.first == posted.last
                                    ? fmt::format("entry {}", posted.first)
                                    : fmt::format("entries {} to {}", posted.first, posted.last));
  return 0;
}
}  // namespace

extern const Command post;
const Command post{{"post",
                    "EVENTS.toml",
                    "records a file of events, in order, all or nothing",
                    "nonrunner post events.toml",
                    {},
                    true,
                    "What the file holds: nonrunner help events. \"-\" reads standard input."},
                   run_post};

}  // namespace nonrunner::commands
