#include "answers/budget.h"
#include "answers/budget_sums.h"
#include "answers/finding.h"
#include "answers/looked_at.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/figures_text.h"
#include "commands/option_on.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {

std::string in_percent(double chance) {
  return chance < 0.01 ? "under 1 %" : fmt::format("{:.0f} %", chance * 100);
}

// The line's number and name; what is not certain with its chance.
std::string called(int number, const std::string& name, double chance) {
  return fmt::format("{:>4} {}{}", number > 0 ? std::to_string(number) : "",
                     chance < 0.995 ? in_percent(chance) + ": " : "", name);
}

// What is to come of a line: what is not certain is shown as what it comes to if it is needed, and is no sum.
std::string to_come_of(const answers::BudgetLine& line, const Currency& c) {
  if (line.state == answers::LineState::not_needed) return "not needed";
  if (line.finished()) return line.in_estimate ? "done" : "";
  if (line.chance() < 0.995) return "if so " + line.if_needed.shown(c);
  return is_zero(line.to_come) ? "" : line.to_come.shown(c);
}
std::string to_come_of(const answers::BudgetWork& work) {
  if (work.state == answers::LineState::not_needed) return "not needed";
  if (work.finished()) return work.in_estimate ? "done" : "";
  return work.to_come < 0.05 ? "" : fmt::format("{:.1f}", work.to_come);
}

