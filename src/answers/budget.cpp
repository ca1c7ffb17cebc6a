#include "answers/budget.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "answers/kept_job.h"
#include "appraisal/budget.h"
#include "appraisal/evidence.h"
#include "appraisal/sound_value.h"
#include "book/events/assigned.h"
#include "book/events/finding.h"
#include "exact/hint.h"
#include "exact/nearest.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

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
  return kind == Kind::paid_hours || kind == Kind::part || kind == Kind::consumable || kind == Kind::sublet ||
         kind == Kind::fee || kind == Kind::other_cost;
}

// The place of a heading that a person named: a line of the estimate, or else a line of that name with
// nothing expected, made where there is none yet.
std::size_t place_of_heading(Budget& budget, const std::string& heading) {
  for (std::size_t i = 0; i < budget.lines.size(); ++i)
    if (budget.lines[i].estimate.what == heading) return i;
  appraisal::EstimatedLine own;
  own.kind = appraisal::EstimatedLine::Kind::own_heading;
  own.group = heading;
  own.what = heading;
  own.qty = 0;
  BudgetLine& line = budget.lines.emplace_back();
  line.estimate = own;
  line.in_estimate = false;
  return budget.lines.size() - 1;
}

std::size_t place_of_work(Budget& budget, const std::string& heading) {
  for (std::size_t i = 0; i < budget.work.size(); ++i)
    if (budget.work[i].estimate.operation == heading) return i;
  budget.work.push_back({{heading, heading, 0}, {}, 0, false});
  return budget.work.size() - 1;
}

void match_money(Budget& budget, const std::map<std::string, std::string>& assigned) {
  std::vector<appraisal::Booked> booked;
  for (const book::MoneyLine& line : budget.money) {
    // A return goes with its purchase: it has the same name, said differently.
    std::string what = line.what;
    if (const auto at = what.find(" went back"); at != std::string::npos) what.resize(at);
    booked.push_back({is_cost(line.kind) && line.kind != book::MoneyKind::paid_hours ? what : "", line.paper,
                      line.kind == book::MoneyKind::sublet || line.kind == book::MoneyKind::fee,
                      line.kind == book::MoneyKind::fee});
  }
  const auto under = appraisal::under_lines(budget.estimate, booked);
  for (std::size_t i = 0; i < budget.money.size(); ++i) {
    std::optional<std::size_t> place;
    if (is_cost(budget.money[i].kind)) {
      const auto by_line = assigned.find("line " + budget.money[i].line);
      const auto by_entry = assigned.find("entry " + std::to_string(budget.money[i].entry));
      const auto by_operation = assigned.find("operation " + budget.money[i].operation);
      if (by_line != assigned.end())
        place = place_of_heading(budget, by_line->second);
      else if (by_entry != assigned.end())
        place = place_of_heading(budget, by_entry->second);
      else if (by_operation != assigned.end() && budget.money[i].kind == book::MoneyKind::paid_hours)
        place = place_of_heading(budget, by_operation->second);
      else
        place = under[i];
    }
    budget.money_under.push_back(place);
    if (!place) continue;
    budget.lines[*place].booked -= budget.money[i].amount;
    if (budget.money[i].quantity) budget.lines[*place].pieces += *budget.money[i].quantity;
  }
}

// Opening up ends when the cause is known.
void end_what_is_finished(Budget& budget) {
  for (BudgetLine& line : budget.lines)
    line.finished = line.estimate.kind == appraisal::EstimatedLine::Kind::opening_up && budget.cause_is_noted;
  for (BudgetWork& work : budget.work)
    work.finished = work.estimate.group == appraisal::opening_up && budget.cause_is_noted;
}

void work_out_what_is_to_come(Budget& budget) {
  for (BudgetLine& line : budget.lines) {
    if (line.finished) continue;
    line.to_come = line.by_piece() ? line.each.times(std::max(Quantity{}, line.qty - line.pieces))
                                   : std::max(Money{}, line.expected - line.booked);
    budget.cash_to_come += line.to_come;
  }
  for (BudgetWork& work : budget.work) {
    if (work.finished) continue;
    work.to_come = std::max(0.0, work.estimate.hours - work.booked.approximately());
    budget.hours_to_come += work.to_come;
  }
}

}  // namespace

