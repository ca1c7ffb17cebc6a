#include "appraisal/moves.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "appraisal/amounts.h"
#include "appraisal/outlook.h"

namespace nonrunner::appraisal {

namespace {

// The expected profit cause by cause, so that an amount of one cause or one correction is reckoned anew only
// where it counts.
class ByCause {
 public:
  ByCause(const Job& job, double sound_mean, const Beliefs& beliefs, double price)
      : job_(job), beliefs_(beliefs), price_(price), courses_(job, sound_mean, {price, {}}) {
    for (unsigned present = 0; present < 1u << job.troubles.size(); ++present)
      of_troubles_.push_back(chance_of_troubles(beliefs, present));
    for (std::size_t c = 0; c < job.causes.size(); ++c) base_.push_back(of_cause(c));
    sum_ = std::accumulate(base_.begin(), base_.end(), 0.0);
  }

  double base() const { return sum_; }

  double with_changed(const AmountOwner& owner) {
    double sum = sum_;
    if (owner.correction) courses_.refresh_correction(*owner.correction);
    if (!owner.correction && !owner.cause) {
      courses_.refresh();
      sum = 0;
      for (std::size_t c = 0; c < base_.size(); ++c) sum += of_cause(c);
      return sum;
    }
    for (std::size_t c = 0; c < base_.size(); ++c)
      if (owner.cause ? *owner.cause == c : leads_to(c, *owner.correction)) sum += of_cause(c) - base_[c];
    return sum;
  }
  // After the amount has its own value again.
  void put_back(const AmountOwner& owner) {
    if (owner.correction) courses_.refresh_correction(*owner.correction);
    if (!owner.correction && !owner.cause) courses_.refresh();
  }

 private:
  bool leads_to(std::size_t cause, std::size_t correction) const {
    const auto& steps = courses_.chain(cause).steps;
    return std::any_of(steps.begin(), steps.end(),
                       [&](const Step& step) { return step.correction == correction; });
  }
  double of_cause(std::size_t c) const {
    if (beliefs_.cause[c] == 0) return 0;
    double sum = 0;
    for (unsigned present = 0; present < of_troubles_.size(); ++present) {
      if (of_troubles_[present] == 0) continue;
      const CourseFigures f = courses_.best(c, present).figures;
      sum += of_troubles_[present] * (f.cash - f.own_hours * job_.shop.hour - f.days * job_.shop.bay_per_day -
                                      purchase(job_, price_, f.days));
    }
    return beliefs_.cause[c] * (sum - courses_.opening_cash(c));
  }

  const Job& job_;
  const Beliefs& beliefs_;
  double price_;
  Courses courses_;
  std::vector<double> of_troubles_, base_;
  double sum_ = 0;
};

}  // namespace

std::vector<Move> moves_of(const Job& job, const SoundValue& sound, const Beliefs& beliefs, double price) {
  std::vector<Move> moves;
  const auto note = [&](Move move) {
    if (std::abs(move.profit_at_90 - move.profit_at_10) > 1e-9) moves.push_back(std::move(move));
  };
  if (!sound.is_constant) {
    const double low = sound.quantile(0.1), high = sound.quantile(0.9);
    note({"sound value", low, high, ByCause(job, low, beliefs, price).base(),
          ByCause(job, high, beliefs, price).base(), AmountUnit::money});
  }
  Job changed = job;
  ByCause by_cause(changed, sound.mean, beliefs, price);
  for_each_amount(changed, [&](const std::string& name, Amount& amount, const AmountOwner& owner) {
    if (amount.is_constant()) return;
    const Amount before = amount;
    Move move{name, before.quantile(0.1), before.quantile(0.9), 0, 0, owner.unit};
    amount = Amount::constant(move.at_10);
    move.profit_at_10 = by_cause.with_changed(owner);
    amount = Amount::constant(move.at_90);
    move.profit_at_90 = by_cause.with_changed(owner);
    amount = before;
    by_cause.put_back(owner);
    note(std::move(move));
  });
  std::stable_sort(moves.begin(), moves.end(), [](const Move& a, const Move& b) {
    return std::abs(a.profit_at_90 - a.profit_at_10) > std::abs(b.profit_at_90 - b.profit_at_10);
  });
  return moves;
}

}  // namespace nonrunner::appraisal
