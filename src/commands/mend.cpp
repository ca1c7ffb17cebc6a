#include "book/care/mend.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"
#include "text/counted.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {
int run_mend(const Given& given, Terminal& terminal) {
  const std::filesystem::path from = given.word(0);
  const auto named = given.text("book");
  if (!named) given.wrong("where to? say --book NEW");
  if (!std::filesystem::exists(from))
    throw Refusal(from.string() + ": there is no such file; check the name");
  Progress progress(terminal, "mending");
  const book::Mended mended = book::mend(from, *named, terminal.now, terminal.today, std::ref(progress));
  progress.wipe();
  made_anew(book::Book::open(*named), terminal);
  if (given.json()) {
    terminal.out << words::facts_as_json(
        {{"book", *named}, {"entries", mended.entries}, {"of", mended.of}, {"changes", mended.changes}});
    return 0;
  }
  terminal.out << fmt::format("{}: a new book of {}; {} has {}\n", *named,
                              counted(mended.entries, "entry", "entries"), from.string(), mended.of);
  for (const std::string& change : mended.changes) terminal.out << in_80("  " + change, 4);
  if (mended.changes.empty()) terminal.out << "  nothing had to be changed\n";
  return 0;
}
}  // namespace

extern const Command mend;
const Command mend{
    {"mend",
     "BOOK",
     "a new book of what can still be read of a damaged one",
     "nonrunner mend shop.book --book mended.book",
     {},
     true,
     "The old book is not touched. Its events are entered anew by the rules of today: what cannot be "
     "read or\nis refused now is left out and listed, with the reason."},
    run_mend};

}  // namespace nonrunner::commands
