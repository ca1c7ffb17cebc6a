// The roll-back against a slow complete enumeration: every order of tests, every state, no memory, chances
// divided out.
#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>

#include "appraisal/jobs.h"
#include "appraisal/random_job.h"
#include "sanitized.h"

using namespace nonrunner;
using namespace nonrunner::appraisal;
using Catch::Matchers::WithinAbs;

namespace {

class Enumeration {
 public:
  explicit Enumeration(const Job& job) : job_(job) {
    offers_.push_back({plain_offer, job.deal.asking, std::vector<double>(job.causes.size(), 0.0)});
    for (const Offer& offer : job.deal.others) offers_.push_back(offer);
  }

  // Buying under the offer with this cause and these troubles, above the aim: every path tried.
  double worth(const Offer& offer, std::size_t cause, unsigned present) const {
    const Courses courses(job_, job_.sound->mean(), {offer.price, offer.covers});
    double best = 0;
    bool any = false;
    for (const Path& path : courses.paths(cause, present)) {
      const CourseFigures f = courses.figures(cause, present, path);
      const double profit = f.cash - f.own_hours * job_.shop.hour - courses.opening_cash(cause) -
                            (offer.price * (1 + job_.deal.rate) + job_.deal.fees.mean()) *
                                (1 + job_.shop.money_rate * f.days / 365);
      if (!any || profit > best) best = profit;
      any = true;
    }
    return best - job_.aims.profit();
  }

  double expected(const Offer& offer, const Beliefs& beliefs) const {
    double sum = 0;
    for (std::size_t c = 0; c < job_.causes.size(); ++c)
      for (unsigned present = 0; present < 1u << job_.troubles.size(); ++present)
        sum += beliefs.cause[c] * chance_of_troubles(beliefs, present) * worth(offer, c, present);
    return sum;
  }

  double decide(const Beliefs& beliefs) const {
    double best = 0;
    for (const Offer& offer : offers_) best = std::max(best, expected(offer, beliefs));
    return best;
  }

  double perfect(const Beliefs& beliefs) const {
    double all = 0;
    for (std::size_t c = 0; c < job_.causes.size(); ++c)
      for (unsigned present = 0; present < 1u << job_.troubles.size(); ++present) {
        double best = 0;
        for (const Offer& offer : offers_) best = std::max(best, worth(offer, c, present));
        all += beliefs.cause[c] * chance_of_troubles(beliefs, present) * best;
      }
    return all;
  }

  double after_test(const Beliefs& beliefs, std::size_t t, const std::vector<std::size_t>& left) const {
    double sum =
        -job_.tests[t].cash.mean() - job_.tests[t].hours.mean() * job_.shop.pace.mean() * job_.shop.hour;
    for (std::size_t outcome = 0; outcome < job_.tests[t].outcomes.size(); ++outcome)
      if (const auto then = after(beliefs, job_.tests[t], outcome))
        sum += chance_of(beliefs, job_.tests[t], outcome) * best(*then, left);
    return sum;
  }

  double best(const Beliefs& beliefs, const std::vector<std::size_t>& left) const {
    double value = decide(beliefs);
    for (const std::size_t t : left) {
      std::vector<std::size_t> others = left;
      others.erase(std::find(others.begin(), others.end(), t));
      value = std::max(value, after_test(beliefs, t, others));
    }
    return value;
  }

 private:
  const Job& job_;
  std::vector<Offer> offers_;
};

}  // namespace

TEST_CASE(
    "by the aim for profit alone the roll-back agrees with complete enumeration on 600 random small jobs",
    "[appraisal][plan]") {
  int begun_with_test = 0, troubled = 0, offered = 0;
  for (unsigned seed = 1; seed <= (sanitized ? 100 : 600); ++seed) {
    INFO("seed " << seed);
    Job job = RandomJob(seed).make();
    job.aims[Aim::loss_chance].reset();
    job.aims[Aim::per_hour].reset();
    const Appraisal a = appraise(job, SoundValue::of(*job.sound), 8, Extent::screen);
    const Enumeration slow(job);
    std::vector<std::size_t> left;
    for (std::size_t t = 0; t < job.tests.size(); ++t)
      if (!job.tests[t].spoiled) left.push_back(t);
    const Beliefs now = prior(job);
    REQUIRE_THAT(a.plan.decide_now, WithinAbs(slow.decide(now), 1e-8));
    REQUIRE_THAT(a.plan.best, WithinAbs(slow.best(now, left), 1e-8));
    REQUIRE_THAT(a.plan.perfect_information, WithinAbs(slow.perfect(now) - slow.decide(now), 1e-8));
    REQUIRE(a.plan.tests.size() == left.size());
    for (const TestWorth& test : a.plan.tests)
      REQUIRE_THAT(test.net, WithinAbs(slow.after_test(now, test.test, {}) - slow.decide(now), 1e-8));
    REQUIRE(a.plan.best >= a.plan.decide_now);
    REQUIRE(a.plan.best - a.plan.decide_now <= a.plan.perfect_information + 1e-8);
    begun_with_test += a.plan.steps.act == Do::test;
    troubled += !job.troubles.empty();
    offered += !job.deal.others.empty();
  }
  if (sanitized) return;
  CHECK(begun_with_test > 25);
  CHECK(troubled > 200);
  CHECK(offered > 200);
}

