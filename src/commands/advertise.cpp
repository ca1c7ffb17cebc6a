#include "answers/made_ready.h"
#include "answers/placing.h"
#include "book/events/advertised.h"
#include "book/ledger/marks.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "words/paper_places.h"

namespace nonrunner::commands {

namespace {

int run_advertise(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Advertised advertised{date_of(given, terminal), given.word(0),
                                    given.word_as_money(1, book.currency())};
  std::vector<std::string> still_to_do;
  for (const std::string& line : given.texts("still-to-do"))
    still_to_do.push_back(answers::line_named(book, "advertise", advertised.vehicle, line));
  const std::vector<answers::StillOpen> before = answers::open_in_budget(book, advertised.vehicle);
  const int status = record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        for (const std::string& line : still_to_do)
          recording.marks.push_back({advertised.vehicle, book::says::open, line});
        const book::EntryId entry = record(recording, advertised);
        const auto ready = answers::made_ready(recording.book(), advertised.vehicle, before);
        const std::string reopen =
            fmt::format("; what is still to do: nonrunner done {} LINE --reopen", advertised.vehicle);
        for (const std::string& said : words::in_words(ready, book.currency(), reopen))
          recording.remarks().push_back(said);
        return entry;
      },
      fmt::format("{} stands in the advert at {}", advertised.vehicle,
                  advertised.price.shown(book.currency())));
  return status;
}
}  // namespace

extern const Command advertise;
const Command advertise{
    {"advertise",
     "TAG PRICE",
     "the price a car is advertised at from today",
     "nonrunner advertise pip 3490",
     {{"still-to-do", "LINE", "a line of its budget that is not done yet", true}, date_option()},
     true,
     "The first advert of a car makes it ready: every open line of its budget is closed but those\n"
     "that are still to do, by number or name."},
    run_advertise};

}  // namespace nonrunner::commands
