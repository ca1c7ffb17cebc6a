#include "book/events/void_entry.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/entry_number.h"
#include "exact/ends.h"

namespace nonrunner::commands {

book::EntryId entry_number(const Given& given, const std::string& text) {
  const auto number = scaled(text, 0);
  if (!number || *number < 1) given.wrong("found \"" + text + "\", expected the number of an entry");
  return *number;
}

namespace {

// On which days it counts: until the day before `later`, or on none.
std::optional<Day> later_of(const Given& given, const Terminal& terminal, const book::Book& book,
                            book::EntryId entry) {
  const auto later = given.day("later") ? given.day("later") : given.day("date");
  if (later && given.flag("never-was")) given.wrong("found --later and --never-was, expected one of them");
  if (later && *later > terminal.today)
    given.wrong(fmt::format("--later: found {}, which has not come yet, expected {} at the latest",
                            later->iso(), terminal.today.iso()));
  if (later || given.flag("never-was")) return later;
  const std::string turn = book::turn_of(book, entry);
  const bool asks = turn == "sold" || turn == "finished" || turn == "passed";
  Day day = terminal.today;
  try {
    if (!asks) day = book::load_entry(book, entry).day;
  } catch (const Refusal&) {
    return std::nullopt;  // there is no such entry: for the event to refuse
  }
  if (asks || day.year() < terminal.today.year())
    throw Refusal(fmt::format(
        "void: entry {} {}: did it stand until it was taken back, or was it typed wrong? say --later DAY or "
        "--never-was",
        entry,
        turn == "sold"       ? "is a sale"
        : turn == "finished" ? "is a write-off"
        : turn == "passed"   ? "is a pass"
                             : "is of " + std::to_string(day.year())));
  return std::nullopt;
}

int run_void(const Given& given, Terminal& terminal) {
  const auto why = given.word_if(1) ? given.word_if(1) : given.text("why");
  if (!why || why->empty()) given.wrong("why? say it behind the number");
  book::Book book = open_book(given, terminal);
  const book::EntryId entry = entry_number(given, given.word(0));
  const auto later = later_of(given, terminal, book, entry);
  book::Void request{later.value_or(terminal.today), entry, *why, later.has_value(), {}};
  if (const auto stays = given.texts("stays"); !stays.empty() || given.flag("none-stays"))
    request.stays = stays;
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, request); },
      fmt::format("entry {} is taken back{}", entry, later ? ", from " + later->iso() + " on" : ""));
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
      {"stays", "NAME", "of a sale: a cost that stays paid (else all of them); may be repeated", true},
      {"none-stays", "", "of a sale: its costs come back too"},
      {"date", "DAY", "the same as --later"}},
     true,
     "What was typed wrong counts on no day; where its day lies in a closed period, it counts "
     "until today. A sale that falls through stands until that day, and so does a write-off or "
     "a pass: of these, and of an entry of an earlier year, say which: --later or --never-was."},
    run_void};

}  // namespace nonrunner::commands