TEST_CASE("following the steps of the plan earns what the plan is worth", "[appraisal][plan]") {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    INFO("seed " << seed);
    Job job = RandomJob(seed).make();
    job.aims[Aim::loss_chance].reset();
    job.aims[Aim::per_hour].reset();
    const Appraisal a = appraise(job, SoundValue::of(*job.sound), 8, Extent::screen);
    const std::function<double(const PlanStep&)> follow = [&](const PlanStep& step) {
      if (step.act != Do::test) return step.worth;
      double sum = -cost_of(job.tests[step.which], job.shop), chances = 0;
      for (const PlanStep::Branch& branch : step.branches) {
        sum += branch.chance * follow(branch.step.at(0));
        chances += branch.chance;
      }
      CHECK_THAT(chances, WithinAbs(1, 1e-9));
      return sum;
    };
    CHECK_THAT(follow(a.plan.steps),
               WithinAbs(a.plan.begins_with_test() ? a.plan.best : a.plan.decide_now, 1e-7));
  }
}

TEST_CASE("a job of 12 causes, 4 troubles, 8 tests of 3 outcomes and 40 parts is answered",
          "[appraisal][plan]") {
  Job job = job_of(small_job);
  job.causes.clear();
  job.corrections.clear();
  job.troubles.clear();
  job.tests.clear();
  for (std::size_t i = 0; i < 12; ++i) {
    Correction correction;
    correction.name = fmt::format("correction {}", i);
    correction.operations.push_back({"work", {2, 3.0 + static_cast<double>(i), 20}, {}});
    for (std::size_t k = 0; k < (i < 4 ? 4u : 3u); ++k) {
      Part part;
      part.name = "part";
      part.price[1] = Amount{20, 30.0 + static_cast<double>(k), 60};
      part.bad = 0.2;
      correction.parts.push_back(part);
    }
    job.corrections.push_back(correction);
    job.causes.push_back({fmt::format("cause {}", i),
                          1.0 + static_cast<double>(i),
                          Amount::constant(100.0 * static_cast<double>(i)),
                          i,
                          {},
                          {},
                          {},
                          {}});
  }
  for (std::size_t j = 0; j < 4; ++j)
    job.troubles.push_back(
        {fmt::format("trouble {}", j), 0.2, {50, 100, 200}, {1, 2, 5}, {}, Amount::constant(50), false});
  for (std::size_t t = 0; t < 8; ++t) {
    Test test{fmt::format("test {}", t),
              Amount::constant(5),
              Amount::constant(0.2),
              {"a", "b", "c"},
              {},
              {},
              {},
              false,
              {}};
    if (t >= 6) test.trouble = t - 6;
    for (std::size_t i = 0; i < (test.trouble ? 2u : 12u); ++i) {
      const double a = 0.05 + 0.9 * static_cast<double>((i * (t + 3) + t) % 7) / 7;
      test.given.push_back({a, (1 - a) * 0.6, (1 - a) * 0.4});
    }
    job.tests.push_back(test);
  }
  const Appraisal a = appraised(job);
  CHECK(a.plan.tests.size() == 8);
  CHECK(a.plan.best >= a.plan.decide_now);
  CHECK_THAT(a.asked.risk.sampled_profit, WithinAbs(a.asked.expected.profit, 1));
}

TEST_CASE("more tests than can be rolled back are refused, saying how many and what to do",
          "[appraisal][plan]") {
  Job job = job_of(small_job);
  const Test test = job.tests[0];
  while (job.tests.size() < 14) job.tests.push_back(test);
  std::string said;
  try {
    appraised(job, 8);
  } catch (const Refusal& refusal) {
    said = refusal.what();
  }
  CHECK(said ==
        "pip: 14 tests still to make give 4782969 states of knowledge, each with 2 to weigh, expected at "
        "most 4200000 states and "
        "1500000000 together; leave out the tests that tell least, or mark them spoiled = true");
}

TEST_CASE("of two offers that are worth the same the first is taken, and of two tests the first is made",
          "[appraisal][plan]") {
  // Without a test: at 400 it pays to buy, under whichever of the two.
  std::string text = small_job_with("asking = 900", "asking = 400");
  const auto begins = text.find("[[test]]"), ends = text.find("[[trouble]]");
  const std::string test = text.substr(begins, ends - begins);
  const std::string untested = text.substr(0, begins) + text.substr(ends);
  const Appraisal two = appraised(job_of(untested + "[[offer]]\nname = \"the same\"\nprice = 400\n"));
  REQUIRE(two.plan.steps.act == Do::buy);
  CHECK(two.plan.steps.which == 0);
  CHECK(two.decided() == 0u);
  const Appraisal better = appraised(job_of(untested + "[[offer]]\nname = \"less\"\nprice = 399.99\n"));
  CHECK(better.plan.steps.which == 1);
  // The same test twice, where it pays to make one.
  const Appraisal tests =
      appraised(job_of(small_job_with(test, test + with(test, "name = \"gas\"", "name = \"gas again\""))));
  REQUIRE(tests.plan.steps.act == Do::test);
  CHECK(tests.plan.steps.which == 0);
  REQUIRE(tests.plan.tests.size() == 2);
  CHECK(tests.plan.tests[0].gross == tests.plan.tests[1].gross);
}
