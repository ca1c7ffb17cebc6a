#include "book/events/clock.h"

#include "answers/doubles.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/placed.h"
#include "exact/ends.h"
#include "text/counted.h"
#include "text/lower_case.h"
#include "words/book_json.h"
#include "words/days.h"

namespace nonrunner::commands {

namespace {
int run_on(const Given& given, Terminal& terminal, book::Book& book, const std::string& worker) {
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

// Whoever names what he stops means the clock that runs.
void expect_that_one(const Given& given, const book::Clock& running) {
  const bool same_car = given.count() < 2 || given.word(1) == running.vehicle;
  const bool same_work = given.count() < 3 || lower_case(given.word(2)) == lower_case(running.operation);
  if (same_car && same_work) return;
  throw Refusal(fmt::format(
      "clock off: found {}{}, but the clock runs on {}: {}; stop that one: nonrunner clock off",
      given.word(1), given.count() < 3 ? "" : ": " + given.word(2), running.vehicle, running.operation));
}

int run_off(const Given& given, Terminal& terminal, book::Book& book, const std::string& worker) {
  const std::optional<Hours> hours = given.hours("hours");
  std::string done = "the clock is stopped";
  std::optional<Placed> placed;
  for (const book::Clock& running : book::clocks(book))
    if (running.worker == worker) {
      expect_that_one(given, running);
      placed.emplace(given, terminal, book, running.vehicle, running.operation, true);
      done = fmt::format(
          "{} on {}: {}{}{}", counted(hours.value_or(book::hours_of(running, terminal.now)).shown(), "hour"),
          running.vehicle, running.operation, placed->said(), given.flag("done") ? "; done" : "");
    }
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        if (placed) placed->mark(recording, given.flag("done"));
        if (hours)
          answers::so_many(recording.book(), date_of(given, terminal), *hours);  // more than a day is refused
        const book::EntryId entry = book::stop_clock(recording, worker, date_of(given, terminal), hours);
        if (placed) placed->remark(recording, entry);
        return entry;
      },
      done);
}

int run_show(const Given& given, Terminal& terminal, const book::Book& book) {
  const auto clocks = book::clocks(book);
  if (given.json()) {
    terminal.out << words::clocks_as_json(clocks, terminal.now);
    return 0;
  }
  if (clocks.empty()) terminal.out << "no clock runs; start one: nonrunner clock on TAG OPERATION\n";
  for (const book::Clock& running : clocks)
    terminal.out << fmt::format(
        "{}: {}, {}, {}, since {}\n", running.worker, running.vehicle, running.operation,
        counted(book::hours_of(running, terminal.now).shown(), "hour"), words::shown_time(running.since));
  return 0;
}

int run_clock(const Given& given, Terminal& terminal) {
  const std::string worker = given.text_or("worker", "me");
  const std::string& what = given.word(0);
  book::Book book = open_book(given, terminal);
  for (const char* option : {"date", "hours", "for", "done"})
    if (given.flag(option) && what != "off")
      given.wrong(
          fmt::format("found --{} with {}, expected it with off: the clock runs from now on", option, what));
  if (what == "on") return run_on(given, terminal, book, worker);
  if (what == "off") return run_off(given, terminal, book, worker);
  if (what == "show") return run_show(given, terminal, book);
  given.wrong("found \"" + what + "\", expected on, off or show");
}
}  // namespace

extern const Command clock_command;
const Command clock_command{
    {"clock",
     "on|off|show [TAG] [OPERATION]",
     "a running clock for own hours; it survives restarts",
     "nonrunner clock on pip front brakes",
     {{"worker", "NAME", "whose clock (else yours)"},
      {"hours", "N", "off: how long it really was"},
      {"date", "DAY", "off: the day that the hours are booked on (else today)"},
      for_option(),
      done_option(),
      new_option()},
     true,
     "clock off records the hours. A clock past 12 hours is asked about, not believed."},
    run_clock};

}  // namespace nonrunner::commands
