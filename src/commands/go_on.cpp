#include "answers/go_on.h"

#include "book/events/finding.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "figures/opinion.h"
#include "text/toml.h"
#include "words/go_on.h"
#include "words/why_not.h"

namespace nonrunner::commands {

namespace {

using answers::GoOnAnswer;

std::string as_text(const GoOnAnswer& answer) {
  const Currency& c = answer.currency;
  const appraisal::CourseFromHere& take = answer.result.courses[answer.result.advice];
  std::string text =
      fmt::format("{}{}\n\n    {}  {}\n\n", answer.tag, answer.cause.empty() ? "" : ": " + answer.cause,
                  take.name, shown_units(take.value, c));
  if (take.value < 0) text += "  even the best course loses from here: a loss\n";
  if (const std::string sure = words::how_sure(answer); !sure.empty()) text += in_80("  " + sure, 2) + "\n";
  Columns columns("lrrrrrr");
  columns.row({"course", "brings", "to spend", "back", "own hours", "days", "from here"});
  for (const words::CourseRow& row : words::courses(answer))
    columns.row({row.course, row.brings, row.spend, row.back, row.hours, row.days, row.from_here});
  text += columns.text();
  text += in_80(words::what_courses_say, 2);
  if (const std::string rests = words::what_price_rests_on(answer); !rests.empty()) text += in_80(rests, 2);
  text += "\n" + in_80(words::spent_already(answer), 2);
  if (answer.from_book)
    text +=
        in_80("from the appraisal in force and what is booked; courses of your own: --file COURSES.toml", 2);
  if (!answer.by_chance.empty())
    text += in_80(fmt::format("nobody looked for it yet, so it counts by its chance: {}; once you looked: "
                              "nonrunner note {} TEXT --trouble NAME=there, or NAME=\"not there\"",
                              words::troubles_by_chance(answer), answer.tag),
                  2);
  if (answer.not_put_right)
    text += in_80("put right: not possible, since " + words::in_words(*answer.not_put_right), 2);
  if (answer.can_be_put_right() && !answer.not_needed.empty())
    text += in_80(fmt::format("back on put right as well, since its estimate has no use for it: {}; if it "
                              "has: nonrunner under {} HEADING --paper-line ID",
                              fmt::join(answer.not_needed, ", "), answer.tag),
                  2);
  if (answer.life.ended != 0)
    text += fmt::format("{} was {} on {}: this looks back, nothing is left to decide\n", answer.tag,
                        book::shown(answer.life.state), answer.life.ended_said.iso());
  return text;
}

int run_go_on(const Given& given, Terminal& terminal) {
  const Day day = date_of(given, terminal);
  book::Book book = open_book(given, terminal);
  answers::GoOnAsked asked{given.word(0), given.text_or("cause", ""), given.day("date"), {}};
  if (const auto file = given.text("file")) {
    book::know_vehicle(book, "go-on", asked.tag);
    asked.courses = appraisal::read_courses(read_file(*file), *file);
  }
  const GoOnAnswer answer = answers::go_on(book, asked, terminal.today);
  if (given.flag("keep")) {
    book::Recording recording(book, terminal.now, terminal.today);
    book::Finding finding{day, asked.tag, words::in_words(answer), {}};
    if (!answer.cause.empty()) finding.facts.push_back({book::fact::cause, answer.cause, ""});
    record(recording, finding);
    recording.keep();
  }
  if (given.json()) {
    terminal.out << words::to_json(answer);
  } else {
    terminal.out << as_text(answer);
    if (given.flag("keep")) terminal.out << "kept as a finding of " << day.iso() << "\n";
  }
  return 0;
}

}  // namespace

extern const Command go_on;
const Command go_on{
    {"go-on",
     "TAG",
     "go on or stop: what each course still brings from here",
     "nonrunner go-on sprat --file sample-jobs/sprat/go-on.toml --date 2025-03-09",
     {{"file", "COURSES.toml", "the courses from a file instead of the appraisal in force"},
      {"cause", "NAME", "the cause that was found (else the one noted last)"},
      {"keep", "", "keeps the answer as a dated finding"},
      {"date", "DAY", "as it stood at the end of that day, which the finding bears (else today)"}},
     true,
     "COURSES.toml: hour, holding_per_day and a [[course]] each with name, brings, selling, spend, hours,\n"
     "days, back (what comes back on that course alone), or ways = [{ chance, brings, ... }]."},
    run_go_on};

}  // namespace nonrunner::commands