std::string money_text(const answers::Budget& budget, bool ended, const Currency& c) {
  const answers::BudgetSums sums = answers::sums_of(budget);
  Columns money("lrrrr");
  money.row({"  money", "expected", "booked", ended ? "" : "to come", ended ? "" : "at the end"});
  for (const answers::BudgetLine& line : budget.lines) {
    const bool certain = !line.in_estimate || line.chance() >= 0.995;
    money.row({called(line.number, line.estimate.what, certain ? 1 : line.chance()),
               !line.in_estimate ? "not in it"
               : certain         ? line.expected.shown(c)
                                 : "",
               is_zero(line.booked) ? "" : line.booked.shown(c), ended ? "" : to_come_of(line, c),
               ended || !certain ? "" : (line.booked + line.to_come).shown(c)});
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
  for (const answers::BudgetWork& work : budget.work)
    hours.row({called(work.number, work.estimate.operation, work.in_estimate ? work.chance : 1),
               work.in_estimate ? fmt::format("{:.1f}", work.estimate.hours) : "not in it",
               work.booked == Hours{} ? "" : work.booked.shown(), ended ? "" : to_come_of(work)});
  if (sums.hours_under_no_heading > Hours{})
    hours.row({"  under no heading", "not in it", sums.hours_under_no_heading.shown(), ""});
  hours.row({"  sum", fmt::format("{:.1f}", sums.expected_hours), sums.all_hours.shown(),
             ended ? "" : fmt::format("{:.1f}", budget.hours_to_come)});
  return "\n" + hours.text();
}

std::string budget_as_text(const answers::Budget& budget, bool ended, const Currency& c) {
  std::string text = budget.appraised ? fmt::format("\nagainst the appraisal of {}, cause \"{}\"\n",
                                                    budget.kept_on.iso(), budget.cause)
                                      : std::string("\nagainst what was planned by hand\n");
  if (!budget.cause_is_noted)
    text += "(the likeliest; note the one found: nonrunner note TAG \"...\" --cause NAME)\n";
  text += money_text(budget, ended, c) + hours_text(budget, ended);
  if (ended || budget.only_if.empty()) return text;
  Columns only("lr");
  for (const answers::OtherLine& line : budget.only_if)
    only.row({called(line.number, line.estimate.what, line.chance), line.if_needed.shown(c)});
  return text + "\nonly if it is another cause\n" + only.text();
}

// Under the break-even price: what it rests on.
std::string ahead_as_text(const answers::Budget& budget, const book::Book& book,
                          const book::VehicleFigures& figures, Day today, std::optional<Day> on,
                          bool detail) {
  const std::string& tag = figures.tag;
  const Currency& c = book.currency();
  std::string text = in_80(
      fmt::format(
          "  still to come: {} and {:.1f} own hours (in the break-even price, as the costs of selling are)",
          budget.cash_to_come.shown(c), budget.hours_to_come),
      2);
  if (budget.repair_unknown) text += "  without the repair: its cause is not in the appraisal\n";
  if (!budget.cause_is_noted)
    text += in_80(fmt::format("  if the cause is \"{}\", the likeliest ({}): nobody noted the one found "
                              "(nonrunner note {} \"...\" --cause NAME)",
                              budget.cause, in_percent(budget.cause_chance), tag),
                  2);
  if (const answers::IfCause* dearest = budget.dearest()) {
    const book::VehicleFigures then =
        book::figures_of(book, tag, today, on, expected_of(budget, *dearest, c));
    if (then.break_even_price)
      text += in_80(fmt::format("  if it is \"{}\" ({}): break-even {}, with {} still to come",
                                dearest->cause, in_percent(dearest->chance), then.break_even_price->shown(c),
                                dearest->to_come.shown(c)),
                    2);
  }
  // A quick line that stands nowhere yet may be one of those that are still to come.
  Money nowhere;
  std::string entries;
  for (std::size_t i = 0; i < budget.money.size(); ++i) {
    const book::MoneyLine& line = budget.money[i];
    if (!line.quick || budget.money_under[i] || !book::is_cost(line.kind)) continue;
    nowhere -= line.amount;
    entries += fmt::format("{}{} \"{}\"", entries.empty() ? "" : ", ", line.entry, line.what);
  }
  if (!entries.empty() && !is_zero(budget.cash_to_come))
    text += in_80(fmt::format("  to come may be up to {} too high: under no line stand entry {}",
                              std::min(nowhere, budget.cash_to_come).shown(c), entries),
                  2);
  if (!detail && !is_zero(figures.deposit_held))
    text += "  a buyer's deposit is held: " + figures.deposit_held.shown(c) + "\n";
  if (!detail && figures.advertised_last)
    text += fmt::format("  it stands in the advert at {}\n", figures.advertised_last->shown(c));
  for (const std::string& fault : budget.left_faults)
    text += in_80("  left on the car, and off its price: " + fault, 2);
  for (const std::string& test : budget.against)
    text += in_80("  speaks against \"" + budget.cause + "\": " + test, 2);
  for (const std::string& finding : budget.not_in_it) text += in_80("  not in the appraisal: " + finding, 2);
  return text;
}

// What was found, word for word: the last of it, or all.
std::string notes_text(const book::Book& book, const std::string& tag, std::optional<Day> on, bool all) {
  const auto findings = book::findings(book, tag, on);
  std::string text;
  for (std::size_t i = all || findings.size() < 3 ? 0 : findings.size() - 3; i < findings.size(); ++i) {
    text += in_80(printable(fmt::format("  {}  {}", findings[i].day.iso(), findings[i].text)), 14);
    for (const book::Fact& fact : findings[i].facts)
      text += in_80(printable("              " + answers::in_words(fact)), 16);
  }
  return text.empty() ? "" : "\nnotes\n" + text;
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
  const auto on = given.day("on");
  const book::Book book = open_book(given, terminal);
  const std::string& tag = given.word(0);
  book::know_vehicle(book, "show", tag);
  const auto budget = answers::budget_of(book, tag, "", on);
  const book::VehicleFigures figures =
      book::figures_of(book, tag, terminal.today, on,
                       budget ? answers::expected_of(*budget, book.currency()) : book::Expected{});
  if (given.json()) {
    terminal.out << words::to_json(figures, budget, book);
    return 0;
  }
  const bool detail = given.flag("detail"), ended = figures.life.ended != 0;
  terminal.out << as_text(figures, book, detail);
  if (budget && !ended && figures.life.bought != 0 && !figures.still_brings)
    terminal.out << ahead_as_text(*budget, book, figures, terminal.today, on, detail);
  if (figures.life.bought == 0) terminal.out << kept_text(book, tag, on);
  if (detail || figures.life.bought == 0) terminal.out << notes_text(book, tag, on, detail);
  if (detail && budget) terminal.out << budget_as_text(*budget, ended, book.currency());
  if (!detail) terminal.out << fmt::format("\nmore: nonrunner show {} --detail\n", tag);
  return 0;
}
}  // namespace

extern const Command show;
const Command show{
    {"show",
     "TAG",
     "one car: result or break-even, cost, hours, budget, what is due",
     "nonrunner show pip",
     {{"detail", "", "every figure, the budget line by line, the hours, what is due back"}, on_option()},
     true,
     ""},
    run_show};

}  // namespace nonrunner::commands
