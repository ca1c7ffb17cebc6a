// What is taken along to a seller: every state says what the appraisal says with its outcomes seen.
#include "answers/take_along.h"

#include <catch2/catch.hpp>

#include "answers/appraise.h"
#include "appraisal/jobs.h"
#include "sanitized.h"
#include "words/appraise.h"
#include "words/take_along.h"

using namespace nonrunner;
using appraisal::Appraisal;

namespace {

// As `appraise FILE --seen TEST=OUTCOME ...` would have it.
Appraisal with_seen(const std::string& sample, const answers::State& state) {
  answers::ToAppraise given =
      answers::file_to_appraise(read_file(std::string(NONRUNNER_SOURCE) + "/sample-jobs/" + sample), sample,
                                nullptr, Currency{}, Day(2026, 5, 2));
  std::vector<std::string> outcomes;
  for (std::size_t t = 0; t < state.seen.size(); ++t)
    if (state.seen[t])
      outcomes.push_back(given.job.tests[t].name + "=" + given.job.tests[t].outcomes[*state.seen[t]]);
  answers::see(given, outcomes);
  return appraisal::appraise(given.job, appraisal::sound_value_of(given.job), appraisal::points_default,
                             appraisal::Extent::screen);
}

// The verdict that stands for a price is that of the appraisal in which it is asked. Of each state one of the
// prices at which it changes, and the coin above it, in turn: all of them would take minutes.
void same_when_asked(appraisal::Job job, const answers::State& state, std::size_t turn) {
  const auto& rows = state.at_prices;
  REQUIRE(!rows.empty());
  CHECK(!rows.back().price);
  const std::size_t at = turn % rows.size();
  const double end = rows[at].price ? *rows[at].price : at > 0 ? *rows[at - 1].price * 2 + 100 : 100;
  std::vector<std::pair<double, std::size_t>> asked{{end, at}};
  if (rows[at].price) asked.emplace_back(end + appraisal::smallest_coin(job.currency), at + 1);
  for (const auto& [price, row] : asked) {
    INFO("asked " << price);
    job.deal.asking = price;
    const Appraisal answer = appraisal::appraise(job, appraisal::sound_value_of(job),
                                                 appraisal::points_default, appraisal::Extent::screen);
    CHECK(rows[row].verdict == answer.verdict);
    if (answer.verdict == appraisal::Verdict::buy) CHECK(rows[row].offer == answer.decided());
  }
}

void same_in_every_state(const std::string& sample, std::size_t states) {
  const auto taken = words::taken_along(appraisal::job_at("sample-jobs/" + sample));
  CHECK(taken.is_whole());
  CHECK(taken.states.size() == states);
  double before = 1;
  std::size_t turn = 0, state_number = 0;
  for (const answers::State& state : taken.states) {
    if (sanitized && state_number++ % 6) continue;
    INFO(sample << " " << words::key_of(state));
    const Appraisal asked = with_seen(sample, state);
    CHECK(state.verdict == asked.verdict);
    CHECK(state.walk_away == asked.walk_away.price);
    CHECK(state.with_tests == asked.with_tests);
    CHECK(state.test_from == asked.test_from);
    CHECK(state.next_test.has_value() == asked.next_plan().begins_with_test());
    if (state.next_test) CHECK(*state.next_test == asked.next_plan().steps.which);
    CHECK(state.next == words::AppraisalInWords(asked, false).next());
    if (turn % 3 == 0) same_when_asked(asked.job, state, turn / 3);
    ++turn;
    CHECK(state.chance <= before);
    before = state.chance;
  }
}

}  // namespace

TEST_CASE("every state of the sample pickup's tests says what the appraisal says", "[answers]") {
  same_in_every_state("drayman/job.toml", 27);
}
TEST_CASE("every state of the sample hatchback's tests says what the appraisal says", "[answers]") {
  same_in_every_state("sprat/job.toml", 144);
}

TEST_CASE(
    "where an aim for the chance of a loss and another offer are in it, every price says what the appraisal "
    "says",
    "[answers]") {
  appraisal::Job job = appraisal::job_at("sample-jobs/drayman/job.toml");
  job.aims[appraisal::Aim::loss_chance] = 0.05;
  job.deal.others.push_back(
      {"with a trailer", job.deal.asking * 1.1, std::vector<double>(job.causes.size(), 0.5)});
  const auto taken = answers::take_along(job, {}, {}, 4);
  for (const answers::State& state : taken.states) {
    INFO(words::key_of(state));
    for (std::size_t t = 0; t < job.tests.size(); ++t)
      if (state.seen[t])
        job.tests[t].seen = state.seen[t];
      else
        job.tests[t].seen.reset();
    for (std::size_t turn = 0; turn < state.at_prices.size(); ++turn) same_when_asked(job, state, turn);
  }
}

TEST_CASE("the outcomes of one test have chances that add up to 1, whatever else was seen", "[answers]") {
  const auto taken = answers::take_along(appraisal::job_at("sample-jobs/drayman/job.toml"));
  double by_first = 0, by_all = 0;
  for (const answers::State& state : taken.states) {
    if (state.seen[0] && !state.seen[1] && !state.seen[2]) by_first += state.chance;
    if (state.seen[0] && state.seen[1] && state.seen[2]) by_all += state.chance;
  }
  CHECK_THAT(by_first, Catch::Matchers::WithinAbs(1, 1e-12));
  CHECK_THAT(by_all, Catch::Matchers::WithinAbs(1, 1e-12));
}

TEST_CASE("where it is ended or there are too many states, the likeliest are there and it says so",
          "[answers]") {
  const appraisal::Job job = appraisal::job_at("sample-jobs/drayman/job.toml");
  const auto ended = answers::take_along(job, {}, [](std::size_t done, std::size_t) { return done < 2; });
  CHECK(ended.states.size() == 2);
  CHECK(words::how_whole(ended) ==
        "2 of 27 states of the tests, the likeliest: ended before all were worked out");
  CHECK(words::key_of(ended.states[0]).empty());
  // Part after part it is the same as in one.
  const auto rest = answers::take_along(job, {}, {}, answers::states_max, ended.there());
  CHECK(rest.states.size() == 25);
  CHECK(rest.is_whole());
  CHECK(words::how_whole(rest) == "27 states of the tests, all there are");
  CHECK(words::key_of(rest.states[0]) ==
        words::key_of(
            answers::take_along(job, {}, [](std::size_t done, std::size_t) { return done < 3; }).states[2]));
  CHECK(answers::take_along(job, {}, {}, answers::states_max, 99).states.empty());
  const auto few = answers::take_along(job, {}, {}, 3);
  CHECK(few.states.size() == 3);
  CHECK(words::limit_of(few.states[0], job.currency) == "never pay more than 1,906.97");
  CHECK(words::how_whole(few) == "3 of 27 states of the tests, the likeliest with up to 3 tests made");
}