bool in_estimate(const Budget& budget, std::size_t money) {
  const auto under = budget.money_under[money];
  return under && budget.lines[*under].in_estimate;
}

bool BudgetLine::by_piece() const {
  using Kind = appraisal::EstimatedLine::Kind;
  return estimate.kind == Kind::part || estimate.kind == Kind::consumable;
}

book::Expected expected_of(const Budget& budget, const Currency& currency) {
  const double fixed = budget.estimate.selling - budget.estimate.commission_rate * budget.estimate.sale_price;
  // An advert that is booked is one of the costs of selling that were expected.
  Money to_come = in_money(fixed, currency);
  for (const book::MoneyLine& line : budget.money)
    if (line.kind == book::MoneyKind::selling_cost) to_come += line.amount;
  return {budget.cash_to_come, std::max(Money{}, to_come),
          Rate::parse(fmt::format("{:.9f}", budget.estimate.commission_rate))};
}

std::optional<Budget> appraised_cause(const book::Book& book, const std::string& tag,
                                      const std::string& cause, std::optional<Day> on) {
  const auto kept = kept_job(book, tag, on);
  if (!kept) {
    if (!cause.empty())
      throw hinted<Refusal>(tag + ": no appraisal is kept for it", {Action::keep_appraisal, {}});
    return std::nullopt;
  }
  Budget budget;
  budget.kept_on = kept->day;
  budget.job = kept->job;
  const std::string noted = cause.empty() ? book::found_cause(book, tag, on) : cause;
  std::size_t place = 0;
  if (!noted.empty()) {
    place = place_of_cause(budget.job, noted, tag);
    budget.cause_is_noted = true;
  } else {
    for (std::size_t i = 1; i < budget.job.causes.size(); ++i)
      if (budget.job.causes[i].odds > budget.job.causes[place].odds) place = i;
  }
  budget.cause = budget.job.causes[place].name;
  return budget;
}

std::string why_not_put_right(const Budget& budget) {
  if (budget.job.road_barred) return "the paper is lost, which bars the road";
  for (const appraisal::Cause& cause : budget.job.causes)
    if (cause.name == budget.cause && !cause.correction) return "the appraisal has no correction for it";
  return "";
}

std::optional<Budget> budget_of(const book::Book& book, const std::string& tag, const std::string& cause,
                                std::optional<Day> on) {
  std::optional<Budget> begun = appraised_cause(book, tag, cause, on);
  if (!begun) return std::nullopt;
  Budget& budget = *begun;
  const appraisal::Courses courses(budget.job, appraisal::sound_value_of(budget.job).mean);
  const auto estimate = appraisal::estimate_of(courses, place_of_cause(budget.job, budget.cause, tag));
  if (!estimate) return std::nullopt;
  budget.estimate = *estimate;
  for (const appraisal::EstimatedLine& estimated : budget.estimate.lines) {
    BudgetLine& line = budget.lines.emplace_back();
    line.estimate = estimated;
    line.qty = Quantity::of(std::llround(estimated.qty * 1000));
    line.each = in_price(estimated.price, book.currency());
    line.expected = line.each.times(line.qty);
  }
  for (const appraisal::EstimatedWork& work : budget.estimate.work)
    budget.work.push_back({work, {}, 0, true});
  budget.money = book::money_of(book, tag, on);
  const auto assigned = book::assigned(book, tag);
  match_money(budget, assigned);
  budget.worked = book::work_of(book, tag, on);
  for (const book::WorkLine& worked : budget.worked) {
    std::optional<std::size_t> under;
    if (const auto named = assigned.find("operation " + worked.operation); named != assigned.end())
      under = place_of_work(budget, named->second);
    else if (!worked.after_sale)
      under = appraisal::under_work(budget.estimate, worked.operation);
    budget.worked_under.push_back(under);
    if (under) budget.work[*under].booked += worked.own;
  }
  const book::Life life = book::life_of(book, tag, on);
  end_what_is_finished(budget);
  // A car in pieces is not put right any more.
  if (life.ended == 0 && life.parted == 0) work_out_what_is_to_come(budget);
  return begun;
}

}  // namespace nonrunner::answers
