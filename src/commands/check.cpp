#include "book/care/check.h"

#include "book/care/heads.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "text/counted.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {
// What was written down earlier, looked for in the journal.
int look_for_seal(const Given& given, Terminal& terminal, const book::Book& book, const std::string& seal) {
  const auto entry = book::entry_with_seal(book, seal);
  const book::EntryId last = book::last_entry(book);
  if (given.json()) {
    std::vector<std::pair<std::string, words::Fact>> facts{{"seal", seal}, {"entries", last}};
    if (entry) facts.emplace_back("entry", *entry);
    terminal.out << words::facts_as_json(facts);
  } else if (entry) {
    terminal.out << fmt::format(
        "the seal is that of entry {} of {}: nothing up to it was changed, if check finds "
        "the book sound\n",
        *entry, last);
  } else {
    terminal.out << fmt::format(
        "NOT IN THIS BOOK: no entry of {} has the seal {}; since it was written down entries "
        "were cut off or rewritten, or it is of another book\n",
        last, seal);
  }
  return entry ? 0 : 1;
}

// Every head of the book that was seen on this machine has to be in it.
void compare_heads(const Terminal& terminal, const book::Book& book, book::Health& health) {
  const auto folder = terminal.heads();
  if (!folder) return;
  for (const book::Head& seen : book::heads_seen(book, *folder)) {
    if (book::holds(book, seen)) continue;
    health.sound = false;
    health.findings.push_back(
        fmt::format("entry {}: on {} it was seen here with the seal {}, which is not in this book",
                    seen.entry, seen.day, seen.seal.substr(0, 12)));
  }
}

int run_check(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  if (const auto seal = given.text("seal")) return look_for_seal(given, terminal, book, *seal);
  Progress progress(terminal, "checking");
  book::Health health = book::check(book, [&](book::EntryId done, book::EntryId all) {
    progress(static_cast<std::size_t>(done), static_cast<std::size_t>(all));
  });
  progress.wipe();
  compare_heads(terminal, book, health);
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
  for (const std::string& note : health.notes) terminal.out << "  note: " << note << "\n";
  if (!health.sound)
    terminal.out << "bring back the last backup or export with: nonrunner restore FROM --book NEW\n"
                    "or make a book of what can still be read: nonrunner mend --help\n";
  return health.sound ? 0 : 1;
}
}  // namespace

extern const Command check;
const Command check{
    {"check",
     "",
     "the book's health: every promise it makes, looked at anew",
     "nonrunner check",
     {{"seal", "HEX", "is this seal, written down earlier, still in the book? (12 digits or more)"}},
     true,
     "Exit status 1 where something is wrong. The last seal is a SHA-256 over the whole "
     "journal: written\ndown elsewhere, it shows later that nothing before it was changed. The last "
     "one of each day is also\nkept in ~/.local/state/nonrunner/heads and compared whenever the book "
     "is opened."},
    run_check};

}  // namespace nonrunner::commands
