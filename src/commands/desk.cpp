#include "commands/desk.h"

#include <algorithm>

#include "book/care/heads.h"
#include "book/ledger/names.h"
#include "exact/ends.h"
#include "words/book_json.h"

namespace nonrunner::commands {

book::Book open_book(const Given& given, const Terminal& terminal) {
  const auto named = given.text("book");
  book::Book book = book::Book::open(named ? std::filesystem::path(*named) : terminal.default_book());
  const auto folder = terminal.heads();
  if (!folder) return book;
  if (const auto lost = book::lost_head(book, *folder))
    terminal.err << fmt::format(
        "nonrunner: {}: this book is older than the one seen here on {}, or was rewritten: entry {} with the "
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

int record_one(book::Book& book, const Given& given, Terminal& terminal,
               const std::function<book::EntryId(book::Recording&)>& event, const std::string& done) {
  book::Recording recording(book, terminal.now, terminal.today);
  recording.strict_words = !given.flag("new");
  const book::EntryId entry = event(recording);
  recording.keep();
  if (given.json()) {
    terminal.out << words::recorded_as_json(entry, recording.remarks());
  } else {
    terminal.out << in_80(printable(entry != 0 ? fmt::format("entry {}: {}", entry, done) : done), 2);
    for (const std::string& remark : recording.remarks()) terminal.out << in_80("  " + printable(remark), 4);
  }
  return 0;
}

Option date_option() { return {"date", "DAY", "the day of the event, YYYY-MM-DD (else today)"}; }
Option purse_option() {
  return {"purse", "NAME", "which purse the money goes through, such as cash, bank, card"};
}
Option new_option() { return {"new", "", "the name is a new one, though it is close to a known one"}; }

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
    return Distance::parse(*text);
  } catch (const Refusal& refusal) {
    given.wrong(std::string("--odometer: ") + refusal.what());
  }
}

std::string purse_of(const Given& given, const book::Book& book) {
  if (const auto purse = given.text("purse")) return *purse;
  const auto purses = book::names_of(book, book::account::purse);
  if (purses.size() == 1) return purses.front();
  if (purses.empty() || std::find(purses.begin(), purses.end(), "cash") != purses.end()) return "cash";
  given.wrong("which purse? say --purse NAME");
}

}  // namespace nonrunner::commands
