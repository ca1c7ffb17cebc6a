#include "book/events/advertised.h"
#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_advertise(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Advertised advertised{date_of(given, terminal), given.word(0),
                                    given.word_as_money(1, book.currency())};
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, advertised); },
      fmt::format("{} stands in the advert at {}", advertised.vehicle,
                  advertised.price.shown(book.currency())));
}
}  // namespace

extern const Command advertise;
const Command advertise{{"advertise",
                         "TAG PRICE",
                         "the price a car is advertised at from today",
                         "nonrunner advertise pip 3490",
                         {date_option()},
                         true,
                         ""},
                        run_advertise};

}  // namespace nonrunner::commands
