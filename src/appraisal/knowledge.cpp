#include "appraisal/knowledge.h"

#include <algorithm>
#include <numeric>

namespace nonrunner::appraisal {

Knowledge::Knowledge(const Job& job, const Beliefs& beliefs)
    : job_(job), cause_(beliefs.cause), trouble_(beliefs.trouble) {
  for (std::size_t t = 0; t < job.tests.size(); ++t)
    if (still_to_make(job.tests[t])) tests_.push_back(t);
  for (const std::size_t t : tests_)
    if (const auto about = job.tests[t].trouble)
      if (std::find(tested_.begin(), tested_.end(), *about) == tested_.end()) tested_.push_back(*about);
  for (const std::size_t t : tests_) {
    const auto at = job.tests[t].trouble ? std::find(tested_.begin(), tested_.end(), *job.tests[t].trouble)
                                         : tested_.end();
    about_.push_back(static_cast<std::size_t>(at - tested_.begin()));
  }
  place_sets(beliefs);
  place_tests();
  find_ends(beliefs);
}

void Knowledge::place_sets(const Beliefs& beliefs) {
  for (unsigned present = 0; present < 1u << job_.troubles.size(); ++present) {
    double chance = 1;
    std::size_t set = 0;
    for (std::size_t j = 0; j < job_.troubles.size(); ++j) {
      const auto tested = std::find(tested_.begin(), tested_.end(), j);
      const bool is_present = present >> j & 1u;
      if (tested == tested_.end())
        chance *= is_present ? beliefs.trouble[j] : 1 - beliefs.trouble[j];
      else if (is_present)
        set |= std::size_t{1} << (tested - tested_.begin());
    }
    set_of_.push_back(set);
    untested_.push_back(chance);
  }
}

void Knowledge::place_tests() {
  stride_.resize(tests_.size());
  for (const bool about_troubles : {true, false}) {
    for (std::size_t i = 0; i < tests_.size(); ++i) {
      if (test(i).trouble.has_value() != about_troubles) continue;
      stride_[i] = places_;
      by_stride_.push_back(i);
      places_ *= outcomes(i) + 1;
    }
    if (about_troubles) trouble_places_ = places_;
  }
}

void Knowledge::find_ends(const Beliefs& beliefs) {
  for (const std::size_t j : tested_) {
    std::vector<End> ends = {{{1 - beliefs.trouble[j], beliefs.trouble[j]}, 0}};
    for (std::size_t i = 0; i < tests_.size(); ++i) {
      if (test(i).trouble != j) continue;
      std::vector<End> more;
      for (const End& end : ends)
        for (std::size_t outcome = 0; outcome < outcomes(i); ++outcome)
          more.push_back(
              {{end.seen.absent * test(i).given[1][outcome], end.seen.present * test(i).given[0][outcome]},
               after(end.place, i, outcome)});
      ends = std::move(more);
    }
    ends_.push_back(std::move(ends));
  }
  last_ = {0};
  for (std::size_t b = tested_.size(); b-- > 0;) {
    std::vector<std::size_t> more;
    for (const std::size_t place : last_)
      for (const End& end : ends_[b]) more.push_back(place + end.place);
    last_ = std::move(more);
  }
}

Knowledge::Known Knowledge::begin() const {
  Known known;
  known.cause = std::make_shared<const std::vector<double>>(cause_);
  for (std::size_t b = 0; b < tested_.size(); ++b)
    known.tested[b] = {1 - trouble_[tested_[b]], trouble_[tested_[b]]};
  known.of_causes = std::accumulate(cause_.begin(), cause_.end(), 0.0);
  weigh_evidence(known);
  return known;
}

void Knowledge::weigh_evidence(Known& known) const {
  known.chance = known.of_causes;
  for (std::size_t b = 0; b < tested_.size(); ++b)
    known.chance *= known.tested[b].absent + known.tested[b].present;
}

Knowledge::Known Knowledge::then(const Known& known, std::size_t i, std::size_t outcome) const {
  Known next = known;
  const Test& made = test(i);
  next.made |= std::uint32_t{1} << i;
  if (made.trouble) {
    next.trouble_place = after(known.trouble_place, i, outcome);
    Seen& seen = next.tested[about_[i]];
    seen.present *= made.given[0][outcome];
    seen.absent *= made.given[1][outcome];
  } else {
    auto cause = std::make_shared<std::vector<double>>(*known.cause);
    next.of_causes = 0;
    for (std::size_t c = 0; c < cause->size(); ++c) next.of_causes += (*cause)[c] *= made.given[c][outcome];
    next.cause = std::move(cause);
  }
  weigh_evidence(next);
  return next;
}

void Knowledge::weigh(const std::vector<double>& of, const Known& known, double* by_cause) const {
  const std::size_t sets = std::size_t{1} << tested_.size();
  std::array<double, std::size_t{1} << troubles_max> left;
  for (std::size_t c = 0; c < causes(); ++c) {
    std::copy_n(of.data() + c * sets, sets, left.data());
    std::size_t half = sets / 2;
    for (std::size_t b = tested_.size(); b-- > 0; half /= 2) {
      const Seen& seen = known.tested[b];
      for (std::size_t set = 0; set < half; ++set)
        left[set] = seen.absent * left[set] + seen.present * left[set + half];
    }
    by_cause[c] = left[0];
  }
}

// One trouble after the other, from the highest bit of the sets down, the causes side by side.
std::vector<double> Knowledge::weighed_at_last(const std::vector<double>& of) const {
  std::size_t sets = std::size_t{1} << tested_.size(), ways = 1;
  const std::size_t n = causes();
  std::vector<double> now(of.size());
  for (std::size_t c = 0; c < n; ++c)
    for (std::size_t set = 0; set < sets; ++set) now[set * n + c] = of[c * sets + set];
  for (std::size_t b = tested_.size(); b-- > 0;) {
    const std::size_t half = sets / 2;
    std::vector<double> next(ways * ends_[b].size() * half * n);
    double* into = next.data();
    for (std::size_t way = 0; way < ways; ++way)
      for (const End& end : ends_[b]) {
        const double *absent = now.data() + way * sets * n, *present = absent + half * n;
        for (std::size_t k = 0; k < half * n; ++k)
          *into++ = end.seen.absent * absent[k] + end.seen.present * present[k];
      }
    ways *= ends_[b].size();
    sets = half;
    now = std::move(next);
  }
  return now;
}

void Knowledge::chances_of(const Known& known, std::vector<double>& by_case) const {
  std::vector<double> sets = {1.0};
  for (std::size_t b = 0; b < tested_.size(); ++b) {
    const Seen& seen = known.tested[b];
    const std::size_t half = sets.size();
    sets.resize(2 * half);
    for (std::size_t set = 0; set < half; ++set) {
      sets[half + set] = sets[set] * seen.present;
      sets[set] *= seen.absent;
    }
  }
  by_case.resize(causes() * set_of_.size());
  double* each = by_case.data();
  for (const double cause : *known.cause)
    for (std::size_t m = 0; m < set_of_.size(); ++m) *each++ = cause * sets[set_of_[m]] * untested_[m];
}

const std::vector<double>& Knowledge::chances() const {
  if (!chances_.empty()) return chances_;
  chances_.resize(places_);
  const std::vector<double> of_troubles =
      weighed_at_last(std::vector<double>(causes() << tested_.size(), 1.0));
  at_last_of_causes([&](std::size_t place, const std::vector<double>& cause) {
    for (std::size_t end = 0; end < last_.size(); ++end)
      chances_[place + last_[end]] = std::inner_product(
          cause.begin(), cause.end(), of_troubles.begin() + static_cast<std::ptrdiff_t>(end * causes()), 0.0);
  });
  sum_up(chances_);
  return chances_;
}

void Knowledge::sum_up(std::vector<double>& by_place) const {
  for (std::size_t i = 0; i < tests_.size(); ++i) {
    const std::size_t stride = stride_[i], step = stride * (outcomes(i) + 1);
    for (std::size_t from = 0; from < places_; from += step)
      for (std::size_t at = from; at < from + stride; ++at) {
        double sum = 0;
        for (std::size_t outcome = 0; outcome < outcomes(i); ++outcome)
          sum += by_place[at + stride * (outcome + 1)];
        by_place[at] = sum;
      }
  }
}

}  // namespace nonrunner::appraisal
