#include "answers/appraisals_tried.h"

#include "answers/kept_job.h"
#include "appraisal/appraise.h"
#include "appraisal/sound_value.h"
#include "book/questions/figures.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

constexpr std::size_t points = 16384;

// The chance of a cash profit below `value`: that of losing money had the price been higher by as much.
double chance_below(appraisal::Job job, const appraisal::SoundValue& sound, double value) {
  job.deal.asking += value / (1 + job.deal.rate);
  return job.deal.asking > 0 ? appraisal::appraise(job, sound, points).asked.risk.loss_chance : 0;
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
    appraisal::Job job = kept->job;
    job.deal.asking = in_units(figures.price_paid, book.currency());
    const appraisal::SoundValue sound = appraisal::sound_value_of(job);
    const appraisal::Appraisal then = appraisal::appraise(job, sound, points);
    Tried tried{tag, then.asked.expected.cash_profit, in_units(*figures.cash_profit, book.currency()),
                then.asked.risk.loss_chance, 0};
    tried.chance_below = chance_below(job, sound, tried.actual);
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
