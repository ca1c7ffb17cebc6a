#include "answers/taken_back.h"
#include "book/events/void_entry.h"
#include "book/questions/journal.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/entry_number.h"
#include "exact/ends.h"
#include "text/typed_numbers.h"

namespace nonrunner::commands {

book::EntryId entry_number(const Given& given, const std::string& text) {
  const auto number = typed_entry(text);
  if (!number) given.wrong("found \"" + text + "\", expected the number of an entry");
  return *number;
}

namespace {

// On which days it counts: until the day before `later`, or on none.
std::optional<Day> later_of(const Given& given, Terminal& terminal, const book::Book& book,
                            book::EntryId entry) {
  const auto later = given.day("later") ? given.day("later") : given.day("date");
  if (later && given.flag("never-was")) given.wrong("found --later and --never-was, expected one of them");
  if (later && *later > terminal.today)
    given.wrong(fmt::format("--later: found {}, which has not come yet, expected {} at the latest",
                            later->iso(), terminal.today.iso()));
  if (later || given.flag("never-was")) return later;
  const auto question = answers::question_of_standing(book, entry, terminal.today);
  if (!question) return std::nullopt;
  if (terminal.in) return ask(*question, terminal) == 0 ? std::optional(terminal.today) : std::nullopt;
  throw Refusal("void: " + question->words + "? say --later DAY or --never-was");
}

int run_void(const Given& given, Terminal& terminal) {
  const auto why = given.word_if(1) ? given.word_if(1) : given.text("why");
  if (!why || why->empty()) given.wrong("why? say it behind the number");
  book::Book book = open_book(given, terminal);
  const book::EntryId entry = entry_number(given, given.word(0));
  const auto later = later_of(given, terminal, book, entry);
  if (terminal.in)
    if (const auto question = answers::question_of_void(book, entry, later.has_value()))
      if (ask(*question, terminal) != 0) throw Refusal("void: left as it is; nothing recorded");
  book::Void request{later.value_or(terminal.today), entry, *why, later.has_value(), {}};
  if (const auto stays = given.texts("stays"); !stays.empty() || given.flag("none-stays"))
    request.stays = stays;
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, request); },
      Done([&](const std::string& through) {
        const book::Entry taken = book::load_entry(book, entry);
        return fmt::format("entry {} ({} of {}: {}) is taken back{}{}", entry, taken.kind, taken.day.iso(),
                           book::words_for(taken.event), later ? ", from " + later->iso() + " on" : "",
                           through.empty() ? "" : ", " + through);
      }));
}
}  // namespace

extern const Command void_command;
const Command void_command{
    {"void",
     "ENTRY [WHY]",
     "takes an entry back by a reversing entry that names it",
     "nonrunner void 118 typed twice",
     {{"why", "TEXT", "the reason, where it is not said behind the number"},
      {"later", "DAY", "it stood until that day: a sale that fell through on it"},
      {"never-was", "", "it was typed wrong, and counts on no day"},
      {"stays", "NAME", "of a sale: a cost that stays paid (else all of them)", true},
      {"none-stays", "", "of a sale: its costs come back too"},
      {"date", "DAY", "the same as --later"}},
     true,
     "What was typed wrong counts on no day; where its day lies in a closed period, it counts "
     "until today. A sale that falls through stands until that day, and so does a write-off or "
     "a pass: of these, and of an entry of an earlier year, say which: --later or --never-was.\n"
     "At a terminal it is asked, and so is whether what an entry takes back with it (lines that it\n"
     "closed, what others got at a sale) shall go too."},
    run_void};

}  // namespace nonrunner::commands
