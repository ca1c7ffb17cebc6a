#include "commands/desk.h"

#include <algorithm>
#include <optional>
#include <set>

#include "answers/entering.h"
#include "answers/purse.h"
#include "book/care/heads.h"
#include "book/care/last_backup.h"
#include "book/events/typed.h"
#include "book/ledger/names.h"
#include "commands/ask.h"
#include "commands/brought_up.h"
#include "commands/two_readings.h"
#include "exact/ends.h"
#include "exact/hint.h"
#include "text/counted.h"
#include "words/book_json.h"
#include "words/purse.h"

namespace nonrunner::commands {

book::Book open_book(const Given& given, const Terminal& terminal) {
  const auto named = given.text("book");
  const std::filesystem::path path = named ? std::filesystem::path(*named) : terminal.default_book();
  const BroughtUp brought_up(path);
  book::Book book = book::Book::open(path);
  brought_up.tell(book, terminal.err);
  expect_one_meant(given, book);
  const auto folder = terminal.heads();
  if (!folder) return book;
  if (const auto lost = book::lost_head(book, *folder))
    terminal.err << fmt::format(
        "nonrunner: {}: this book is older than the one seen here on {}, or was rewritten: entry {} with "
        "the "
        "seal "
        "{} is not in it; if you did not put an older copy there, look for the newer one before you enter "
        "anything\n",
        book.path().string(), lost->day, lost->entry, lost->seal.substr(0, 12));
  const Day today = terminal.today;
  book::remember_head(book, *folder, today, false);
  book.after_keeping = [folder = *folder, today](const book::Book& kept) {
    book::remember_head(kept, folder, today, true);
  };
  return book;
}

namespace {

book::EntryId recorded(book::Recording& recording, const Terminal& terminal, const Event& event) {
  const book::EntryId before = book::last_entry(recording.book());
  // It is typed, and what cannot be meant is refused, also where nobody knows by whom.
  const std::string login = terminal.login();
  recording.typed_by = login.empty() ? "somebody" : login;
  const book::EntryId entry = event(recording);
  recording.typed_by = login;
  book::remember_typed(recording, before);
  recording.keep();
  return entry;
}

// The name that was refused since the book does not know it, where whoever is there says that it is a new one.
std::optional<std::string> said_to_be_new(const Refusal& refusal, Terminal& terminal) {
  const auto* more = dynamic_cast<const Hinted*>(&refusal);
  if (terminal.in == nullptr || !more || more->hint().action != Action::allow_new_name) return std::nullopt;
  const auto name = more->hint().with.find("name");
  if (name == more->hint().with.end() || ask(answers::is_it_new(refusal.what(), name->second), terminal) != 0)
    return std::nullopt;
  return name->second;
}

// After a week without a copy, once a day, where somebody is there to read it.
void remind_of_backup(const book::Book& book, Terminal& terminal) {
  const auto folder = terminal.backups();
  if (terminal.in == nullptr || !folder) return;
  const auto without = book::no_backup_for_a_week(book, *folder, terminal.today);
  if (!without) return;
  const bool placed = book.setting("backup-folder").has_value();
  terminal.err << in_80(
      fmt::format("no copy of this book was made {}: nonrunner backup{}",
                  without->ever ? "for " + counted(without->days, "day") : "yet",
                  placed ? "" : " FILE, or once for all: nonrunner set backup-folder FOLDER"),
      2);
}

// What is worth a look behind any entry: a purse that holds less than nothing with it, and the day, where it was not
// said in full or lies long ago.
void remark_entry(const book::Book& book, const Given& given, const Terminal& terminal,
                  book::Recording& recording, book::EntryId entry) {
  constexpr int long_ago = 366;
  for (const std::string& said : words::below_nothing(answers::overdrawn(book, entry), book.currency()))
    recording.remarks().push_back(said);
  if (std::string said = reading_taken(given); !said.empty()) recording.remarks().push_back(std::move(said));
  const auto typed = given.text("date");
  if (!typed || entry == 0) return;
  const Day day = *given.day("date");
  const bool in_full = typed->size() == 10 && typed->ends_with(day.iso().substr(4));
  if (!in_full || days_between(day, terminal.today) > long_ago)
    recording.remarks().push_back("dated " + day.iso());
}

int say(const book::Book& book, const Given& given, Terminal& terminal, book::Recording& recording,
        book::EntryId entry, const Done& done) {
  remark_entry(book, given, terminal, recording, entry);
  if (given.json()) {
    terminal.out << words::recorded_as_json(entry, recording.remarks());
    return 0;
  }
  const std::string said = done(words::in_words(answers::through_purses(book, entry), book.currency()));
  terminal.out << in_80(printable(entry != 0 ? fmt::format("entry {}: {}", entry, said) : said), 2);
  for (const std::string& remark : recording.remarks()) terminal.out << in_80("  " + printable(remark), 4);
  remind_of_backup(book, terminal);
  return 0;
}

}  // namespace

void made_anew(const book::Book& book, Terminal& terminal) {
  const auto folder = terminal.heads();
  if (!folder) return;
  if (const auto lost = book::begin_anew(book, *folder, terminal.today))
    terminal.err << fmt::format(
        "the book that stood at this place had entry {} on {}, which is not in this one\n", lost->entry,
        lost->day);
}

int record_one(book::Book& book, const Given& given, Terminal& terminal, const Event& event,
               const Done& made) {
  std::set<std::string> new_words;
  for (;;) {
    try {
      book::Recording recording(book, terminal.now, terminal.today);
      recording.strict_words = !given.flag("new");
      recording.new_words = new_words;
      const book::EntryId entry = recorded(recording, terminal, event);
      return say(book, given, terminal, recording, entry, made);
    } catch (const Refusal& refusal) {
      const auto name = said_to_be_new(refusal, terminal);
      if (!name || !new_words.insert(*name).second) throw;
    }
  }
}

int record_one(book::Book& book, const Given& given, Terminal& terminal, const Event& event,
               const std::string& made) {
  return record_one(book, given, terminal, event, Done([&](const std::string& through) {
                      return through.empty() ? made : made + ", " + through;
                    }));
}

Option date_option() {
  return {"date", "DAY", "the day of the event: fri, 14, 02-14, 3d or 2026-05-02 (else today)"};
}
Option purse_option() {
  return {
      "purse", "NAME",
      "the purse that the money goes through (else the only one; at a terminal the one last used with the "
      "supplier, or by this command)"};
}
Option new_option() {
  return {"new", "", "the name is a new one: a car that the book does not know, a name close to a known one"};
}

Option again_option() { return {"again", "", "this is another one, though the same is there already"}; }

Day date_of(const Given& given, const Terminal& terminal) {
  const Day day = given.day("date").value_or(terminal.today);
  if (day > terminal.today)
    given.wrong(fmt::format("--date: found {}, which has not come yet, expected {} at the latest", day.iso(),
                            terminal.today.iso()));
  return day;
}

Distance odometer_of(const Given& given) {
  const auto text = given.text("odometer");
  if (!text) return {};
  try {
    return Distance::parse(plain_number(*text));
  } catch (const Refusal& refusal) {
    given.wrong(std::string("--odometer: ") + refusal.what());
  }
}

std::string purse_of(const Given& given, Terminal& terminal, const book::Book& book, const std::string& event,
                     const std::string& supplier) {
  if (const auto purse = given.text("purse")) return *purse;
  if (const auto only = answers::only_purse(book)) return *only;
  const answers::Question question = answers::which_purse(book, event);
  if (terminal.in != nullptr)
    if (const auto last = answers::last_purse(book, event, supplier)) return *last;
  return question.choices[ask(question, terminal)].value;
}

}  // namespace nonrunner::commands
