#include "answers/appraisals_tried.h"

#include <algorithm>
#include <cstdlib>

#include "answers/kept_job.h"
#include "appraisal/appraise.h"
#include "appraisal/sound_value.h"
#include "book/questions/figures.h"
#include "figures/opinion.h"
#include "text/json.h"

namespace nonrunner::answers {

namespace {

// What an appraisal said of the cash profit at the price it asked about.
struct Foretold {
  double expected = 0, days = 0, loss_chance = 0;
  double from = 0, to = 0;    // the spread, in equal steps; the outer ones hold what lies beyond
  std::vector<double> steps;  // their chances

  // Straight within a step.
  double below(double value) const {
    if (value <= from) return value < from ? 0 : steps.front();
    const double step = (to - from) / static_cast<double>(steps.size());
    double sum = 0;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const double begins = from + step * static_cast<double>(i);
      sum += steps[i] * std::clamp((value - begins) / step, 0.0, 1.0);
    }
    return sum;
  }
};

// A number, or money as the decimal text that it is kept as.
std::optional<double> number_at(const Value* value) {
  if (value == nullptr) return std::nullopt;
  if (value->kind == Value::Kind::whole || value->kind == Value::Kind::real) return value->real;
  if (value->kind == Value::Kind::text) return std::strtod(value->text.c_str(), nullptr);
  return std::nullopt;
}

// As it was kept; absent where it was kept without figures, or by a version that kept fewer.
std::optional<Foretold> said_then(const std::string& figures) {
  const auto all = parse_json(figures);
  if (!all) return std::nullopt;
  const Value *expected = all->find("expected"), *risk = all->find("risk");
  const Value* spread = risk ? risk->find("spread") : nullptr;
  const Value* steps = spread ? spread->find("chances") : nullptr;
  if (!expected || !steps || steps->items.empty()) return std::nullopt;
  const auto cash = number_at(expected->find("cash_profit")), days = number_at(expected->find("days")),
             loss = number_at(risk->find("loss_chance")), from = number_at(spread->find("from")),
             to = number_at(spread->find("to"));
  if (!cash || !days || !loss || !from || !to || !(*to > *from)) return std::nullopt;
  Foretold said{*cash, *days, *loss, *from, *to, {}};
  for (const Value& step : steps->items) said.steps.push_back(step.real);
  return said;
}

Foretold said_now(const appraisal::Job& job) {
  const appraisal::Appraisal a = appraisal::appraise(job, appraisal::sound_value_of(job));
  const appraisal::Risk& risk = a.asked.risk;
  return {
      a.asked.expected.cash_profit, a.asked.expected.days, risk.loss_chance, risk.from, risk.to, risk.bars};
}

}  // namespace

AppraisalsTried appraisals_tried(const book::Book& book, Day before) {
  AppraisalsTried result;
  std::vector<double> off, chances;
  std::vector<bool> lost;
  for (const std::string& tag : book::all_tags(book)) {
    const book::VehicleFigures figures = book::figures_of(book, tag, before);
    if (figures.life.ended == 0 || figures.life.ended_day >= before || !figures.cash_profit) continue;
    const auto kept = job_at_purchase(book, tag);
    if (!kept) continue;
    const appraisal::Job& job = kept->job;
    const auto then = said_then(kept->figures);
    const Foretold said = then ? *then : said_now(job);
    // What was not paid for it stays, with the tax and the interest on it.
    const double paid = in_units(figures.price_paid, book.currency());
    const double spared =
        (appraisal::paid_at(job.deal, job.deal.asking) - appraisal::paid_at(job.deal, paid)) *
        (1 + job.shop.money_rate * said.days / 365);
    Tried tried{tag, said.expected + spared, in_units(*figures.cash_profit, book.currency()),
                spared == 0 ? said.loss_chance : said.below(-spared), 0};
    tried.chance_below = said.below(tried.actual - spared);
    off.push_back(tried.actual - tried.expected);
    chances.push_back(tried.loss_chance);
    lost.push_back(tried.actual < 0);
    result.cars.push_back(tried);
  }
  result.off = resale::mean_and_spread(off);
  result.losses = resale::calibration(chances, lost);
  return result;
}

}  // namespace nonrunner::answers
