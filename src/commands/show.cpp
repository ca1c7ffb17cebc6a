#include "answers/budget.h"
#include "answers/budget_sums.h"
#include "answers/finding.h"
#include "answers/looked_at.h"
#include "answers/next_step.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/figures_text.h"
#include "commands/option_on.h"
#include "commands/year.h"
#include "text/lower_case.h"
#include "words/book_json.h"
#include "words/budget.h"
#include "words/finding.h"
#include "words/next_step.h"

namespace nonrunner::commands {

namespace {

// A row's number and name; what is not certain with its chance.
std::string called(const words::BudgetRow& row) {
  return fmt::format("{:>4} {}{}", row.number > 0 ? std::to_string(row.number) : "",
                     row.chance.empty() ? "" : row.chance + ": ", row.name);
}

std::string money_text(const answers::Budget& budget, bool ended, const Currency& c) {
  const answers::BudgetSums sums = answers::sums_of(budget);
  Columns money("lrrrr");
  money.row({"  money", "expected", "booked", ended ? "" : "to come", ended ? "" : "at the end"});
  for (const answers::BudgetLine& line : budget.lines) {
    const words::BudgetRow row = words::row_of(line, ended, c);
    money.row({called(row), row.expected, row.booked, row.to_come, row.at_end});
  }
  const Money others = sums.under_no_heading;
  if (!is_zero(others))
    money.row({"  under no heading", "not in it", others.shown(c), "", ended ? "" : others.shown(c)});
  money.row({"  sum", sums.expected.shown(c), sums.booked.shown(c), ended ? "" : budget.cash_to_come.shown(c),
             ended ? "" : (sums.booked + budget.cash_to_come).shown(c)});
  std::string text = money.text() + "\n";
  Columns headings("lrrr");
  headings.row({"  by heading", "expected", "booked", ended ? "" : "to come"});
  for (const answers::HeadingSum& each : answers::by_heading(budget))
    headings.row({"  " + each.heading, each.in_estimate ? each.expected.shown(c) : "not in it",
                  each.booked.shown(c), ended || is_zero(each.to_come) ? "" : each.to_come.shown(c)});
  text += headings.text();
  if (const auto kept = answers::kept_outside(budget); !kept.empty()) {
    text += "  of what is not in it, the largest:\n";
    Columns largest("lr");
    for (std::size_t i = 0; i < kept.size() && i < 5; ++i)
      largest.row({"    " + kept[i].what, kept[i].cost.shown(c)});
    text += largest.text();
  }
  return text;
}

std::string hours_text(const answers::Budget& budget, bool ended) {
  const answers::BudgetSums sums = answers::sums_of(budget);
  Columns hours("lrrr");
  hours.row({"  own hours", "expected", "booked", ended ? "" : "to come"});
  for (const answers::BudgetWork& work : budget.work) {
    const words::BudgetRow row = words::row_of(work, ended);
    hours.row({called(row), row.expected, row.booked, row.to_come});
  }
  if (sums.hours_under_no_heading > Hours{})
    hours.row({"  under no heading", "not in it", sums.hours_under_no_heading.shown(), ""});
  hours.row({"  sum", fmt::format("{:.1f}", sums.expected_hours), sums.all_hours.shown(),
             ended ? "" : fmt::format("{:.1f}", budget.hours_to_come)});
  return "\n" + hours.text();
}

std::string budget_as_text(const answers::Budget& budget, bool ended, const Currency& c) {
  std::string text = "\n" + words::against(budget) + "\n";
  if (!budget.cause_is_noted)
    text += "(the likeliest; note the one found: nonrunner note TAG TEXT --cause N)\n";
  text += money_text(budget, ended, c) + hours_text(budget, ended);
  if (ended || budget.only_if.empty()) return text;
  Columns only("lr");
  for (const answers::OtherLine& line : budget.only_if)
    only.row({called({line.number, line.estimate.what, words::chance_of_line(line.chance), "", "", "", ""}),
              line.if_needed.shown(c)});
  return text + "\nonly if it is another cause\n" + only.text();
}

// Under the break-even price: what it rests on.
std::string ahead_as_text(const answers::Budget& budget, const book::Book& book,
                          const book::VehicleFigures& figures, Day today, std::optional<Day> on) {
  std::string text;
  const std::string note_cause = fmt::format(" (nonrunner note {} TEXT --cause N: {})", figures.tag,
                                             answers::causes_by_number(budget.job));
  for (const std::string& each : words::ahead(book, budget, figures, today, on, note_cause))
    text += in_80("  " + each, 2);
  if (budget.in_pieces) return text;
  for (const std::string& each : words::doubts(budget)) text += in_80("  " + each, 2);
  if (const std::string tests = answers::tests_by_number(budget.job);
      !budget.cause_is_noted && !tests.empty())
    text +=
        in_80(printable(fmt::format("  not looked at yet (nonrunner note {} TEXT --seen TEST=OUTCOME): {}",
                                    figures.tag, tests)),
              2);
  return text;
}

// How far its sale is, where the detail does not say it.
std::string sale_as_text(const book::VehicleFigures& figures, const Currency& c) {
  std::string text;
  if (!is_zero(figures.deposit_held))
    text += "  a buyer's deposit is held: " + figures.deposit_held.shown(c) + "\n";
  if (figures.advertised_last)
    text += fmt::format("  it stands in the advert at {}\n", figures.advertised_last->shown(c));
  return text;
}

// What was found, word for word: the last of it, or all.
std::string notes_text(const book::Book& book, const std::string& tag, std::optional<Day> on, bool all) {
  const auto findings = book::findings(book, tag, on);
  std::string text;
  for (std::size_t i = all || findings.size() < 3 ? 0 : findings.size() - 3; i < findings.size(); ++i) {
    text += in_80(printable(fmt::format("  {}  {}", findings[i].day.iso(), findings[i].text)), 14);
    for (const book::Fact& fact : findings[i].facts)
      if (const std::string words = words::in_words(fact); lower_case(words) != lower_case(findings[i].text))
        text += in_80(printable("              " + words), 16);
  }
  return text.empty() ? "" : "\nnotes\n" + text;
}

// What comes next for a car that is not sold.
std::string next_text(const book::VehicleFigures& figures, const std::optional<answers::Budget>& budget) {
  if (figures.life.state != book::State::owned) return "";
  const auto step = answers::next_step(figures.life.state, figures.still_brings.has_value(), budget);
  return step ? in_80(printable("  next: " + words::in_words(*step)), 4) : "";
}

// Of a car that was looked at: what was asked, and what it may cost at most, as it was said then.
std::string kept_text(const book::Book& book, const std::string& tag, std::optional<Day> on) {
  const auto kept = answers::kept_verdict(book, tag, on);
  if (!kept) return "";
  const Currency& c = book.currency();
  const auto shown = [&](const std::string& amount) { return Money::parse(amount, c).shown(c); };
  std::string text = fmt::format("appraised on {}: {}", kept->day.iso(), kept->verdict);
  if (!kept->asked.empty()) text += ", asked " + shown(kept->asked);
  if (!kept->at_most.empty()) text += ", at most " + shown(kept->at_most);
  return "\n" + in_80(text, 2);
}

int run_show(const Given& given, Terminal& terminal) {
  if (given.count() == 0) return list_cars(given, terminal);
  const auto on = day_on(given, terminal.today);
  const book::Book book = open_book(given, terminal);
  const std::string& tag = given.word(0);
  book::know_vehicle(book, "show", tag);
  const auto budget = answers::budget_of(book, tag, "", on);
  const book::VehicleFigures figures =
      book::figures_of(book, tag, terminal.today, on,
                       budget ? answers::expected_of(*budget, book.currency()) : book::Expected{});
  answers::FirstKnown known = answers::known_by(book, tag, on.value_or(terminal.today));
  known.by_then = known.by_then || !on;  // without a day it is the book as it is
  if (given.json()) {
    terminal.out << words::to_json(figures, budget, book, known);
    return 0;
  }
  if (!known.by_then) {
    terminal.out << in_80(fmt::format("{}: nothing of it is in the book up to {}{}", tag, on->iso(),
                                      known.first ? "; the first is of " + known.first->iso() : ""),
                          2);
    return 0;
  }
  const bool detail = given.flag("detail"), ended = figures.life.ended != 0;
  terminal.out << figures_as_text(figures, book, detail);
  if (budget && !ended && figures.life.bought != 0)
    terminal.out << ahead_as_text(*budget, book, figures, terminal.today, on);
  if (!ended && !detail) terminal.out << sale_as_text(figures, book.currency());
  if (!ended && !on) terminal.out << next_text(figures, budget);
  if (figures.life.bought == 0) terminal.out << kept_text(book, tag, on);
  if (detail || !ended) terminal.out << notes_text(book, tag, on, detail);
  if (detail && budget) terminal.out << budget_as_text(*budget, ended, book.currency());
  if (!detail) terminal.out << fmt::format("\nmore: nonrunner show {} --detail\n", tag);
  return 0;
}
}  // namespace

extern const Command show;
const Command show{
    {"show",
     "[TAG]",
     "one car: result or break-even, cost, hours, budget, what is due",
     "nonrunner show pip",
     {{"detail", "", "every figure, the budget line by line, the hours, what is due back"}, on_option()},
     true,
     "Without a car all of them are listed."},
    run_show};

}  // namespace nonrunner::commands
