#include "words/appraisal_figures.h"

#include <fmt/format.h>

#include <bit>
#include <cmath>

#include "appraisal/chain.h"
#include "appraisal/evidence.h"
#include "appraisal/fix_choices.h"
#include "appraisal/frontier.h"
#include "appraisal/outlook.h"
#include "appraisal/source.h"
#include "exact/ends.h"
#include "figures/opinion.h"
#include "words/aims.h"
#include "words/offer_in_words.h"
#include "words/way_in_words.h"

namespace nonrunner::words {

namespace {

using namespace appraisal;

figures::CorrectionFigures correction_of(const Correction& correction, const Shop& shop) {
  using Kind = figures::CorrectionLine::Kind;
  figures::CorrectionFigures out;
  out.name = correction.name;
  for (const Operation& each : correction.operations)
    out.lines.push_back({Kind::operation, each.name, "", 1, 0, each.hours.mean(), 0});
  for (const Part& each : correction.parts) {
    const SourceChoice choice = choose_source(each, shop);
    out.lines.push_back({Kind::part, each.name, name_of(choice.source), each.qty, choice.cash / each.qty,
                         choice.hours, choice.cores / each.qty});
  }
  for (const Consumable& each : correction.consumables)
    out.lines.push_back({Kind::consumable, each.name, "", each.qty, each.price.mean(), 0, 0});
  for (const Sublet& each : correction.sublets)
    out.lines.push_back({Kind::sublet, each.name, "", 1, each.price.mean(), 0, 0});
  return out;
}

std::string troubles_in(const Job& job, unsigned present) {
  std::string names;
  for (std::size_t i = 0; i < job.troubles.size(); ++i)
    if ((present >> i & 1U) != 0) names += (names.empty() ? "" : ", ") + job.troubles[i].name;
  return names;
}

figures::CourseRow row_of(const Courses& courses, std::size_t cause, const Path& path,
                          const CourseFigures& figures) {
  const Course course = path.course;
  figures::CourseRow row;
  row.cash = figures.cash;
  row.own_hours = figures.own_hours;
  row.days = figures.days;
  row.brings = figures.brings;
  row.commission = course == Course::put_right || course == Course::as_found;
  if (course == Course::put_right) {
    for (std::size_t i = 0; i < path.tried; ++i) {
      const Step& step = courses.chain(cause).steps[i];
      row.sold_running += step.cures;
      row.corrections.emplace_back(step.correction, step.reached);
    }
  }
  return row;
}

// The state's cause and which troubles are present, of each state written.
using StatesWritten = std::vector<std::pair<std::size_t, unsigned>>;

StatesWritten add_states(figures::AppraisalFigures& out, const Appraisal& a, const Courses& courses) {
  StatesWritten written;
  const Job& job = a.job;
  const Beliefs beliefs = posterior(job);
  const States states(courses);
  const std::vector<double> chances = state_chances(job, beliefs);
  for (std::size_t cause = 0; cause < job.causes.size(); ++cause)
    for (unsigned present = 0; present < states.masks; ++present) {
      const double chance = chances[cause * states.masks + present];
      if (chance <= 0) continue;
      figures::StateFigures state;
      state.cause = job.causes[cause].name;
      state.troubles = troubles_in(job, present);
      state.chance = chance;
      state.nothing = courses.best_path(cause, present, Course::as_found) &&
                      is_nothing(job.causes[cause], Course::as_found);
      if (const auto& own = job.causes[cause].opening_cash) state.opening_cash = own->mean();
      if (const auto& own = job.causes[cause].opening_hours) state.opening_hours = own->mean();
      for (const Course course : all_courses)
        if (const auto path = courses.best_path(cause, present, course))
          state.courses[static_cast<std::size_t>(course)] =
              row_of(courses, cause, *path, courses.figures(cause, present, *path));
      for (std::size_t i = 0; i < states.at(cause, present).path.tried; ++i) {
        const Step& step = courses.chain(cause).steps[i];
        out.corrections[step.correction].chance += chance * step.reached;
      }
      out.states.push_back(state);
      written.emplace_back(cause, present);
      const std::size_t which = cause * states.masks + present;
      const auto& taken = a.asked.policy.paths;
      const auto& at_most = a.at_walk_away.paths;
      if (which < taken.size() && which < at_most.size())
        out.ways.push_back({state.cause, state.troubles, chance, path_in_words(job, cause, taken[which]),
                            path_in_words(job, cause, at_most[which])});
      const Path& best = states.at(cause, present).path;
      if (which < taken.size() && (taken[which].course != best.course || taken[which].tried != best.tried))
        out.most_profitable = false;
    }
  return written;
}

std::string percent(double chance) { return fmt::format("{:.0f} %", 100 * chance); }

void add_steps(std::vector<figures::PlanLine>& lines, const Appraisal& a, const PlanStep& step, int depth) {
  for (const PlanStep::Branch& branch : step.branches) {
    std::string text =
        fmt::format("{} ({}): ", a.job.tests[step.which].outcomes[branch.outcome], percent(branch.chance));
    if (branch.step.empty()) {
      lines.push_back({depth, text + "go on", 0});
      continue;
    }
    const PlanStep& next = branch.step.front();
    if (next.act == Do::walk_away) text += "walk away";
    if (next.act == Do::buy) text += "buy " + a.offers[next.which].name;
    if (next.act == Do::test) text += "test: " + a.job.tests[next.which].name;
    lines.push_back({depth, text, next.worth});
    add_steps(lines, a, next, depth + 1);
  }
}

std::vector<figures::PlanLine> plan_lines(const Appraisal& a, const Plan& plan) {
  const PlanStep& first = plan.steps;
  const std::string head = first.act == Do::test  ? "test: " + a.job.tests[first.which].name
                           : first.act == Do::buy ? "buy " + a.offers[first.which].name
                                                  : std::string("walk away");
  std::vector<figures::PlanLine> lines{{0, head, first.worth}};
  add_steps(lines, a, first, 1);
  return lines;
}

void add_tests(figures::AppraisalFigures& out, const Appraisal& a) {
  for (const TestWorth& each : a.plan.tests)
    out.tests.push_back({a.job.tests[each.test].name, each.cost, each.gross});
  for (const Test& each : a.job.tests)
    if (each.seen && !each.spoiled) out.tests_seen.emplace_back(each.name, each.outcomes[*each.seen]);
  out.plan_begins_with_test = a.plan.begins_with_test();
  out.decide_now = a.plan.decide_now;
  out.best_plan = a.plan.best;
  out.perfect_information = a.plan.perfect_information;
  const PlanStep& first = a.plan.steps;
  out.plan = plan_lines(a, a.plan);
  if (a.plan_at_walk_away.price != a.plan.price && !a.plan_at_walk_away.tests.empty()) {
    out.limit_plan_price = a.plan_at_walk_away.price;
    out.limit_plan = plan_lines(a, a.plan_at_walk_away);
  }
  if (a.plan.begins_with_test() && &a.next_plan() == &a.plan)
    for (const AfterTest& each : a.after_first_test)
      out.after_first_test.push_back({a.job.tests[first.which].outcomes[each.outcome], each.chance,
                                      each.walk_away.price, then_in_words(a, each)});
}

void add_faults(figures::AppraisalFigures& out, const Appraisal& a) {
  for (std::size_t i = 0; i < a.job.faults.size(); ++i) {
    const Fault& fault = a.job.faults[i];
    figures::FaultFigures row{fault.name, fault.takes_off.mean(), fault.must, {}};
    for (std::size_t j = 0; j < fault.fixes.size(); ++j)
      row.fixes.push_back({fault.fixes[j].name, fault.fixes[j].source, fault.fixes[j].restores,
                           fault.fixes[j].cash.mean(), fault.fixes[j].hours.mean(),
                           a.fixes.choices[i].fix == j});
    out.faults.push_back(row);
  }
}

// Where the sets of fixes are too many to compare exactly, the sheet has no way; `fixes` says so.
void add_way(figures::AppraisalFigures& out, const Appraisal& a) {
  if (a.job.faults.empty()) return;
  const auto classes = appraisal::fix_choices(a.job);
  std::vector<appraisal::ChoiceSet> steps;
  try {
    steps = appraisal::steps(appraisal::frontier(classes, {}));
  } catch (const Refusal&) {
    return;
  }
  for (std::size_t i = 0; i < steps.size(); ++i)
    out.way.push_back({steps[i].hours, steps[i].gain,
                       next_in_words(a.job, classes, i > 0 ? &steps[i - 1] : nullptr, steps[i])});
}

void add_comparables(figures::AppraisalFigures& out, const Appraisal& a, const SoundValue& sound) {
  if (!a.job.basis || !sound.fit) return;
  const auto& rows = a.job.basis->comparables;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const resale::Comparable& each = rows[i];
    std::string note = each.name;
    if (i < sound.fit->rows.size() && sound.fit->rows[i].far_off)
      note += "; far from what the others say: look again";
    if (i < sound.fit->rows.size() && sound.fit->rows[i].pulls) note += "; decides much of the line alone";
    out.comparables.push_back(
        {each.price, each.kind == resale::Kind::asking, each.odometer, each.year, each.grade, note});
  }
  figures::FittedLine line;
  line.at_subject = sound.fit->line;
  line.odometer = sound.fit->odometer.likely;
  line.year = sound.fit->year.likely;
  line.grade = sound.fit->grade.likely;
  line.subject_odometer = a.job.basis->subject.odometer;
  line.subject_year = a.job.basis->subject.year;
  line.subject_grade = a.job.basis->subject.grade;
  line.realised = sound.fit->realised;
  line.residual_sd = sound.fit->residual_sd;
  line.mean = sound.mean;
  if (!out.comparables.empty()) out.fitted = line;
}

// Everything that can be named: what weighs nothing now may weigh something when a figure is changed.
void add_haggling(figures::AppraisalFigures& out, const Appraisal& a, const Courses& courses,
                  const StatesWritten& states) {
  using Of = figures::HagglingRow::Of;
  const Job& job = a.job;
  const auto states_with = [&](auto&& is_there) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < states.size(); ++i)
      if (is_there(states[i].first, states[i].second)) found.push_back(i);
    return found;
  };
  out.hardly_possible = hardly_possible;
  for (std::size_t c = 0; c < job.causes.size(); ++c) {
    const auto path = courses.best_path(c, 0, Course::put_right);
    auto where = states_with([&](std::size_t cause, unsigned) { return cause == c; });
    if (!path || where.empty()) continue;
    figures::HagglingRow row{Of::cause, job.causes[c].name, job.corrections[*job.causes[c].correction].name,
                             std::move(where)};
    row.corrections = row_of(courses, c, *path, courses.figures(c, 0, *path)).corrections;
    out.haggling.push_back(std::move(row));
  }
  for (std::size_t j = 0; j < job.troubles.size(); ++j) {
    const Trouble& trouble = job.troubles[j];
    auto where = states_with([&](std::size_t, unsigned present) { return (present >> j & 1U) != 0; });
    if (where.empty()) continue;
    figures::HagglingRow row{Of::trouble, trouble.name, "", std::move(where)};
    row.cash = trouble.cash.mean() + trouble.takes_off.mean();
    row.hours = trouble.hours.mean();
    out.haggling.push_back(std::move(row));
  }
  for (std::size_t i = 0; i < job.faults.size(); ++i)
    out.haggling.push_back({Of::fault, job.faults[i].name, "", {}, i});
  out.haggling.push_back({Of::fees, "fees on purchase", ""});
  out.haggling.push_back({Of::opening_up, "opening up to find the cause", ""});
  out.haggling.push_back({Of::holding, "storage and insurance until it is sold", ""});
  out.haggling.push_back({Of::selling, "costs of the sale", ""});
  out.haggling.back().cash = job.sale.costs.mean();
}

