#include "commands/appraisals_tried.h"

#include "appraisal/appraise.h"
#include "appraisal/read_job.h"
#include "appraisal/sound_value.h"
#include "book/appraisals.h"
#include "book/figures.h"
#include "commands/settled_job.h"
#include "commands/units.h"

namespace nonrunner::commands {

namespace {

constexpr std::size_t points = 16384;

// The share of a distribution given by five quantiles that lies below `value`: straight lines between them,
// and beyond the outer ones half of their tails.
double chance_below(const appraisal::Risk& risk, double value) {
  constexpr std::array<double, 5> shares = {0.05, 0.25, 0.5, 0.75, 0.95};
  const auto& q = risk.cash_profit;
  if (value <= q.front()) return shares.front() / 2;
  if (value >= q.back()) return 1 - (1 - shares.back()) / 2;
  std::size_t i = 1;
  while (value > q[i]) ++i;
  const double width = q[i] - q[i - 1];
  return shares[i - 1] + (shares[i] - shares[i - 1]) * (width > 0 ? (value - q[i - 1]) / width : 0.5);
}

}  // namespace

AppraisalsTried appraisals_tried(const book::Book& book, Day before) {
  AppraisalsTried result;
  std::vector<double> off, chances;
  std::vector<bool> lost;
  for (const std::string& tag : book::all_tags(book)) {
    const book::VehicleFigures figures = book::figures_of(book, tag, before);
    if (figures.life.ended == 0 || figures.life.ended_day >= before || !figures.cash_profit) continue;
    const auto kept = book::appraisal_in_force(book, tag);
    if (!kept) continue;
    const std::string name = "the appraisal of " + tag;
    appraisal::Job job =
        appraisal::read_job(settled_job(kept->job, name, &book, kept->day).text, name, book.currency());
    job.deal.asking = in_units(figures.price_paid, book.currency());
    const appraisal::Appraisal then = appraisal::appraise(job, appraisal::sound_value_of(job), points);
    Tried tried{tag, then.expected.cash_profit, in_units(*figures.cash_profit, book.currency()),
                then.risk.loss_chance, 0};
    tried.chance_below = chance_below(then.risk, tried.actual);
    off.push_back(tried.actual - tried.expected);
    chances.push_back(tried.loss_chance);
    lost.push_back(tried.actual < 0);
    result.cars.push_back(tried);
  }
  result.off = resale::mean_and_spread(off);
  result.losses = resale::calibration(chances, lost);
  return result;
}

}  // namespace nonrunner::commands
