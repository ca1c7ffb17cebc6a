#include <algorithm>

#include "answers/placing.h"
#include "book/events/assigned.h"
#include "book/questions/figures.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/entry_number.h"
#include "exact/nearest.h"

namespace nonrunner::commands {

namespace {
int run_under(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Assign assign;
  assign.vehicle = given.word(0);
  assign.heading = given.word(1);
  // A bare number is a line of the budget.
  if (std::all_of(assign.heading.begin(), assign.heading.end(), [](char c) { return c >= '0' && c <= '9'; }))
    assign.heading = answers::line_named(book, "under", assign.vehicle, assign.heading);
  assign.line = given.text_or("line", "");
  assign.operation = given.text_or("operation", "");
  if (const auto entry = given.text("entry")) assign.entry = entry_number(given, *entry);
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        book::assign(recording, assign);
        if (!assign.operation.empty()) {
          std::vector<std::string> booked;
          for (const auto& each : book::figures_of(book, assign.vehicle, terminal.today).hours)
            booked.push_back(each.operation);
          if (std::find(booked.begin(), booked.end(), assign.operation) == booked.end())
            recording.remarks().push_back(fmt::format("no hours are booked under \"{}\" yet{}",
                                                      assign.operation,
                                                      did_you_mean(assign.operation, booked)));
        }
        return book::EntryId{0};
      },
      "it stands under \"" + assign.heading + "\" now");
}
}  // namespace

extern const Command under;
const Command under{
    {"under",
     "TAG HEADING",
     "puts a line, entry or operation under a heading of the budget",
     "nonrunner under pip discovery --line R07.1",
     {{"line", "LINE", "a receipt line, by its id"},
      {"entry", "ENTRY", "an entry, by its number"},
      {"operation", "NAME", "the hours of an operation"}},
     true,
     "HEADING is a line of the estimate, one of its groups (a correction, fixes, fees), or a word of your\n"
     "own, such as discovery. It moves no money; what is still to come, the break-even price, variance, "
     "learn and\n"
     "own pace follow it."},
    run_under};

}  // namespace nonrunner::commands
