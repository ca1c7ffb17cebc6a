#include "book/events/trip.h"

#include <sstream>

#include "answers/doubles.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"

namespace nonrunner::commands {

namespace {
int run_trip(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Trip trip;
  trip.day = date_of(given, terminal);
  trip.why = given.word(2);
  trip.again = given.flag("again");
  trip.from = given.text("from").value_or("");
  trip.to = given.text("to").value_or("");
  try {
    trip.distance = given.word_as_distance(1);
    std::istringstream tags(given.word(0));
    for (std::string each; std::getline(tags, each, ',');) {
      const auto equals = each.find('=');
      trip.shares.push_back(
          {each.substr(0, equals),
           equals == std::string::npos ? 1000 : Quantity::parse(each.substr(equals + 1)).thousandths()});
      if (trip.shares.back().weight <= 0) throw Refusal("the weight of " + each + " is expected above 0");
    }
  } catch (const Refusal& refusal) {
    given.wrong(refusal.what());
  }
  if (!trip.again) trip.again = is_another_one(answers::another_one(book, book::once(trip)), terminal);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, trip); },
      fmt::format("{} {} for {}: {}", trip.distance.shown(), book.distance_unit(), given.word(0), trip.why));
}
}  // namespace

extern const Command trip;
const Command trip{{"trip",
                    "TAG DISTANCE WHY",
                    "distance driven for a car; no money",
                    "nonrunner trip pip 34 view and test",
                    {{"from", "PLACE", "where it began"},
                     {"to", "PLACE", "where it went"},
                     again_option(),
                     date_option(),
                     new_option()},
                    true,
                    "For several cars: TAG,TAG or TAG=WEIGHT,TAG=WEIGHT."},
                   run_trip};

}  // namespace nonrunner::commands
