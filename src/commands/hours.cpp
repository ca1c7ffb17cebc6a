#include "book/events/hours.h"

#include "answers/doubles.h"
#include "answers/links.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/placed.h"
#include "exact/ends.h"
#include "exact/spread.h"
#include "text/counted.h"

namespace nonrunner::commands {

namespace {

// Own hours of several days, spread evenly from the first to the last: in thousandths, none lost.
std::vector<book::Labour> spread_over_days(const Given& given, const book::Labour& labour) {
  const Day first = given.day("from").value_or(labour.day);
  const int days = days_between(first, labour.day) + 1;
  if (days < 1 || days > 31)
    given.wrong(fmt::format("--from: found {}, expected a day up to {}, at most 30 days before", first.iso(),
                            labour.day.iso()));
  if (days == 1) return {labour};
  if (labour.paid > Hours{}) given.wrong("found --from and --paid, expected own hours to spread");
  const std::vector<Money> parts = spread(Money::of_minor(labour.own.thousandths()),
                                          std::vector<std::int64_t>(static_cast<std::size_t>(days), 1));
  std::vector<book::Labour> all;
  for (int i = 0; i < days; ++i) {
    book::Labour part = labour;
    part.day = first.plus(i);
    part.own = Hours::of(parts[static_cast<std::size_t>(i)].minor());
    if (part.own > Hours{}) all.push_back(part);
  }
  return all;
}

std::optional<answers::Question> so_many_on(const Given& given, const book::Book& book,
                                            const book::Labour& labour) {
  try {
    return answers::so_many(book, labour.day, labour.own);
  } catch (const Refusal& refusal) {
    if (given.flag("from")) throw;
    throw Refusal(std::string(refusal.what()) + "; those of several days: --from DAY");
  }
}

// What may be there already, and days that are very long, are asked about.
void settle_doubles(const Given& given, Terminal& terminal, const book::Book& book, book::Labour& labour) {
  const auto settle = [&](const std::optional<answers::Question>& question) {
    if (question && question->choices[ask(*question, terminal)].option.empty())
      throw Refusal("hours: left out; nothing was recorded");
  };
  labour.again = given.flag("again");
  if (labour.own > Hours{}) {
    const auto long_day = so_many_on(given, book, labour);
    if (!given.flag("long-day")) settle(long_day);
  }
  if (labour.again) return;
  const auto like = answers::another_one(book, labour);
  settle(like);
  labour.again = like.has_value();
}

// The line of the work has hours and no money: what a helper was paid stands under none, but for one of money by that name.
std::string wage_said(const book::Book& book, const book::Labour& labour, const Placed& placed) {
  if (labour.paid == Hours{} || placed.placing().line.empty()) return "";
  const auto of_money =
      answers::of_own_name(answers::line_names(book, labour.vehicle), placed.placing().line, false);
  return of_money ? "" : ", its money under no line: the estimate has none for it";
}

int book_hours(const Given& given, Terminal& terminal, book::Book& book, const book::Labour& labour,
               const Placed& placed) {
  std::vector<book::Labour> days = spread_over_days(given, labour);
  for (book::Labour& day : days) settle_doubles(given, terminal, book, day);
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        book::EntryId entry = 0;
        for (const book::Labour& day : days) {
          placed.mark(recording, given.flag("done") && day.day == labour.day);
          entry = record(recording, day);
        }
        placed.remark(recording, entry);
        return entry;
      },
      fmt::format(
          "{} on {}: {}{}{}{}",
          counted((labour.own + labour.paid).shown(), labour.paid > Hours{} ? "paid hour" : "own hour"),
          labour.vehicle, labour.operation, placed.said() + wage_said(book, labour, placed),
          days.size() > 1 ? fmt::format(", over {} days from {}", days.size(), days.front().day.iso()) : "",
          given.flag("done") ? "; done" : ""));
}

int run_hours(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Labour labour;
  labour.day = date_of(given, terminal);
  labour.vehicle = given.word(0);
  const Placed placed(given, terminal, book, labour.vehicle, given.word(2), true);
  labour.operation = placed.words();
  Hours hours;
  try {
    hours = given.word_as_hours(1);
    if (const auto rate = given.text("paid")) {
      labour.paid = hours;
      labour.rate = typed_price(*rate, book.currency());
      labour.purse = purse_of(given, terminal, book, "hours");
      labour.who = given.text("who").value_or("");
    } else {
      if (given.text("who"))
        given.wrong("--who: found a name without --paid, expected both: own hours are the owner's");
      labour.own = hours;
    }
  } catch (const Refusal& refusal) {
    given.wrong(refusal.what());
  }
  return book_hours(given, terminal, book, labour, placed);
}
}  // namespace

extern const Command hours;
const Command hours{{"hours",
                     "TAG N OPERATION",
                     "hours worked: own ones, or a helper's that are paid",
                     "nonrunner hours pip 1.5 front brakes",
                     {{"paid", "RATE", "a helper's hours, at this rate an hour"},
                      {"who", "NAME", "who was paid; it stands in the year's workbook"},
                      for_option(),
                      done_option(),
                      {"from", "DAY", "spreads own hours evenly over the days from this one on"},
                      {"again", "", "these are others, though the same are there already"},
                      {"long-day", "", "more than 16 own hours on one day are meant"},
                      purse_option(),
                      date_option(),
                      new_option()},
                     true,
                     "OPERATION may be the number of a line of: nonrunner show TAG --detail."},
                    run_hours};

}  // namespace nonrunner::commands
