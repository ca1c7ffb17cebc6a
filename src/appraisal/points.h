// At how many points the cases are drawn, and at which. As a rule all at the same ones. Where there are so many
// ways that a car can go that each gets the fewest, an unlikely one is drawn at fewer still: points in proportion to the
// chance, which leaves the error of a sum over the cases nearly where it was, since that is the error of the likely
// ones (W. G. Cochran, Sampling Techniques, 3rd ed. 1977, chapter 5; from memory. Compared in
// tests/appraisal/points.cpp). The points of an unlikely one are a stretch of the sequence that begins at a multiple of
// its length, a power of two: as evenly spread as the first ones (H. Niederreiter, Random Number Generation and
// Quasi-Monte Carlo Methods, 1992, chapter 4; from memory). Which stretch goes by turns, so that together they are drawn
// at all of them.
#pragma once
#include <cstddef>
#include <vector>

#include "appraisal/evidence.h"
#include "appraisal/job.h"

namespace nonrunner::appraisal {

constexpr std::size_t points_default = 65536;
constexpr std::size_t points_min = 64;  // fewer say nothing of a chance of one in twenty
constexpr std::size_t points_max = 1u << 24;

// How many points are drawn in each case. However likely a trouble is, 0 and 1 among it: were there more points where
// a trouble cannot be, a limit by the chance of a loss could rise by their grain once it can.
std::size_t points_in_a_case(const Job&, const Beliefs&, std::size_t points);

// Some of the points, one after the other.
struct Stretch {
  std::size_t first = 0, count = 0;
};

class Points {
 public:
  // `all`: of a likely case. `chances`: of the cases; they say how many ways there are.
  Points(const Job&, const std::vector<double>& chances, std::size_t all);

  static constexpr std::size_t ways_in_full = 4096, least = 2;
  bool are_fewer() const { return fewer_; }  // in unlikely cases
  std::size_t all() const { return all_; }
  // As many as all ways that a car can go have together: about, where unlikely ones have fewer.
  std::size_t together() const { return fewer_ ? ways_in_full * points_min : ways_ * all_; }
  Stretch of_all() const { return {0, all_}; }
  // Those of a case, or a way that one can go, of this chance; `turn`: which of the stretches.
  Stretch of(double chance, std::size_t turn) const;

 private:
  std::size_t all_, ways_ = 0;
  bool fewer_ = false;
};

}  // namespace nonrunner::appraisal
