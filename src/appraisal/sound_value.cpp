#include "appraisal/sound_value.h"

#include "exact/ends.h"

namespace nonrunner::appraisal {

SoundValue SoundValue::of(const ThreePoint& points) {
  return {points.mean(), points.is_constant(), [points](double chance) { return points.quantile(chance); },
          points, std::nullopt};
}

SoundValue SoundValue::of(const resale::SoundValue& fit) {
  return {fit.mean(), false, [price = fit.price](double chance) { return price.quantile_above_zero(chance); },
          std::nullopt, fit};
}

SoundValue sound_value_of(const Job& job, const std::vector<resale::Comparable>& from_book) {
  if (job.sound) return SoundValue::of(*job.sound);
  std::vector<resale::Comparable> all = job.basis->comparables;
  all.insert(all.end(), from_book.begin(), from_book.end());
  try {
    return SoundValue::of(
        resale::sound_value(all, job.basis->subject, job.sale.realised.mean(), job.basis->priors));
  } catch (const Refusal& refusal) {
    throw Refusal(job.vehicle.tag + ": " + refusal.what());
  }
}

}  // namespace nonrunner::appraisal