// What the job file and the shop say.
void add_basis(figures::AppraisalFigures& out, const Appraisal& a, const Courses& courses) {
  const Job& job = a.job;
  out.tag = job.vehicle.tag;
  out.description = job.vehicle.description;
  out.complaint = job.vehicle.complaint;
  out.currency = job.currency;
  out.asking = a.asking;
  out.fees = job.deal.fees.mean();
  for (const FeeBand& band : job.deal.fee_bands) out.fee_bands.emplace_back(band.from, band.fee);
  out.purchase_rate = job.deal.rate;
  out.sound = courses.sound();
  out.pace = courses.pace();
  out.hour = job.shop.hour;
  // Where own hours take no days: so many that they come to none.
  out.hours_per_week = std::isfinite(job.shop.hours_per_week) ? job.shop.hours_per_week : 1e12;
  out.holding_per_day = job.shop.holding_per_day;
  out.bay_per_day = job.shop.bay_per_day;
  out.money_rate = job.shop.money_rate;
  out.sale_rate = job.sale.rate;
  out.opening_cash = job.opening_up.cash.mean();
  out.opening_hours = job.opening_up.hours.mean();
  for (const figures::AimRow& row : figures::aims) {
    out.aims[row.aim] = job.aims[row.aim];
    out.aim_words[row.aim] = {words_of(row.aim).by, words_of(row.aim).asks};
  }
  for (std::size_t i = 0; i < job.causes.size(); ++i)
    out.causes.push_back({job.causes[i].name, a.causes[i].prior, a.causes[i].probability});
}

