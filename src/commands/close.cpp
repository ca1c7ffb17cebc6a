#include <algorithm>
#include <string_view>

#include "book/care/heads.h"
#include "book/ledger/names.h"
#include "book/ledger/settings.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/typed_forms.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {

int run_close(const Given& given, Terminal& terminal) {
  const Day day = given.word_as_day(0);
  book::Book book = open_book(given, terminal);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return book::close(recording, day); },
      Done([&](const std::string&) {
        return fmt::format(
            "closed up to {}: what is entered with a day up to it counts from {}; last seal {}", day.iso(),
            day.plus(1).iso(), book::head_of(book, terminal.today).seal);
      }));
}

// What a purse is may be said before its first use; it may be a slip as well.
void remark_no_purse(book::Recording& recording, const std::string& setting) {
  constexpr std::string_view of_purse = "purse.";
  if (!setting.starts_with(of_purse)) return;
  const std::string purse = setting.substr(of_purse.size());
  const auto known = book::names_of(recording.book(), book::account::purse);
  if (std::find(known.begin(), known.end(), purse) != known.end()) return;
  recording.remarks().push_back(
      fmt::format("there is no purse \"{}\" yet{}", purse, did_you_mean(purse, known)));
}

// A stick that is not in yet is no mistake; a slip of the pen would only show a week later.
void remark_no_folder(book::Recording& recording, const std::string& setting, const std::string& folder) {
  std::error_code unknown;
  if (setting == "backup-folder" && !folder.empty() && !std::filesystem::is_directory(folder, unknown))
    recording.remarks().push_back("there is no such folder now; it has to be there when a copy is made");
}

int run_set(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  if (given.count() == 0) {
    const auto settings = book::settings(book);
    if (given.json()) terminal.out << words::facts_as_json({{"settings", settings}});
    for (const auto& [name, value] : settings)
      if (!given.json()) terminal.out << fmt::format("{:<16} {}\n", name, value);
    return 0;
  }
  if (given.count() == 1) given.wrong("found 1 word, expected NAME VALUE, or none to list them");
  // The book may be opened from any folder later.
  std::string value = given.word(1);
  if (given.word(0) == "backup-folder" && !value.empty()) value = std::filesystem::absolute(value).string();
  if (given.word(0) == "hour") {
    try {
      value = plain_money(value, book.currency());
    } catch (const Refusal& refusal) {
      throw WrongUsage(std::string("set hour: ") + refusal.what());
    }
  }
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        try {
          book::set(recording, given.word(0), value, given.day("date"));
        } catch (const Refusal& refusal) {
          // What a setting refuses is a word that was typed; only the end of a period is a rule of the book.
          if (given.word(0) == "closed") throw;
          throw WrongUsage(refusal.what());
        }
        remark_no_purse(recording, given.word(0));
        remark_no_folder(recording, given.word(0), value);
        return book::EntryId{0};
      },
      given.word(0) + " is " + value);
}

}  // namespace

extern const Command close_command, set_command;
const Command close_command{{"close",
                             "DATE",
                             "ends a period: what comes in later counts after it",
                             "nonrunner close 2025-12-31",
                             {},
                             true,
                             ""},
                            run_close};
const Command set_command{{"set",
                           "[NAME] [VALUE]",
                           "the shop's own figures; without words: lists them",
                           "nonrunner set hour 20",
                           {{"date", "DAY", "of the hour: the day from which it counts (else today)"}},
                           true,
                           "  hour           what an own hour must earn, from that day on\n"
                           "  paper-size     of workbooks: a4 or letter; else by the currency\n"
                           "  dealer-limit   sales in twelve months that the local dealer rule allows\n"
                           "  tools          expense, or asset: what tools are from now on\n"
                           "  purse.NAME     asset, liability (a card) or credit (what a shop owes you)\n"
                           "  backup-folder  where backup without a name puts dated copies"},
                          run_set};

}  // namespace nonrunner::commands
