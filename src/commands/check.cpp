#include "book/care/check.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {
std::string counted(std::int64_t number, const char* one, const char* many) {
  return fmt::format("{} {}", number, number == 1 ? one : many);
}

int run_check(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  Progress progress(terminal, "checking");
  const book::Health health = book::check(book, [&](book::EntryId done, book::EntryId all) {
    progress(static_cast<std::size_t>(done), static_cast<std::size_t>(all));
  });
  if (given.json()) {
    terminal.out << words::to_json(health, book.currency());
    return health.sound ? 0 : 1;
  }
  if (health.sound)
    terminal.out << fmt::format("sound: {}, {}, {}; trial balance {}\nlast seal {}\n",
                                counted(health.entries, "entry", "entries"),
                                counted(health.postings, "posting", "postings"),
                                counted(health.attachments, "attachment", "attachments"),
                                health.trial_balance.shown(book.currency()), health.head);
  else
    terminal.out << "NOT SOUND\n";
  for (const std::string& finding : health.findings) terminal.out << "  " << finding << "\n";
  if (!health.sound)
    terminal.out << "bring back the last backup or export with: nonrunner restore FROM --book NEW\n";
  return health.sound ? 0 : 1;
}
}  // namespace

extern const Command check;
const Command check{{"check",
                     "",
                     "the book's health: every promise it makes, looked at anew",
                     "nonrunner check",
                     {},
                     true,
                     "Exit status 1 where something is wrong. The last seal is a SHA-256 over the whole "
                     "journal: written\ndown elsewhere, it shows later that nothing before it was changed."},
                    run_check};

}  // namespace nonrunner::commands
