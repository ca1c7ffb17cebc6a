// The answers to take along where the book is out of reach: for each state of the tests that can still be made,
// what the appraisal says in it. A state is which tests were made and what each showed, in whatever order.
//
// Exactly what the appraisal says with these outcomes seen (the same points are drawn), the verdict at every price that
// a seller may name among it (`at_prices`), so that a phone can say it without the model and without its rules.
#pragma once
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "appraisal/appraise.h"

namespace nonrunner::answers {

constexpr std::size_t states_max = 2000;
constexpr std::size_t tests_made_max = 3;  // where all states would be more than that
constexpr std::size_t counted_most = 200000;

struct State {
  std::vector<std::optional<std::size_t>> seen;  // by test of the job: the outcome; absent: not made
  double chance = 1;                             // that these tests show this
  appraisal::Verdict verdict = appraisal::Verdict::walk_away;
  double walk_away = 0;   // below zero: not unseen, even as a gift
  double with_tests = 0;  // never less than `walk_away`
  std::optional<double> test_from;
  std::vector<appraisal::UpTo> at_prices;
  std::optional<std::size_t> next_test;
  std::optional<double> first_figure;
  std::vector<appraisal::CostToName> costs;
  std::string next;  // what to do now, in the words of whoever takes it along (words/take_along.h)
};

struct TakeAlong {
  appraisal::Job job;         // with what was known when it was made
  std::vector<State> states;  // the likeliest first; that in which no test was made is the first of all
  std::size_t from = 0;       // so many of them were left out, which came before
  std::size_t meant = 0;      // states that should be in it
  std::size_t all = 0;        // states that there are; `counted_most` stands for as many and more
  std::size_t there() const { return from + states.size(); }
  bool is_whole() const { return there() == all; }
  bool was_ended = false;  // before all that should be in it were
};

// What becomes of each state's appraisal beside its figures: a sentence, for instance.
using Taking = std::function<void(const appraisal::Appraisal&, State&)>;
// Called before each with those done and those to do; false ends it.
using GoOnTaking = std::function<bool(std::size_t done, std::size_t all)>;

// Likeliest first, so that what is there when it is ended is worth most. `states`: at most so many. `from`: the first so
// many are there already, from an earlier part.
TakeAlong take_along(const appraisal::Job&, const Taking& = {}, const GoOnTaking& = {},
                     std::size_t states = states_max, std::size_t from = 0);

}  // namespace nonrunner::answers
