#include "answers/take_along.h"

#include <algorithm>

#include "appraisal/evidence.h"

namespace nonrunner::answers {

namespace {

using Seen = std::vector<std::optional<std::size_t>>;

// Every state that can come about, with its chance: tests are taken in the order of the job, so each state is
// reached once.
class Listing {
 public:
  Listing(const appraisal::Job& job, std::size_t made_most) : job_(job), made_most_(made_most) {}

  std::vector<State> list() {
    add(Seen(job_.tests.size()), 0, 1, 0, appraisal::posterior(job_));
    return std::move(all_);
  }

 private:
  void add(const Seen& seen, std::size_t from, double chance, std::size_t made,
           const appraisal::Beliefs& now) {
    State& state = all_.emplace_back();
    state.seen = seen;
    state.chance = chance;
    if (made == made_most_ || all_.size() >= counted_most) return;
    for (std::size_t t = from; t < job_.tests.size(); ++t) {
      if (!appraisal::still_to_make(job_.tests[t])) continue;
      for (std::size_t o = 0; o < job_.tests[t].outcomes.size(); ++o) {
        const auto then = appraisal::after(now, job_.tests[t], o);
        if (!then) continue;
        Seen more = seen;
        more[t] = o;
        add(more, t + 1, chance * appraisal::chance_of(now, job_.tests[t], o), made + 1, *then);
      }
    }
  }

  const appraisal::Job& job_;
  std::size_t made_most_;
  std::vector<State> all_;
};

std::size_t tests_made(const State& state) {
  return static_cast<std::size_t>(std::count_if(state.seen.begin(), state.seen.end(),
                                                [](const auto& outcome) { return outcome.has_value(); }));
}

void appraise_in(const appraisal::Job& known, const Taking& taking, State& state) {
  appraisal::Job job = known;
  for (std::size_t t = 0; t < job.tests.size(); ++t)
    if (state.seen[t]) job.tests[t].seen = state.seen[t];
  const appraisal::Appraisal answer = appraisal::appraise(
      job, appraisal::sound_value_of(job), appraisal::points_default, appraisal::Extent::along);
  state.verdict = answer.verdict;
  state.walk_away = answer.walk_away.price;
  state.with_tests = answer.with_tests;
  state.test_from = answer.test_from;
  state.at_prices = answer.at_prices;
  if (answer.next_plan().begins_with_test()) state.next_test = answer.next_plan().steps.which;
  state.first_figure = answer.first_figure;
  state.costs = answer.costs_to_name;
  if (taking) taking(answer, state);
}

}  // namespace

TakeAlong take_along(const appraisal::Job& job, const Taking& taking, const GoOnTaking& go_on,
                     std::size_t states, std::size_t from) {
  TakeAlong result;
  result.job = job;
  std::vector<State> all = Listing(job, job.tests.size()).list();
  result.all = std::min(all.size(), counted_most);
  if (all.size() > states) all = Listing(job, tests_made_max).list();
  // Of two alike the one with fewer tests: it is come to first.
  std::stable_sort(all.begin(), all.end(), [](const State& a, const State& b) {
    return a.chance != b.chance ? a.chance > b.chance : tests_made(a) < tests_made(b);
  });
  if (all.size() > states) all.resize(states);
  result.meant = all.size();
  result.from = std::min(from, all.size());
  for (std::size_t at = result.from; at < all.size(); ++at) {
    if (go_on && !go_on(at, all.size())) {
      result.was_ended = true;
      break;
    }
    appraise_in(job, taking, all[at]);
    result.states.push_back(std::move(all[at]));
  }
  return result;
}

}  // namespace nonrunner::answers
