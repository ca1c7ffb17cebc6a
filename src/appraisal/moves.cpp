#include "appraisal/moves.h"

#include <algorithm>
#include <cmath>

#include "appraisal/amounts.h"
#include "appraisal/outlook.h"

namespace nonrunner::appraisal {

std::vector<Move> moves_of(const Job& job, const SoundValue& sound, const Beliefs& beliefs, double price) {
  const auto expected = [&](const Job& changed, double sound_mean) {
    const Courses courses(changed, sound_mean);
    return profit(changed, outlook_of(changed, States(courses, {}), beliefs), price);
  };
  std::vector<Move> moves;
  const auto note = [&](Move move) {
    if (std::abs(move.profit_at_90 - move.profit_at_10) > 1e-9) moves.push_back(std::move(move));
  };
  if (!sound.is_constant) {
    const double low = sound.quantile(0.1), high = sound.quantile(0.9);
    note({"sound value", low, high, expected(job, low), expected(job, high)});
  }
  Job changed = job;
  for_each_amount(changed, [&](const std::string& name, Amount& amount) {
    if (amount.is_constant()) return;
    const Amount before = amount;
    Move move{name, before.quantile(0.1), before.quantile(0.9), 0, 0};
    amount = Amount::constant(move.at_10);
    move.profit_at_10 = expected(changed, sound.mean);
    amount = Amount::constant(move.at_90);
    move.profit_at_90 = expected(changed, sound.mean);
    amount = before;
    note(std::move(move));
  });
  std::stable_sort(moves.begin(), moves.end(), [](const Move& a, const Move& b) {
    return std::abs(a.profit_at_90 - a.profit_at_10) > std::abs(b.profit_at_90 - b.profit_at_10);
  });
  return moves;
}

}  // namespace nonrunner::appraisal
