#include "words/budget.h"

#include <fmt/format.h>

#include "figures/opinion.h"
#include "words/finding.h"
#include "words/why_not.h"

namespace nonrunner::words {

std::string chance_of_line(double chance) {
  return chance < 0.01 ? "under 1 %" : fmt::format("{:.0f} %", chance * 100);
}

bool is_certain(const answers::BudgetLine& line) { return !line.in_estimate || line.chance() >= 0.995; }

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

BudgetRow row_of(const answers::BudgetLine& line, bool ended, const Currency& c) {
  const bool certain = is_certain(line);
  return {line.number,
          line.estimate.what,
          certain ? "" : chance_of_line(line.chance()),
          !line.in_estimate ? "not in it"
          : certain         ? line.expected.shown(c)
                            : "",
          is_zero(line.booked) ? "" : line.booked.shown(c),
          ended ? "" : to_come_of(line, c),
          ended || !certain ? "" : (line.booked + line.to_come).shown(c)};
}

BudgetRow row_of(const answers::BudgetWork& work, bool ended) {
  return {work.number,
          work.estimate.operation,
          work.in_estimate && work.chance < 0.995 ? chance_of_line(work.chance) : "",
          work.in_estimate ? fmt::format("{:.1f}", work.estimate.hours) : "not in it",
          work.booked == Hours{} ? "" : work.booked.shown(),
          ended ? "" : to_come_of(work),
          ""};
}

std::string against(const answers::Budget& budget) {
  return budget.appraised
             ? fmt::format("against the appraisal of {}, cause \"{}\"", budget.kept_on.iso(), budget.cause)
             : std::string("against what was planned by hand");
}

std::vector<std::string> ahead(const book::Book& book, const answers::Budget& budget,
                               const book::VehicleFigures& figures, Day today, std::optional<Day> on,
                               const std::string& note_cause) {
  const Currency& c = book.currency();
  if (figures.still_brings) {
    if (is_zero(budget.cash_to_come) && budget.hours_to_come < 0.05) return {};
    return {fmt::format("the work of parting it out is still to come: {} and {:.1f} own hours",
                        budget.cash_to_come.shown(c), budget.hours_to_come)};
  }
  std::vector<std::string> all = {
      fmt::format("still to come: {} (in the break-even price, as the costs of selling are) and {:.1f} own "
                  "hours (not in it)",
                  budget.cash_to_come.shown(c), budget.hours_to_come)};
  if (budget.repair_unknown) all.emplace_back("without the repair: its cause is not in the appraisal");
  if (budget.not_put_right) all.push_back("without a repair: " + in_words(*budget.not_put_right));
  if (!budget.cause_is_noted)
    all.push_back(fmt::format("if the cause is \"{}\", the likeliest ({}): nobody noted the one found{}",
                              budget.cause, chance_of_line(budget.cause_chance), note_cause));
  if (const answers::IfCause* dearest = budget.dearest()) {
    const book::VehicleFigures then =
        book::figures_of(book, figures.tag, today, on, expected_of(budget, *dearest, c));
    if (then.break_even_price)
      all.push_back(fmt::format("if it is \"{}\" ({}): break-even {}, with {} still to come", dearest->cause,
                                chance_of_line(dearest->chance), then.break_even_price->shown(c),
                                dearest->to_come.shown(c)));
  }
  // A quick line that stands nowhere yet may be one of those that are still to come.
  Money nowhere;
  std::string entries;
  for (const answers::PlacedMoney& line : budget.money) {
    if (!line.quick || line.place || !book::is_cost(line.kind)) continue;
    nowhere -= line.amount;
    entries += fmt::format("{}{} \"{}\"", entries.empty() ? "" : ", ", line.entry, line.what);
  }
  if (!entries.empty() && !is_zero(budget.cash_to_come))
    all.push_back(fmt::format("to come may be up to {} too high: under no line stand entry {}",
                              std::min(nowhere, budget.cash_to_come).shown(c), entries));
  return all;
}

std::string fees_ahead(const answers::Budget& budget, const Currency& c) {
  const Money fees = answers::fees_to_come(budget);
  return is_zero(fees) ? ""
                       : fmt::format(
                             "of the fees that were expected (title, transport) {} stays to come until it "
                             "is paid, or said to be done",
                             fees.shown(c));
}

std::vector<std::string> doubts(const answers::Budget& budget) {
  std::vector<std::string> all;
  for (const std::string& fault : budget.left_faults)
    all.push_back("left on the car, and off its price: " + fault);
  std::string unlooked;
  for (std::size_t j = 0; j < budget.trouble_there.size() && !budget.ready; ++j) {
    const appraisal::Trouble& trouble = budget.job.troubles[j];
    if (budget.trouble_there[j] || !(trouble.chance > 0)) continue;
    const double cash = trouble.cash.mean();
    unlooked +=
        fmt::format("{}{} ({}{})", unlooked.empty() ? "" : ", ", trouble.name, chance_of_line(trouble.chance),
                    cash > 0 ? ", " + shown_units(cash, budget.job.currency) : "");
  }
  if (!unlooked.empty())
    all.push_back("nobody looked for it yet, so it is not in the break-even price: " + unlooked);
  for (const book::Fact& test : budget.against)
    all.push_back("speaks against \"" + budget.cause + "\": " + test.name + " = " + test.value);
  for (const book::Fact& finding : budget.not_in_it)
    all.push_back("not in the appraisal: " + in_words(finding));
  return all;
}

}  // namespace nonrunner::words
