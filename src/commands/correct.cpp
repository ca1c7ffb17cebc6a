#include "book/events/correct.h"

#include "answers/placing.h"
#include "book/events/typed.h"
#include "book/ledger/details.h"
#include "book/questions/journal.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/entry_number.h"
#include "commands/placed.h"
#include "exact/ends.h"
#include "text/tag.h"

namespace nonrunner::commands {

namespace {

// The car whose budget --for speaks of: the new one, else the only one that the entry is about.
std::string car_of(const Given& given, const book::Book& book, const book::Correction& correction) {
  if (correction.vehicle) return *correction.vehicle;
  const std::vector<std::string> cars = book::mentioned_in(book::load_entry(book, correction.entry));
  if (cars.size() != 1)
    given.wrong("--for: the entry is about " + std::to_string(cars.size()) + " cars, expected one");
  return cars.front();
}

// Of what is money as an amount is typed, of hours, pieces and distances as those are, which may have three decimals.
std::string plain_amount(const book::Book& book, book::EntryId id, const std::string& typed) {
  if (id < 1 || id > book::last_entry(book)) return plain_hours(typed);  // refused for its number
  const std::string kind = book::load_entry(book, id).kind;
  for (const char* counted : {"hours", "trip", "draw", "count", "shelve"})
    if (kind == counted) return plain_hours(typed);
  return plain_money(typed, book.currency());
}

int run_correct(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Correction correction;
  correction.entry = entry_number(given, given.word(0));
  if (const auto tag = given.text("to")) correction.vehicle = as_tag(*tag);
  correction.purse = given.text("purse");
  correction.what = given.text("what");
  if (const auto amount = given.text("amount")) {
    try {
      correction.amount = plain_amount(book, correction.entry, *amount);
    } catch (const Refusal& refusal) {
      given.wrong(std::string("--amount: ") + refusal.what());
    }
    if (!scaled(*correction.amount, 3)) given.wrong("--amount: found \"" + *amount + "\", expected a number");
  }
  correction.paper_line = given.text_or("paper-line", "");
  if (given.flag("date")) correction.day = date_of(given, terminal);
  if (const auto line = given.text("for"))
    correction.under = *line == "none"
                           ? *line
                           : answers::line_named(book, "correct", car_of(given, book, correction), *line);
  book::Corrected corrected;
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        corrected = book::correct(recording, correction);
        return corrected.entry;
      },
      Done([&](const std::string& through) {
        std::string said = fmt::format("entry {} put right", correction.entry);
        if (!through.empty()) said += ", " + through;
        // A number is typed wrongly sooner than a name: what it was is said.
        const book::Entry now = book::load_entry(book, corrected.entry);
        said += fmt::format(": {} of {}: {}", now.kind, now.day.iso(), book::words_for(now.event));
        if (!corrected.carried.empty()) {
          said += "; carried along:";
          for (const book::EntryId entry : corrected.carried) said += fmt::format(" entry {}", entry);
        }
        if (corrected.moved_to)
          said += fmt::format("; its period is closed: it counts from {}", corrected.moved_to->iso());
        return said;
      }));
}

std::string named(const book::Book& book, const char* what, book::EntryId entry) {
  const book::Entry loaded = book::load_entry(book, entry);
  return fmt::format("{} entry {}, {} of {}: {}", what, entry, loaded.kind, loaded.day.iso(),
                     book::words_for(loaded.event));
}

// Each person and device has a last thing of its own: what others entered since stands. Gives what was agreed to.
std::optional<book::Undone> agreed(const book::Book& book, Terminal& terminal) {
  const book::Undone all = book::to_undo(book, terminal.login(), terminal.now);
  const bool is_any = !all.taken_back.empty() || !all.made_again.empty();
  if (terminal.in == nullptr || !is_any || !book::others_typed_since(book, terminal.login()))
    return std::nullopt;
  std::string words = "others have entered something since, which stands; what you typed last:";
  for (const book::EntryId entry : all.taken_back) words += named(book, " to be taken back:", entry) + ";";
  for (const book::EntryId entry : all.made_again) words += named(book, " would count again:", entry) + ";";
  const answers::Question question{
      "undo", words + " is it that", {{"y", "yes", "", ""}, {"n", "no", "", ""}}, 1};
  if (ask(question, terminal) != 0) throw Refusal("undo: left as it is; nothing recorded");
  return all;
}

int run_undo(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const auto meant = agreed(book, terminal);
  book::Recording recording(book, terminal.now, terminal.today);
  recording.typed_by = terminal.login();
  if (meant && book::to_undo(book, terminal.login(), terminal.now) != *meant)
    throw Refusal("undo: something was entered meanwhile, and is the last thing now; nothing recorded");
  book::expect_desk_as_it_was(recording);
  const book::Undone undone = book::undo_typed(recording);
  std::string said;
  const auto say = [&](const char* what, const std::vector<book::EntryId>& entries) {
    for (const book::EntryId entry : entries) said += in_80(printable(named(book, what, entry)), 2);
  };
  say("taken back:", undone.taken_back);
  say("as it was, now", undone.made_again);
  recording.keep();
  if (given.json())
    terminal.out << fmt::format("{{\n  \"taken_back\": [{}],\n  \"made_again\": [{}]\n}}\n",
                                fmt::join(undone.taken_back, ", "), fmt::join(undone.made_again, ", "));
  else
    terminal.out << said;
  return 0;
}

}  // namespace

extern const Command correct, undo;
const Command correct{
    {"correct",
     "ENTRY",
     "puts an entry right, with what hangs on it",
     "nonrunner correct 12 --amount 46",
     {{"to", "TAG", "it is about this car"},
      {"amount", "N", "how much it was: money, or hours; of a line on a paper all its pieces, before tax"},
      {"purse", "NAME", "it went through this purse"},
      {"what", "TEXT", "what it was"},
      {"paper-line", "LINE", "of a paper with several lines: this one, by its id"},
      for_option(),
      {"date", "DAY", "it was on this day"},
      new_option()},
     true,
     "Cores and returns of its lines are carried along; what was really refunded stays as it was. "
     "Where the period of the entry is closed, both halves bear the first open day."},
    run_correct};
const Command undo{
    {"undo",
     "",
     "takes back what you typed last, whole, within 24 hours",
     "nonrunner undo",
     {},
     true,
     "Everything that one command recorded goes back; a paper gives its place back to the quick "
     "line. Once more takes back the one before. Where others entered something since, it is asked about, "
     "and "
     "theirs stands. Older: nonrunner void ENTRY --why TEXT."},
    run_undo};

}  // namespace nonrunner::commands
