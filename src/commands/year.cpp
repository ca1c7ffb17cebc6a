#include "commands/year.h"

#include "answers/year.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "text/counted.h"
#include "words/year_sums.h"

namespace nonrunner::commands {

int year_typed(const Given& given, const std::string& text, Day today) {
  try {
    return answers::year_named(text, today);
  } catch (const Refusal& refusal) {
    given.wrong(refusal.what());
  }
}

std::string cars_of_year(const answers::YearSums& sums, const Currency& c) {
  if (sums.cars.empty()) return fmt::format("no car in {}\n", sums.year);
  Columns columns("llrrr");
  columns.row({"car", "at the end", "result", "own hours", "an hour"});
  Money results;
  for (const answers::YearCar& car : sums.cars) {
    results += car.result;
    columns.row({car.tag, car.state, is_zero(car.result) ? "" : car.result.shown(c),
                 car.own_hours == Hours{} ? "" : car.own_hours.shown(),
                 car.per_own_hour && !is_zero(car.result) ? car.per_own_hour->shown(c) : ""});
  }
  columns.row({"sum", "", results.shown(c), sums.own_hours.shown(), ""});
  const std::string before = words::hours_before(sums);
  return columns.text() + (before.empty() ? "" : in_80("  " + before, 4));
}

namespace {

std::string first_page(const answers::YearSums& sums, const Currency& c, Day today) {
  const bool loss = is_negative(sums.result);
  std::string text =
      fmt::format("{}, before own hours and before tax\n\n    {} {}  {}\n\n", sums.year, c.code,
                  loss ? "LOSS" : "RESULT", (loss ? -sums.result : sums.result).shown(c));
  Columns columns("lrl");
  for (const words::YearRow& row : words::how_it_comes_about(sums))
    columns.row({"  " + row.what, row.amount.shown(c), row.remark});
  if (!columns.empty()) text += columns.text() + "\n";
  Columns hours("lrl");
  hours.row({"  own hours", sums.own_hours.shown(), ""});
  if (sums.per_own_hour) hours.row({"  result an hour", sums.per_own_hour->shown(c), "result / own hours"});
  text += hours.text() + "\n" + words::end_of(sums, today) + "\n";
  Columns end("lrl");
  for (const words::YearRow& row : words::there_at_the_end(sums, c))
    end.row({"  " + row.what, row.amount.shown(c), row.remark});
  text += end.text();
  if (sums.without_paper > 0)
    text += fmt::format("  {} bought without a paper\n", counted(sums.without_paper, "thing"));
  return text + "\n" + cars_of_year(sums, c);
}

int run_year(const Given& given, Terminal& terminal) {
  const int year =
      given.word_if(0) ? year_typed(given, given.word(0), terminal.today) : terminal.today.year();
  const book::Book book = open_book(given, terminal);
  const answers::YearSums sums = answers::sums_of(answers::year_figures(book, year, terminal.today));
  if (given.json())
    terminal.out << words::to_json(sums, book.currency());
  else
    terminal.out << first_page(sums, book.currency(), terminal.today)
                 << in_80(fmt::format("\nall of it: nonrunner workbook year {} year-{}.xlsx", year, year), 2);
  return 0;
}

}  // namespace

extern const Command year;
const Command year{{"year",
                    "[YEAR]",
                    "the first page of a year: what it brought, what is still there",
                    "nonrunner year 2025",
                    {},
                    true,
                    "Without a year this one, up to today. No tax advice."},
                   run_year};

}  // namespace nonrunner::commands