void add_answer(figures::AppraisalFigures& out, const Appraisal& a) {
  out.expected_cash_profit = a.asked.expected.cash_profit;
  out.expected_profit = a.asked.expected.profit;
  out.expected_own_hours = a.asked.expected.own_hours;
  out.expected_days = a.asked.expected.days;
  out.cash_needed = a.asked.expected.cash_needed;
  const CashNeeded& cash = a.asked.cash_needed;
  out.cash_worst = cash.worst;
  out.cash_p95 = cash.p95;
  out.dearest = a.job.causes[cash.worst_cause].name;
  if (const std::string with = troubles_in(a.job, cash.worst_troubles); !with.empty())
    out.dearest += " with " + with;
  out.limit_by = a.walk_away.by;
  out.walk_away = a.walk_away.price;
  out.verdict = a.verdict;
  if (a.test_from) {
    out.with_tests = a.with_tests;
    out.test_from = a.test_from;
    const PlanStep& next = a.next_plan().steps;
    if (next.act == Do::test) out.first_test = a.job.tests[next.which].name;
  }
  for (std::size_t k = 0; k < a.offers.size(); ++k) {
    const OfferFigures& each = a.offers[k];
    out.offers.push_back({each.name, each.price, each.expected_profit, each.walk_away.price, each.loss_chance,
                          a.better ? k == *a.better : k == 0 && each.all_aims_hold()});
  }
  out.better = better_in_words(a);
}

