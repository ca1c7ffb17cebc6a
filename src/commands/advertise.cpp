#include <algorithm>

#include "answers/budget.h"
#include "answers/placing.h"
#include "book/events/advertised.h"
#include "book/ledger/marks.h"
#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {

// The lines that are open in the budget of a car, by their names.
std::vector<std::string> names_of_open_lines(const book::Book& book, const std::string& tag) {
  std::vector<std::string> open;
  const auto budget = answers::budget_of(book, tag);
  if (!budget) return open;
  for (const answers::BudgetLine& line : budget->lines)
    if (!line.finished() && line.in_estimate && !is_zero(line.if_needed))
      open.push_back(
          fmt::format("{} {} ({})", line.number, line.estimate.what, line.if_needed.shown(book.currency())));
  for (const answers::BudgetWork& work : budget->work)
    if (!work.finished() && work.to_come >= 0.05)
      open.push_back(fmt::format("{} {} ({:.1f} h)", work.number, work.estimate.operation, work.to_come));
  return open;
}

std::vector<std::string> must_without_anything(const book::Book& book, const std::string& tag) {
  std::vector<std::string> faults;
  const auto budget = answers::budget_of(book, tag);
  if (!budget) return faults;
  for (const answers::BudgetLine& line : budget->lines)
    for (const appraisal::Fault& fault : budget->job.faults)
      if (fault.must && fault.name == line.estimate.what && line.state == answers::LineState::done &&
          is_zero(line.booked))
        faults.push_back(fault.name);
  return faults;
}

int run_advertise(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Advertised advertised{date_of(given, terminal), given.word(0),
                                    given.word_as_money(1, book.currency())};
  std::vector<std::string> still_to_do;
  for (const std::string& line : given.texts("still-to-do"))
    still_to_do.push_back(answers::line_named(book, "advertise", advertised.vehicle, line));
  const std::vector<std::string> before = names_of_open_lines(book, advertised.vehicle);
  const int status = record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        for (const std::string& line : still_to_do)
          recording.marks.push_back({advertised.vehicle, book::says::open, line});
        const book::EntryId entry = record(recording, advertised);
        std::vector<std::string> closed;
        const std::vector<std::string> after = names_of_open_lines(recording.book(), advertised.vehicle);
        for (const std::string& line : before)
          if (std::find(after.begin(), after.end(), line) == after.end()) closed.push_back(line);
        if (!closed.empty())
          recording.remarks().push_back(
              fmt::format("it is ready with that, and nothing more of these is to come: {}; what is still to "
                          "do: nonrunner done "
                          "{} LINE --reopen",
                          fmt::join(closed, "; "), advertised.vehicle));
        // Closed as done though nothing was booked: that may be so, and is worth a look.
        for (const std::string& fault : must_without_anything(recording.book(), advertised.vehicle))
          recording.remarks().push_back(
              "it has to be put right before it is sold, and nothing is booked on it: " + fault);
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
