#include "appraisal/go_on.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "answers/budget.h"
#include "appraisal/sound_value.h"
#include "book/events/finding.h"
#include "book/ledger/settings.h"
#include "book/questions/figures.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"
#include "figures/opinion.h"
#include "text/toml.h"

namespace nonrunner::commands {

namespace {

using Json = nlohmann::ordered_json;

// Fees that are still to be paid are the same on every course, and part of none.
Money fees_to_come(const answers::Budget& budget) {
  Money sum;
  for (const answers::BudgetLine& line : budget.lines)
    if (line.estimate.kind == appraisal::EstimatedLine::Kind::fees) sum += line.to_come;
  return sum;
}

// The lines that can still go back unused, and which of them putting right has no use for: parts of a wrong
// guess, which stand under no line of the estimate for this cause and under no heading of one's own.
struct Sealed {
  Money all, not_needed;
  std::vector<std::string> what_is_not_needed;
};
Sealed sealed_of(const book::Book& book, const std::string& tag, const answers::Budget& budget, Day day) {
  Sealed sealed;
  for (const book::MayGoBack& each : book::may_go_back(book, day, tag)) {
    bool needed = false;
    for (std::size_t i = 0; i < budget.money.size(); ++i)
      needed = needed || (budget.money[i].line == each.line && budget.money_under[i]);
    sealed.all += each.refund;
    if (needed) continue;
    sealed.not_needed += each.refund;
    sealed.what_is_not_needed.push_back(each.what);
  }
  return sealed;
}

// The courses as the appraisal in force, what is booked and the cause say.
appraisal::OpenCourses courses_from_book(const book::Book& book, const answers::Budget& budget,
                                         const Sealed& sealed) {
  const appraisal::Job& job = budget.job;
  const appraisal::Courses courses(job, appraisal::sound_value_of(job).mean);
  std::size_t cause = 0;
  while (job.causes[cause].name != budget.cause) ++cause;
  const double sale_days = job.sale.days.mean(), costs = job.sale.costs.mean();
  const auto days_of_work = [&](double hours) { return hours / job.shop.hours_per_week * 7; };
  appraisal::OpenCourses open;
  open.hour = in_units(book::hour(book), book.currency());
  if (open.hour == 0) open.hour = job.shop.hour;
  open.holding_per_day = job.shop.holding_per_day;
  for (const appraisal::Course course : appraisal::all_courses) {
    const auto figures = courses.figures(cause, 0, course);
    if (!figures) continue;
    appraisal::Way way;
    way.brings = figures->brings;
    switch (course) {
      case appraisal::Course::put_right:
        way.spend = in_units(budget.cash_to_come - fees_to_come(budget), book.currency());
        way.hours = budget.hours_to_come;
        way.back = in_units(sealed.not_needed, book.currency());
        way.selling = costs + job.sale.rate * way.brings;
        way.days = days_of_work(way.hours) + (way.hours > 0 ? job.shop.wait_days.mean() : 0) + sale_days;
        break;
      case appraisal::Course::as_found:
        way.selling = costs + job.sale.rate * way.brings;
        way.days = sale_days;
        way.back = in_units(sealed.all, book.currency());
        break;
      case appraisal::Course::part_out:
        way.selling = appraisal::part_out_of(job, job.causes[cause])->costs.mean();
        way.hours = appraisal::part_out_of(job, job.causes[cause])->hours.mean() * courses.pace();
        way.days = days_of_work(way.hours);
        way.back = in_units(sealed.all, book.currency());
        break;
      case appraisal::Course::scrap:
        way.selling = appraisal::scrap_of(job, job.causes[cause])->costs.mean();
        way.back = in_units(sealed.all, book.currency());
        break;
    }
    open.courses.push_back({appraisal::name_of(course), {way}});
  }
  return open;
}

std::string shown(double amount, const Currency& currency) {
  return in_money(amount, currency).shown(currency);
}
std::string plain(double amount, const Currency& currency) {
  return in_money(amount, currency).plain(currency);
}

std::string in_words(const appraisal::GoOn& result, const Currency& c) {
  const appraisal::CourseFromHere& take = result.courses[result.advice];
  std::string text = fmt::format("go on or stop: {} (from here {}", take.name, shown(take.value, c));
  for (const appraisal::CourseFromHere& each : result.courses)
    if (each.name != take.name) text += fmt::format("; {} {}", each.name, shown(each.value, c));
  return text + ")";
}

std::string as_text(const appraisal::GoOn& result, const std::string& tag, Money spent, Hours worked,
                    bool from_book, const std::string& cause, std::optional<Day> on, const Currency& c) {
  const appraisal::CourseFromHere& take = result.courses[result.advice];
  std::string text = fmt::format("{}{}\n\n    {}  {}\n\n", tag, cause.empty() ? "" : ": " + cause, take.name,
                                 shown(take.value, c));
  if (take.value < 0) text += "  even the best course loses from here: a loss\n";
  if (result.courses.size() > 1) {
    if (result.too_close)
      text += fmt::format("  too close to call ({} apart, under 5 %): take the shorter\n\n",
                          shown(result.ahead, c));
    else
      text +=
          in_80(fmt::format(
                    "  ahead by {}: it loses to \"{}\" only if it is wrong by that much money{}",
                    shown(result.ahead, c), result.courses[1].name,
                    result.hours_wrong > 0 ? fmt::format(", or {:.1f} own hours", result.hours_wrong) : ""),
                2) +
          "\n";
  }
  Columns columns("lrrrrrr");
  columns.row({"course", "brings", "to spend", "back", "own hours", "days", "from here"});
  for (const appraisal::CourseFromHere& each : result.courses)
    columns.row({each.name, shown(each.mean.brings - each.mean.selling, c), shown(each.mean.spend, c),
                 each.mean.back == 0 ? "" : shown(each.mean.back, c), fmt::format("{:.1f}", each.mean.hours),
                 fmt::format("{:.0f}", each.mean.days),
                 shown(each.value, c) + (each.value < 0 ? " loss" : "")});
  text += columns.text();
  text +=
      in_80("brings: less the costs of selling; from here: after own hours and the days' holding cost", 2);
  text += "\n" +
          in_80(fmt::format("spent already{} and the same on every course, so left out: {} and {} own hours",
                            on ? " on " + on->iso() : "", spent.shown(c), worked.shown()),
                2);
  if (from_book)
    text +=
        in_80("from the appraisal in force and what is booked; courses of your own: --file COURSES.toml", 2);
  return text;
}

int run_go_on(const Given& given, Terminal& terminal) {
  const Day day = date_of(given, terminal);
  // An earlier day: every figure as it stood at its end.
  const std::optional<Day> on = given.day("date");
  book::Book book = open_book(given, terminal);
  const Currency c = book.currency();
  const std::string tag = given.word(0);
  book::know_vehicle(book, "go-on", tag);
  const book::VehicleFigures figures = book::figures_of(book, tag, terminal.today, on);
  const auto file = given.text("file");
  // A courses file may be looked at again afterwards; from the book there is nothing left to decide, unless
  // on a day before.
  if (figures.life.ended != 0 && !file)
    throw Refusal(
        fmt::format("go-on: {} was {} on {}; there is nothing left to decide, expected a --date before that",
                    tag, book::shown(figures.life.state), figures.life.ended_day.iso()));
  if (figures.still_brings && !file)
    throw Refusal(fmt::format(
        "go-on: {} is in pieces since {}: it is parted out already, expected a car that can still be put "
        "right, a --date before that, or courses of your own with --file COURSES.toml",
        tag, figures.life.in_pieces_since->iso()));
  appraisal::OpenCourses open;
  Sealed sealed;
  std::string cause = given.text_or("cause", ""), not_put_right;
  if (file) {
    open = appraisal::read_courses(read_file(*file), *file);
  } else {
    std::optional<answers::Budget> budget = answers::budget_of(book, tag, cause, on);
    // What cannot be put right has no budget, and its other courses all the same.
    if (!budget) {
      budget = answers::appraised_cause(book, tag, cause, on);
      if (budget) not_put_right = answers::why_not_put_right(*budget);
    }
    if (!budget)
      throw Refusal(fmt::format(
          "go-on: no appraisal is kept for {}{}; keep one with nonrunner appraise JOB.toml --keep, "
          "or give the courses "
          "with --file COURSES.toml",
          tag, on ? " by " + on->iso() : ""));
    if (!budget->cause_is_noted)
      throw Refusal(
          fmt::format("go-on: which cause was found on {}? say --cause \"{}\" or the like, or note it: "
                      "nonrunner note {} \"...\" --cause \"...\"",
                      tag, budget->cause, tag));
    cause = budget->cause;
    sealed = sealed_of(book, tag, *budget, day);
    open = courses_from_book(book, *budget, sealed);
  }
  const appraisal::GoOn result = appraisal::go_on(open);
  if (given.flag("keep")) {
    book::Recording recording(book, terminal.now, terminal.today);
    record(recording, book::Finding{day, tag, in_words(result, c), cause});
    recording.keep();
  }
  if (!given.json()) {
    terminal.out << as_text(result, tag, figures.cost, figures.own_hours, !file, cause, on, c);
    if (!not_put_right.empty()) terminal.out << in_80("put right: not possible, since " + not_put_right, 2);
    const bool can_be_put_right = std::any_of(
        result.courses.begin(), result.courses.end(),
        [](const auto& each) { return each.name == appraisal::name_of(appraisal::Course::put_right); });
    if (can_be_put_right && !sealed.what_is_not_needed.empty())
      terminal.out << in_80(
          fmt::format("back on put right as well, since its estimate has no use for it: {}; if it "
                      "has: nonrunner under {} HEADING --line ID",
                      fmt::join(sealed.what_is_not_needed, ", "), tag),
          2);
    if (const book::Life now = book::life_of(book, tag); now.ended != 0)
      terminal.out << fmt::format("{} was {} on {}: this looks back, nothing is left to decide\n", tag,
                                  book::shown(now.state), now.ended_day.iso());
    if (given.flag("keep")) terminal.out << "kept as a finding of " << day.iso() << "\n";
    return 0;
  }
  Json json{{"tag", tag},
            {"currency", c.code},
            {"best", result.courses[0].name},
            {"advice", result.courses[result.advice].name},
            {"too_close", result.too_close},
            {"not_put_right", not_put_right.empty() ? Json(nullptr) : Json(not_put_right)}};
  json["ahead"] = result.courses.size() > 1 ? Json(plain(result.ahead, c)) : Json(nullptr);
  json["hours_wrong"] = result.courses.size() > 1 ? Json(result.hours_wrong) : Json(nullptr);
  json["spent"] = figures.cost.plain(c);
  json["worked"] = Json::parse(figures.own_hours.shown());
  json["courses"] = Json::array();
  for (const appraisal::CourseFromHere& each : result.courses)
    json["courses"].push_back({{"name", each.name},
                               {"value", plain(each.value, c)},
                               {"brings", plain(each.mean.brings, c)},
                               {"selling", plain(each.mean.selling, c)},
                               {"spend", plain(each.mean.spend, c)},
                               {"back", plain(each.mean.back, c)},
                               {"hours", each.mean.hours},
                               {"days", each.mean.days}});
  terminal.out << json.dump(2) << "\n";
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