figures::MoveRow::Unit unit_of(const Move& move) {
  using Unit = figures::MoveRow::Unit;
  switch (move.unit) {
    case appraisal::AmountUnit::money:
      return Unit::money;
    case appraisal::AmountUnit::hours:
    case appraisal::AmountUnit::days:
      return Unit::time;
    case appraisal::AmountUnit::factor:
      return Unit::factor;
  }
  return Unit::money;
}

void add_risk(figures::AppraisalFigures& out, const Appraisal& a) {
  out.loss_chance = a.asked.risk.loss_chance;
  out.drawn = a.asked.risk.steps;
  constexpr std::array<double, 5> shares = {0.05, 0.25, 0.50, 0.75, 0.95};
  for (std::size_t i = 0; i < shares.size(); ++i)
    out.quantiles.emplace_back(shares[i], a.asked.risk.cash_profit[i]);
  out.spread_from = a.asked.risk.from;
  out.spread_to = a.asked.risk.to;
  out.spread = a.asked.risk.bars;
  out.points = static_cast<std::int64_t>(a.asked.risk.points);
  for (const Move& each : a.moves)
    out.moves.push_back(
        {each.amount, each.at_10, each.at_90, each.profit_at_10, each.profit_at_90, unit_of(each)});
}

}  // namespace

figures::AppraisalFigures appraisal_figures(const Appraisal& a, const SoundValue& sound,
                                            const std::string& distance_unit, Day today) {
  const Job& job = a.job;
  const Courses courses(job, sound.mean);
  figures::AppraisalFigures out;
  out.made_on = today;
  out.distance_unit = distance_unit;
  add_basis(out, a, courses);
  for (const Correction& each : job.corrections) out.corrections.push_back(correction_of(each, job.shop));
  const StatesWritten states = add_states(out, a, courses);
  add_faults(out, a);
  add_way(out, a);
  add_answer(out, a);
  add_tests(out, a);
  add_comparables(out, a, sound);
  add_risk(out, a);
  add_haggling(out, a, courses, states);
  for (const Caution& each : a.cautions) out.cautions.push_back({each.about, each.text});
  out.notes = a.notes;
  return out;
}

}  // namespace nonrunner::words
