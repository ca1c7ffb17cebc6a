#include "commands/budget_of.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "appraisal/budget.h"
#include "appraisal/evidence.h"
#include "appraisal/read_job.h"
#include "appraisal/sound_value.h"
#include "book/finding.h"
#include "exact/ends.h"
#include "exact/nearest.h"

namespace nonrunner::commands {

namespace {

std::size_t place_of_cause(const appraisal::Job& job, const std::string& name, const std::string& tag) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < job.causes.size(); ++i) {
    if (job.causes[i].name == name) return i;
    names.push_back(job.causes[i].name);
  }
  std::string known = did_you_mean(name, names);
  if (known.empty()) {
    known = "; it knows:";
    for (const std::string& each : names) known += " \"" + each + "\"";
  }
  throw Refusal(fmt::format("{}: the appraisal in force knows no cause \"{}\"{}", tag, name, known));
}

bool is_cost(book::MoneyKind kind) {
  using Kind = book::MoneyKind;
  return kind == Kind::part || kind == Kind::consumable || kind == Kind::sublet || kind == Kind::fee || kind == Kind::other_cost;
}

void match_money(Budget& budget) {
  std::vector<appraisal::Booked> booked;
  for (const book::MoneyLine& line : budget.money) {
    // A return goes with its purchase: it has the same name, said differently.
    std::string what = line.what;
    if (const auto at = what.find(" went back"); at != std::string::npos) what.resize(at);
    booked.push_back({is_cost(line.kind) ? what : "", line.paper, line.kind == book::MoneyKind::sublet || line.kind == book::MoneyKind::fee});
  }
  const auto under = appraisal::under_lines(budget.estimate, booked);
  for (std::size_t i = 0; i < budget.money.size(); ++i) {
    const bool counts = is_cost(budget.money[i].kind) && under[i].has_value();
    budget.money_under.push_back(counts ? under[i] : std::nullopt);
    if (counts) budget.lines[*under[i]].booked -= budget.money[i].amount;
  }
}

void work_out_what_is_to_come(Budget& budget, const Currency& currency) {
  using Kind = appraisal::EstimatedLine::Kind;
  for (std::size_t i = 0; i < budget.lines.size(); ++i) {
    BudgetLine& line = budget.lines[i];
    const bool by_piece = line.estimate.kind == Kind::part || line.estimate.kind == Kind::consumable;
    if (by_piece) {
      double pieces = 0;
      for (std::size_t j = 0; j < budget.money.size(); ++j)
        if (budget.money_under[j] == i && budget.money[j].quantity) pieces += budget.money[j].quantity->approximately();
      line.to_come = money_of_double(std::max(0.0, line.estimate.qty - pieces) * line.estimate.price, currency);
    } else {
      line.to_come = std::max(Money{}, line.expected - line.booked);
    }
    budget.cash_to_come += line.to_come;
  }
  for (BudgetWork& work : budget.work) {
    work.to_come = std::max(0.0, work.estimate.hours - work.booked.approximately());
    budget.hours_to_come += work.to_come;
  }
}

}  // namespace

Money money_of_double(double amount, const Currency& currency) {
  double scale = 1;
  for (int i = 0; i < currency.digits; ++i) scale *= 10;
  return Money::of_minor(static_cast<std::int64_t>(std::llround(amount * scale)));
}

std::optional<Budget> budget_of(const book::Book& book, const std::string& tag, const std::string& cause) {
  const auto kept = book::appraisal_in_force(book, tag);
  if (!kept) {
    if (!cause.empty()) throw Refusal(tag + ": no appraisal is kept for it; keep one with: nonrunner appraise JOB.toml --keep");
    return std::nullopt;
  }
  Budget budget;
  budget.kept_on = kept->day;
  budget.job = appraisal::read_job(kept->job, "the appraisal of " + tag, book.currency());
  const std::string noted = cause.empty() ? book::found_cause(book, tag) : cause;
  std::size_t place = 0;
  if (!noted.empty()) {
    place = place_of_cause(budget.job, noted, tag);
    budget.cause_is_noted = true;
  } else {
    for (std::size_t i = 1; i < budget.job.causes.size(); ++i)
      if (budget.job.causes[i].odds > budget.job.causes[place].odds) place = i;
  }
  budget.cause = budget.job.causes[place].name;
  const appraisal::Courses courses(budget.job, appraisal::sound_value_of(budget.job).mean);
  const auto estimate = appraisal::estimate_of(courses, place);
  if (!estimate) return std::nullopt;
  budget.estimate = *estimate;
  for (const appraisal::EstimatedLine& line : budget.estimate.lines)
    budget.lines.push_back({line, money_of_double(line.cash(), book.currency()), {}, {}});
  for (const appraisal::EstimatedWork& work : budget.estimate.work) budget.work.push_back({work, {}, 0});
  budget.money = book::money_of(book, tag);
  match_money(budget);
  budget.worked = book::work_of(book, tag);
  for (const book::WorkLine& worked : budget.worked) {
    const auto under = worked.after_sale ? std::nullopt : appraisal::under_work(budget.estimate, worked.operation);
    budget.worked_under.push_back(under);
    if (under) budget.work[*under].booked += worked.own;
  }
  if (book::life_of(book, tag).ended == 0) work_out_what_is_to_come(budget, book.currency());
  return budget;
}

}  // namespace nonrunner::commands
