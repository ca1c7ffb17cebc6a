#include "answers/fixes.h"

#include <algorithm>

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/hours_limit.h"
#include "commands/job_given.h"
#include "commands/screen.h"
#include "commands/way_picture.h"
#include "exact/ends.h"
#include "figures/appraisal.h"
#include "figures/opinion.h"
#include "text/tag.h"
#include "words/fixes.h"
#include "words/way_in_words.h"
#include "words/why_not.h"

namespace nonrunner::commands {

namespace {

using answers::FixesAnswer;
using appraisal::ChoiceSet;

std::optional<double> cash_limit(const Given& given, const Currency& currency) {
  const auto money = given.money("cash", currency);
  if (!money) return std::nullopt;
  if (is_negative(*money)) given.wrong("--cash: found an amount below 0, expected 0 or more");
  return in_units(*money, currency);
}

std::string shown_hours(double hours) { return fmt::format("{:.2f}", hours); }

// Every choice that there is, with the gain; an arrow at what the best set does.
std::string choices_text(const FixesAnswer& answer) {
  const ChoiceSet& set = answer.chosen();
  const Currency& c = answer.job.currency;
  Columns columns("lllrrr");
  columns.row({"", "fault", "choice", "gain", "own hours", "cash"});
  for (std::size_t k = 0; k < answer.classes.size(); ++k) {
    const std::string name = (answer.fault(k).must ? "* " : "") + answer.classes[k].name;
    bool first = true;
    for (std::size_t j = 0; j < answer.classes[k].choices.size(); ++j) {
      const bool left = answer.is_left(k, j), taken = set.picks[k] == j;
      if (left && !taken) continue;
      const appraisal::Choice& choice = answer.classes[k].choices[j];
      columns.row({taken ? "->" : "", first ? name : "", left ? "leave it" : choice.name,
                   left ? "" : shown_units(choice.gain, c), left ? "" : shown_hours(choice.hours),
                   left ? "" : shown_units(choice.cash, c)});
      first = false;
    }
  }
  std::string text = "\n" + columns.text() + "-> what the best set does";
  if (answer.has_must()) text += "; * must be put right";
  return text + "\n";
}

std::string listed(const FixesAnswer& answer, const std::vector<std::size_t>& faults, bool with_choice) {
  std::string text;
  for (const std::size_t k : faults)
    text +=
        (text.empty() ? "" : "; ") +
        (with_choice ? answer.choice(k).name + " (" + answer.classes[k].name + ")" : answer.classes[k].name);
  return text;
}

// The fixes of the best set as they would be done.
std::string order_text(const FixesAnswer& answer) {
  const Currency& c = answer.job.currency;
  std::string text;
  if (!answer.must.empty()) text += in_80("must be put right: " + listed(answer, answer.must, true), 2);
  if (!answer.order.empty()) {
    text += answer.must.empty() ? "in this order, by what an hour of each earns\n"
                                : "then, in this order, by what an hour of each earns\n";
    Columns columns("rl");
    constexpr std::size_t most = 5;
    for (std::size_t i = 0; i < std::min(most, answer.order.size()); ++i) {
      const auto& [k, an_hour] = answer.order[i];
      columns.row({"  " + (an_hour ? shown_units(*an_hour, c) : std::string("no hours")),
                   answer.choice(k).name + " (" + answer.classes[k].name + ")"});
    }
    text += columns.text();
    if (answer.order.size() > most)
      text += fmt::format("  and {} more that earn less an hour\n", answer.order.size() - most);
  }
  if (!answer.no_room.empty())
    text += in_80("would pay, but not within the limits: " + listed(answer, answer.no_room, false), 2);
  if (!answer.left.empty())
    text += in_80("leave: " + listed(answer, answer.left, false) + "; no fix wins back what it costs", 2);
  return text;
}

std::string way_text(const FixesAnswer& answer) {
  if (answer.steps.empty()) return "";
  const Currency& c = answer.job.currency;
  const std::string picture = picture_of_way(
      answer.frontier, answer.steps, shown_units(std::min(0.0, answer.frontier.front().gain), c),
      shown_units(answer.frontier.back().gain, c), std::min<std::size_t>(56, screen_columns() - 22));
  if (picture.empty()) return "";
  std::string text = fmt::format("\nthe best gain at each budget of own hours{}\n",
                                 answer.limits.cash ? ", within the cash" : "");
  text += picture + "\n";
  Columns columns("lrrrl");
  columns.row({"", "own hours", "gain", "an hour", "next"});
  for (std::size_t i = 0; i < answer.steps.size(); ++i) {
    const ChoiceSet* before = i > 0 ? &answer.steps[i - 1] : nullptr;
    columns.row({i < 26 ? std::string(1, static_cast<char>('a' + i)) : "+",
                 shown_hours(answer.steps[i].hours), shown_units(answer.steps[i].gain, c),
                 before ? shown_units(per_hour(*before, answer.steps[i]), c) : "",
                 words::next_in_words(answer.job, answer.classes, before, answer.steps[i])});
  }
  text += columns.text();
  text += fmt::format("gains pay own hours at {} an hour, and what holding costs meanwhile\n",
                      shown_units(answer.job.shop.hour, c));
  return text;
}

// What is chosen here pays on a car that is sold running, and this one is not meant to be.
std::string not_put_right_text(const FixesAnswer& answer, const std::string& asked) {
  const std::string tag = answer.job.vehicle.tag.empty() ? "this car" : answer.job.vehicle.tag;
  if (answer.not_put_right)
    return in_80(tag + " is not put right, since " + words::in_words(*answer.not_put_right) +
                     "; these fixes would pay only on a car that is sold running",
                 2) +
           "\n";
  const std::string more = names_a_file(asked) ? "appraise " + asked : "go-on " + tag;
  if (!answer.other_course.empty())
    return in_80(
               fmt::format(
                   "by its appraisal {} is not put right: {} leaves more; these fixes would pay only "
                   "on a car that is sold running; more: nonrunner {}",
                   tag,
                   answer.other_course == figures::do_nothing ? "doing nothing with it" : answer.other_course,
                   more),
               2) +
           "\n";
  return "";
}

std::string as_text(const FixesAnswer& answer, const std::string& asked, bool detail) {
  const std::string& tag = answer.job.vehicle.tag;
  if (answer.classes.empty())
    return fmt::format("{}: the job file names no [[fault]], so there is nothing to fix\n", tag);
  std::string text = not_put_right_text(answer, asked);
  if (answer.has_limits()) {
    text += in_80(fmt::format("{}, within the limits: {}", tag, words::in_words(answer, answer.limited)), 2);
    text += in_80("without limits: " + words::in_words(answer, answer.best), 2) + "\n";
  } else {
    text += in_80(fmt::format("{}: {}", tag, words::in_words(answer, answer.best)), 2) + "\n";
  }
  text += order_text(answer);
  if (!detail) return text + "\nmore: nonrunner fixes " + asked + " --detail\n";
  return text + choices_text(answer) + way_text(answer);
}

int run_fixes(const Given& given, Terminal& terminal) {
  const JobGiven job = job_given(given, terminal, given.word(0));
  FixesAnswer answer =
      answers::fixes(job.job, {hours_limit(given, "6.5"), cash_limit(given, job.job.currency)});
  if (names_a_file(given.word(0)))
    answers::say_whether_put_right(answer);
  else
    answers::say_whether_put_right(answer, *job.book, as_tag(given.word(0)));
  terminal.out << (given.json() ? words::to_json(answer)
                                : as_text(answer, given.word(0), given.flag("detail")));
  return 0;
}

}  // namespace

extern const Command fixes;
const Command fixes{
    {"fixes",
     "JOB.toml|TAG",
     "which fixes pay, which comes next, and where to stop",
     "nonrunner fixes sample-jobs/sprat/job.toml --hours 8 --cash 480",
     {{"hours", "N", "own hours at most, as they will really be taken"},
      {"cash", "N", "cash at most for all fixes together"},
      {"detail", "", "every choice with its gain, and the way to the best set step by step"}},
     true,
     "The best set within the limits is found exactly. A fault marked must is put right whatever it costs.\n"
     "Gains are expected: what the fix wins back on the sale price, less its cash, its own hours and the "
     "days they take."},
    run_fixes};

}  // namespace nonrunner::commands
