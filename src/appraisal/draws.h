// The uncertain amounts of a job as drawn values: for each amount its value at each point of a randomised
// Sobol sequence.
//
// Cases exclude each other, so all of them are drawn from the same points, and only what can count together
// has coordinates of its own: causes share theirs, corrections of different chains theirs. An amount keeps
// its coordinate whatever else changes, and the points do not know the order of the causes or the price
// asked: a case that is worse in every amount is worse in every point. What moves a sale most comes first,
// since the first coordinates are the best.
//
// Fixed seed: the same job gives the same points on every machine. Quantiles come from tables
// (chance/quantile_table.h), off by at most 1e-4 of each amount's width.
#pragma once
#include <cstdint>
#include <unordered_map>
#include <vector>

#include "appraisal/job.h"
#include "appraisal/sound_value.h"
#include "chance/sobol.h"

namespace nonrunner::appraisal {

class Draws {
 public:
  // Keeps references to both. Throws Refusal where the job has more uncertain amounts that can count together
  // than the sequence has coordinates.
  Draws(const Job&, const SoundValue&, std::size_t points, std::uint64_t seed = SobolStream::seed_default);

  std::size_t points() const { return points_; }
  const std::vector<double>& of(const Amount&);      // of the job, and not constant
  const std::vector<double>& sound();                // where it is not constant
  const std::vector<double>& bad_from(const Part&);  // 1 where the salvage part is bad, 0 where it is not

 private:
  void place(const void* what) { coordinate_.emplace(what, next_++); }
  void place(const Amount& amount) {
    if (!amount.is_constant()) place(static_cast<const void*>(&amount));
  }
  void place_pieces(const std::optional<PartOut>&, const std::optional<Scrap>&);
  void place_causes();
  void place_corrections();
  void place_common();
  template <class Fill>
  const std::vector<double>& made(const void* what, Fill fill);

  const Job& job_;
  const SoundValue& sound_;
  std::size_t points_, next_ = 0;
  std::unordered_map<const void*, std::size_t> coordinate_;
  std::optional<SobolStream> stream_;
  std::unordered_map<const void*, std::vector<double>> values_;
};

}  // namespace nonrunner::appraisal
