// What the tests still to make can show. A state of knowledge is a place: for each test a digit, 0 where it is not
// made, else its outcome; there are (k1 + 1)(k2 + 1)... of them for tests of k1, k2, ... outcomes. Tests about
// troubles have the lower digits, so that a place parts into theirs and the others'. Where all tests are made it is
// a last place.
//
// Chances are those of the evidence and the state together ("joint"), so that nothing is divided on the way. Those
// of causes and of troubles are kept apart: causes and troubles are independent, and so are the tests given them.
#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

#include "appraisal/evidence.h"
#include "appraisal/job.h"

namespace nonrunner::appraisal {

class Knowledge {
 public:
  Knowledge(const Job&, const Beliefs&);  // keeps a reference to the job

  // A tested trouble, with what its tests have shown.
  struct Seen {
    double absent = 1, present = 1;
  };
  // One state: the causes, and the tested troubles, each with what the tests about it have shown.
  struct Known {
    std::shared_ptr<const std::vector<double>>
        cause;  // states that no test about causes tells apart share it
    std::array<Seen, troubles_max> tested = {};
    std::size_t trouble_place = 0;     // of the tests about troubles alone
    std::uint32_t made = 0;            // bit i: test i
    double of_causes = 0, chance = 0;  // of the evidence about causes, and of all of it
  };
  Known begin() const;
  Known then(const Known&, std::size_t i, std::size_t outcome) const;

  // Tests are counted among those still to make.
  const std::vector<std::size_t>& tests() const { return tests_; }  // places in the job
  const Test& test(std::size_t i) const { return job_.tests[tests_[i]]; }
  std::size_t outcomes(std::size_t i) const { return test(i).outcomes.size(); }
  std::size_t after(std::size_t place, std::size_t i, std::size_t outcome) const {
    return place + stride_[i] * (outcome + 1);
  }
  std::size_t places() const { return places_; }
  std::size_t trouble_places() const { return trouble_places_; }
  std::size_t causes() const { return cause_.size(); }
  std::size_t tested_troubles() const { return tested_.size(); }

  // By cause and set of tested troubles, from a value by case; the other troubles averaged out, since nothing will
  // be learned about them.
  template <class Value>
  std::vector<double> by_tested(Value value) const {
    const std::size_t sets = std::size_t{1} << tested_.size(), masks = set_of_.size();
    std::vector<double> sum(causes() * sets, 0.0);
    for (std::size_t c = 0; c < causes(); ++c)
      for (std::size_t m = 0; m < masks; ++m)
        if (untested_[m] > 0 && cause_[c] > 0)
          sum[c * sets + set_of_[m]] += untested_[m] * value(c * masks + m);
    return sum;
  }
  // Such a thing by cause, the tested troubles averaged as they are known.
  void weigh(const std::vector<double>& of, const Known&, double* by_cause) const;
  // The same at every last place of the tests about troubles, one after the other, and which places these are.
  std::vector<double> weighed_at_last(const std::vector<double>& of) const;
  const std::vector<std::size_t>& last_trouble_places() const { return last_; }

  // The chance of every case there, by cause and set of troubles.
  void chances_of(const Known&, std::vector<double>& by_case) const;

  // Of every place, to know it and have it so.
  const std::vector<double>& chances() const;

  // From values at the last places to the sum over all that can still come, at every place.
  void sum_up(std::vector<double>& by_place) const;
  // From the last place to the first: each with the tests that are not made there, as bits. What follows it has come before.
  template <class Look>
  void backwards(Look look) const {
    std::vector<std::size_t>
        left;  // of each test the outcomes still to come, from the last one down to `not made`
    std::uint32_t unmade = 0;
    for (std::size_t i = 0; i < tests_.size(); ++i) left.push_back(outcomes(by_stride_[i]));
    for (std::size_t place = places_; place-- > 0;) {
      look(place, unmade);
      for (std::size_t i = 0; i < left.size(); ++i) {
        const std::uint32_t bit = std::uint32_t{1} << by_stride_[i];
        if (left[i] > 0) {
          if (--left[i] == 0) unmade |= bit;
          break;
        }
        left[i] = outcomes(by_stride_[i]);
        unmade &= ~bit;
      }
    }
  }
  // For every outcome of all tests about causes: their place and the causes' chances with it.
  template <class Look>
  void at_last_of_causes(Look look) const {
    at_last_of_causes(0, 0, cause_, look);
  }

 private:
  // One way in which all tests about a trouble can come out.
  struct End {
    Seen seen;
    std::size_t place = 0;
  };
  void weigh_evidence(Known&) const;
  void place_sets(const Beliefs&);
  void place_tests();
  void find_ends(const Beliefs&);

  template <class Look>
  void at_last_of_causes(std::size_t i, std::size_t place, const std::vector<double>& cause,
                         Look& look) const {
    while (i < tests_.size() && test(i).trouble) ++i;
    if (i == tests_.size()) {
      look(place, cause);
      return;
    }
    std::vector<double> then(cause.size());
    for (std::size_t outcome = 0; outcome < outcomes(i); ++outcome) {
      for (std::size_t c = 0; c < cause.size(); ++c) then[c] = cause[c] * test(i).given[c][outcome];
      at_last_of_causes(i + 1, after(place, i, outcome), then, look);
    }
  }

  const Job& job_;
  std::vector<double> cause_, trouble_;          // as believed now
  std::vector<std::size_t> tests_, tested_;      // tested troubles
  std::vector<std::size_t> about_;               // of each test its place among the tested troubles
  std::vector<std::size_t> stride_, by_stride_;  // by_stride: the tests, the lowest digit first
  std::size_t places_ = 1, trouble_places_ = 1;
  std::vector<std::size_t> set_of_;  // of each set of troubles the place among the sets of tested ones
  std::vector<double> untested_;     // the chance of the others in it
  std::vector<std::vector<End>> ends_;
  std::vector<std::size_t> last_;
  mutable std::vector<double> chances_;  // once they were asked for
};

}  // namespace nonrunner::appraisal
