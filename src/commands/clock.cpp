#include "book/events/clock.h"

#include <nlohmann/json.hpp>

#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"

namespace nonrunner::commands {

namespace {
int run_clock(const Given& given, Terminal& terminal) {
  const std::string worker = given.text_or("worker", "me");
  book::Book book = open_book(given, terminal);
  const bool off = given.word(0) == "off";
  for (const char* option : {"date", "hours"})
    if (given.flag(option) && !off)
      given.wrong(fmt::format("found --{} with {}, expected it with off: the clock runs from now on", option,
                              given.word(0)));
  if (given.word(0) == "on") {
    if (given.count() != 3)
      given.wrong("found " + std::to_string(given.count()) + " words, expected on TAG OPERATION");
    return record_one(
        book, given, terminal,
        [&](book::Recording& recording) {
          book::start_clock(recording, worker, given.word(1), given.word(2));
          return book::EntryId{0};
        },
        "the clock runs on " + given.word(1) + ": " + given.word(2));
  }
  if (off) {
    if (given.count() != 1) given.wrong("found " + std::to_string(given.count()) + " words, expected off");
    std::optional<Hours> hours;
    if (const auto text = given.text("hours")) {
      try {
        hours = Hours::parse(*text);
      } catch (const Refusal& refusal) {
        given.wrong(std::string("--hours: ") + refusal.what());
      }
    }
    std::string done = "the clock is stopped";
    for (const book::Clock& running : book::clocks(book))
      if (running.worker == worker)
        done =
            fmt::format("{} hours on {}: {}", hours.value_or(book::hours_of(running, terminal.now)).shown(),
                        running.vehicle, running.operation);
    return record_one(
        book, given, terminal,
        [&](book::Recording& recording) {
          return book::stop_clock(recording, worker, date_of(given, terminal), hours);
        },
        done);
  }
  if (given.word(0) == "show") {
    const auto clocks = book::clocks(book);
    nlohmann::ordered_json json{{"clocks", nlohmann::ordered_json::array()}};
    std::string text = clocks.empty() ? "no clock runs; start one: nonrunner clock on TAG OPERATION\n" : "";
    for (const book::Clock& running : clocks) {
      const std::string hours = book::hours_of(running, terminal.now).shown();
      text += fmt::format("{}: {}, {}, {} hours, since {}\n", running.worker, running.vehicle,
                          running.operation, hours, running.since);
      json["clocks"].push_back({{"worker", running.worker},
                                {"vehicle", running.vehicle},
                                {"operation", running.operation},
                                {"since", running.since},
                                {"hours", nlohmann::ordered_json::parse(hours)}});
    }
    terminal.out << (given.json() ? json.dump(2) + "\n" : text);
    return 0;
  }
  given.wrong("found \"" + given.word(0) + "\", expected on, off or show");
}
}  // namespace

extern const Command clock_command;
const Command clock_command{
    {"clock",
     "on|off|show [TAG] [OPERATION]",
     "a running clock for own hours; it survives restarts",
     "nonrunner clock on pip \"front brakes\"",
     {{"worker", "NAME", "whose clock (else yours)"},
      {"hours", "N", "off: how long it really was"},
      {"date", "DAY", "off: the day that the hours are booked on (else today)"},
      new_option()},
     true,
     "clock off records the hours. A clock past 12 hours is asked about, not believed."},
    run_clock};

}  // namespace nonrunner::commands
