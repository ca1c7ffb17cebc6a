#include "book/events/done.h"

#include "answers/budget.h"
#include "answers/made_ready.h"
#include "answers/placing.h"
#include "book/ledger/marks.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"
#include "words/paper_places.h"

namespace nonrunner::commands {

namespace {

// Goes on where the answer is yes; nothing is recorded otherwise.
void expect_yes(const std::string& words, const std::string& yes, const char* option, Terminal& terminal) {
  const answers::Question question{
      "done", words, {{"y", yes, option, ""}, {"n", "leave it as it is", "", ""}}, {}};
  if (ask(question, terminal) != 0) throw Refusal("done: left as it is; nothing recorded");
}

// A fault that must be put right is not left by the way.
void expect_left_said(const Given& given, Terminal& terminal, const book::Book& book,
                      const book::Done& done) {
  if (done.says != book::says::not_needed || given.flag("left")) return;
  const auto budget = answers::budget_of(book, done.vehicle);
  if (!budget) return;
  for (const appraisal::Fault& fault : budget->job.faults)
    for (const std::string& line : done.lines)
      if (fault.must && fault.name == line)
        expect_yes(
            fmt::format("\"{}\" has to be put right before {} is sold, by its appraisal", line, done.vehicle),
            "it stays on the car all the same", "left", terminal);
}

// Each word a line; or all of them one, whose name needs no quotes then.
std::vector<std::string> lines_named(const Given& given, const book::Book& book, const std::string& tag) {
  std::string together;
  std::vector<std::string> lines;
  for (std::size_t i = 1; i < given.count(); ++i) together += (i > 1 ? " " : "") + given.word(i);
  if (given.count() > 2)
    if (const auto line = answers::line_if_wholly_named(book, tag, together)) return {*line};
  for (std::size_t i = 1; i < given.count(); ++i)
    lines.push_back(answers::line_named(book, "done", tag, given.word(i)));
  return lines;
}

// What cannot be is said before anything is asked: it is recorded, and not kept.
void expect_possible(book::Book& book, const Terminal& terminal, const book::Done& done) {
  book::Recording trial(book, terminal.now, terminal.today);
  trial.strict_words = true;
  record(trial, done);
}

int run_done(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  if (given.count() == 0) given.wrong("found no words, expected TAG, and the lines that are done");
  book::Done done;
  done.day = date_of(given, terminal);
  done.vehicle = given.word(0);
  if (given.flag("not-needed") && given.flag("reopen"))
    given.wrong("found --not-needed and --reopen, expected one of them");
  done.says = given.flag("not-needed") ? book::says::not_needed
              : given.flag("reopen")   ? book::says::open
                                       : book::says::done;
  done.lines = lines_named(given, book, done.vehicle);
  expect_possible(book, terminal, done);
  std::string said;
  if (done.lines.empty()) {
    const std::string open = words::in_words(answers::open_in_budget(book, done.vehicle), book.currency());
    if (!given.flag("ready") && done.says == book::says::done)
      expect_yes(fmt::format("this makes {} ready{}", done.vehicle,
                             open.empty() ? ", and nothing of it is open" : ", and closes " + open),
                 "it is", "ready", terminal);
    said = fmt::format("{} is ready{}", done.vehicle, open.empty() ? "" : "; closed: " + open);
  } else {
    said = fmt::format("{} of {}: {}", done.says == book::says::open ? "open again" : done.says, done.vehicle,
                       fmt::join(done.lines, ", "));
    expect_left_said(given, terminal, book, done);
  }
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, done); }, said);
}

}  // namespace

extern const Command done;
const Command done{
    {"done",
     "TAG [LINE...]",
     "lines of a car's budget that are done; without a line: it is ready",
     "nonrunner done pip front brakes",
     {{"not-needed", "", "they are not needed; of a fault: it stays on the car and comes off its price"},
      {"reopen", "", "they are open again"},
      {"left", "", "a fault that has to be put right stays on the car all the same"},
      {"ready", "", "without a line: closes all that is open"},
      date_option()},
     true,
     "LINE is a number, a name or a beginning of one of: nonrunner show TAG --detail. What is done is not to "
     "come any more, and\n"
     "is in no break-even price. The first advert of a car makes it ready as well."},
    run_done};

}  // namespace nonrunner::commands
