#include <algorithm>

#include "answers/budget.h"
#include "answers/links.h"
#include "answers/loose.h"
#include "answers/placing.h"
#include "book/events/assigned.h"
#include "book/ledger/names.h"
#include "book/questions/figures.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/entry_number.h"
#include "exact/nearest.h"
#include "figures/every_budget.h"

namespace nonrunner::commands {

namespace {
// Goes through what stands under no line, one key each; every answer is kept at once.
int run_sort(book::Book& book, const std::string& tag, Terminal& terminal) {
  book::know_vehicle(book, "under", tag);
  const std::vector<answers::Loose> loose = answers::loose_of(book, tag);
  if (!terminal.in) {
    for (const answers::Loose& each : loose)
      terminal.out << in_80(printable(answers::question_of(each, book.currency()).words), 2);
    terminal.out << fmt::format(
        "{} of {} under no line of its budget; at a terminal they are asked about one by one\n", loose.size(),
        tag);
    return 0;
  }
  std::size_t placed = 0;
  for (const answers::Loose& each : loose) {
    const std::size_t choice = ask(answers::question_of(each, book.currency()), terminal);
    if (choice == each.may_be.size() + 1) break;
    if (choice == each.may_be.size()) continue;
    book::Assign assign = each.thing;
    assign.heading = each.may_be[choice].name;
    book::Recording recording(book, terminal.now, terminal.today);
    book::assign(recording, assign);
    recording.keep();
    ++placed;
  }
  terminal.out << fmt::format("{} of {} placed\n", placed, loose.size());
  return 0;
}

// Where a heading may stand beside others: all that the budget knows by name, and what it was given before.
std::vector<std::string> headings_of(const book::Book& book, const std::string& tag) {
  std::vector<std::string> all = {figures::every_budget::fees, figures::every_budget::opening_up,
                                  figures::every_budget::pulling_parts, figures::every_budget::readying};
  const std::vector<std::string> cars = book::all_tags(book);  // another one is refused by the event
  if (std::find(cars.begin(), cars.end(), tag) == cars.end()) return all;
  for (const answers::LineName& each : answers::line_names(book, tag)) all.push_back(each.name);
  if (const auto budget = answers::budget_of(book, tag))
    for (const auto& line : budget->lines) all.insert(all.end(), {line.estimate.what, line.estimate.group});
  for (const auto& [what, heading] : book::assigned(book, tag)) all.push_back(heading);
  return all;
}

// A heading of one's own that is written nearly as another one is a slip of the finger, as a rule.
std::string may_be_a_slip(const std::string& heading, const std::vector<std::string>& known) {
  if (std::find(known.begin(), known.end(), heading) != known.end()) return "";
  const std::string meant = did_you_mean(heading, known);
  return meant.empty() ? "" : fmt::format("\"{}\" is a new heading{}", heading, meant);
}

std::string as_was_typed(const book::Assign& assign) {
  if (!assign.line.empty()) return "--paper-line " + assign.line;
  if (!assign.operation.empty()) return "--operation \"" + assign.operation + "\"";
  return fmt::format("--entry {}", assign.entry);
}

// A heading that is there already holds; else a line of the budget by its number or its beginning; else one that it is
// close to is asked about. Gives what is to be said where nobody is there to ask.
std::string settle_heading(Terminal& terminal, const book::Book& book, book::Assign& assign) {
  const std::vector<std::string> known = headings_of(book, assign.vehicle);
  if (std::find(known.begin(), known.end(), assign.heading) != known.end() || assign.heading.empty())
    return "";
  // A bare number is a line of the budget.
  if (std::all_of(assign.heading.begin(), assign.heading.end(),
                  [](char c) { return c >= '0' && c <= '9'; })) {
    assign.heading = answers::line_named(book, "under", assign.vehicle, assign.heading);
    return "";
  }
  const std::vector<std::string> cars = book::all_tags(book);
  if (std::find(cars.begin(), cars.end(), assign.vehicle) == cars.end()) return "";
  if (const auto line = answers::line_if_named(book, assign.vehicle, assign.heading)) {
    assign.heading = *line;
    return "";
  }
  const answers::Places places(book, assign.vehicle);
  for (const bool is_hours : {!assign.operation.empty(), assign.operation.empty()}) {
    const answers::Placing near = places.placing(assign.heading, is_hours);
    if (near.close.empty()) continue;
    if (!terminal.in)
      return fmt::format("\"{}\" is a new heading; if it is line {}, {}: nonrunner under {} \"{}\" {}",
                         assign.heading, near.number, near.close, assign.vehicle, near.close,
                         as_was_typed(assign));
    answers::Question question = answers::question_of(near, "under", assign.heading);
    question.choices[1].words = "it is a heading of its own";
    if (ask(question, terminal) == 0) assign.heading = near.close;
    return "";
  }
  return "";
}

int run_under(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  if (given.flag("sort")) {
    if (given.count() != 1) given.wrong("found words beside --sort, expected TAG alone");
    return run_sort(book, given.word(0), terminal);
  }
  if (given.count() != 2) given.wrong("found 1 word, expected TAG HEADING");
  book::Assign assign;
  assign.vehicle = given.word(0);
  assign.heading = given.word(1);
  assign.line = given.text_or("paper-line", "");
  assign.operation = given.text_or("operation", "");
  if (const auto entry = given.text("entry")) assign.entry = entry_number(given, *entry);
  const std::string close = settle_heading(terminal, book, assign);
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        const std::string slip =
            close.empty() ? may_be_a_slip(assign.heading, headings_of(book, assign.vehicle)) : close;
        book::assign(recording, assign);
        if (!slip.empty()) recording.remarks().push_back(slip);
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
     "TAG [HEADING]",
     "puts a line, entry or operation under a heading of the budget",
     "nonrunner under pip discovery --paper-line R07.1",
     {{"paper-line", "LINE", "a receipt line, by its id"},
      {"entry", "ENTRY", "an entry, by its number"},
      {"operation", "NAME", "the hours of an operation"},
      {"sort", "", "asks about all that stands under no line of the budget, one by one"}},
     true,
     "HEADING is a line of the estimate, by its name, a beginning or its number, one of its groups (a "
     "correction, fixes, fees), or a word of your\n"
     "own, such as discovery. It moves no money; what is still to come, the break-even price, variance, "
     "learn and\n"
     "own pace follow it."},
    run_under};

}  // namespace nonrunner::commands
