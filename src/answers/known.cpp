#include "answers/known.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/kept_job.h"
#include "answers/renamed.h"
#include "appraisal/evidence.h"
#include "book/events/finding.h"
#include "book/ledger/names.h"
#include "book/ledger/settings.h"
#include "exact/hint.h"
#include "exact/nearest.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

template <class Named>
std::optional<std::size_t> place(const std::vector<Named>& all, const std::string& name) {
  for (std::size_t i = 0; i < all.size(); ++i)
    if (all[i].name == name) return i;
  return std::nullopt;
}

class Learning {
 public:
  Learning(Known& known, Renamed renamed) : known_(known), job_(known.job), renamed_(std::move(renamed)) {
    known_.ruled_out.assign(job_.causes.size(), false);
    known_.trouble_there.assign(job_.troubles.size(), std::nullopt);
  }

  void take(const book::Fact& fact) {
    if (fact.what == book::fact::same || fact.what == book::fact::not_there || taken(fact)) return;
    book::Fact renamed = fact;
    renamed.name = renamed_.now(fact.name);
    renamed.value = renamed_.now(fact.value);
    if (!taken(renamed)) known_.not_in_it.push_back(fact);
  }

  void conclude() {
    if (found_) list_what_speaks_against(*found_);
    spend_tests();
    for (std::size_t j = 0; j < job_.troubles.size(); ++j) {
      if (known_.trouble_there[j]) job_.troubles[j].chance = *known_.trouble_there[j] ? 1 : 0;
      // What the appraisal or a test is sure of needs nobody to look.
      if (job_.troubles[j].chance == 1) known_.trouble_there[j] = true;
    }
    weigh_what_failed();
    // One that was made and failed never cures; what comes after it is come to for certain.
    for (const std::size_t failed : known_.failed) job_.corrections[failed].works = 0;
    for (const std::size_t cured : known_.cured) job_.corrections[cured].works = 1;
    double sum = 0;
    for (std::size_t i = 0; i < job_.causes.size(); ++i) {
      double& odds = job_.causes[i].odds;
      if (known_.ruled_out[i]) odds = 0;
      if (found_) odds = *found_ == i ? 1 : 0;
      sum += odds;
    }
    // Every cause ruled out: it is none that the appraisal knows.
    if (!(sum > 0)) {
      known_.cause_is_found = known_.is_something_else = true;
      for (appraisal::Cause& cause : job_.causes) cause.odds = 1.0 / static_cast<double>(job_.causes.size());
      return;
    }
    for (appraisal::Cause& cause : job_.causes) cause.odds /= sum;
    for (std::size_t i = 1; i < job_.causes.size(); ++i)
      if (job_.causes[i].odds > job_.causes[known_.likeliest].odds) known_.likeliest = i;
    known_.cause_is_found = found_.has_value() || known_.is_something_else;
  }

  // What was found as the file would say it; what leaves no cause a chance is left out.
  void put_in() {
    for (std::size_t j = 0; j < job_.troubles.size(); ++j)
      if (known_.trouble_there[j]) job_.troubles[j].chance = *known_.trouble_there[j] ? 1 : 0;
    if (found_) {
      const std::vector<appraisal::Cause> as_in_file = job_.causes;
      for (std::size_t i = 0; i < job_.causes.size(); ++i) job_.causes[i].odds = *found_ == i ? 1 : 0;
      if (appraisal::can_be(job_)) return;
      job_.causes = as_in_file;  // no test that was seen can come of it
    }
    for (std::size_t i = 0; i < job_.causes.size(); ++i) {
      const double odds = job_.causes[i].odds;
      if (known_.ruled_out[i]) job_.causes[i].odds = 0;
      double sum = 0;
      for (const appraisal::Cause& cause : job_.causes) sum += cause.odds;
      if (!(sum > 0) || !appraisal::can_be(job_)) job_.causes[i].odds = odds;
    }
  }

  void found(std::size_t cause) {
    found_ = cause;
    known_.ruled_out[cause] = false;
    known_.is_something_else = false;
  }
  void found_something_else() {
    found_.reset();
    known_.is_something_else = true;
  }

 private:
  bool taken(const book::Fact& fact) {
    namespace what = book::fact;
    if (fact.what == what::seen) return see(fact);
    if (fact.what == what::cause) {
      if (fact.name == something_else) {
        found_something_else();
        return true;
      }
      const auto cause = place(job_.causes, fact.name);
      if (cause) found(*cause);
      return cause.has_value();
    }
    if (fact.what == what::ruled_out) {
      const auto cause = place(job_.causes, fact.name);
      if (!cause) return false;
      known_.ruled_out[*cause] = true;
      if (found_ == cause) found_.reset();
      return true;
    }
    if (fact.what == what::trouble) {
      const auto trouble = place(job_.troubles, fact.name);
      if (trouble) known_.trouble_there[*trouble] = fact.value == "there";
      return trouble.has_value();
    }
    const auto correction = place(job_.corrections, fact.name);
    if (!correction) return false;
    const bool cured = fact.what == what::cured;
    (cured ? known_.cured : known_.failed).insert(*correction);
    (cured ? known_.failed : known_.cured).erase(*correction);
    return true;
  }

  // In place of what the file says of the same test; what cannot have come together with the rest is told and
  // left out.
  bool see(const book::Fact& fact) {
    const auto at = place(job_.tests, fact.name);
    if (!at) return false;
    appraisal::Test& test = job_.tests[*at];
    const auto outcome = std::find(test.outcomes.begin(), test.outcomes.end(), fact.value);
    if (outcome == test.outcomes.end()) return false;
    const appraisal::Test before = test;
    test.seen = static_cast<std::size_t>(outcome - test.outcomes.begin());
    test.spoiled = false;
    if (appraisal::can_be(job_)) return true;
    test = before;
    return false;
  }

  // An outcome that another cause explains more than twice as well, and that is not to be expected of this one.
  void list_what_speaks_against(std::size_t cause) {
    for (const appraisal::Test& test : job_.tests) {
      if (!test.seen || test.spoiled || test.trouble) continue;
      const double here = test.given[cause][*test.seen];
      double best = 0;
      for (const std::vector<double>& given : test.given) best = std::max(best, given[*test.seen]);
      if (here < 0.5 && best > 2 * here)
        known_.against.push_back({book::fact::seen, test.name, test.outcomes[*test.seen]});
    }
  }

  // The tests' word becomes the odds; none is heard twice.
  void spend_tests() {
    const appraisal::Beliefs now = appraisal::posterior(job_);
    for (std::size_t i = 0; i < job_.causes.size(); ++i) job_.causes[i].odds = now.cause[i];
    for (std::size_t j = 0; j < job_.troubles.size(); ++j) job_.troubles[j].chance = now.trouble[j];
    for (appraisal::Test& test : job_.tests)
      if (test.seen) test.spoiled = true;
  }

  // A correction that was made and did not mend the car speaks against the causes that it would have cured: each as
  // unlikely as it works. Where that would leave no cause a chance, it worked less surely than the appraisal says,
  // and nothing follows.
  void weigh_what_failed() {
    std::vector<double> odds;
    double sum = 0;
    for (const appraisal::Cause& cause : job_.causes) {
      double weight = cause.odds;
      std::optional<std::size_t> next = cause.correction;
      for (std::size_t steps = 0; next && steps < job_.corrections.size(); ++steps) {
        if (known_.failed.contains(*next)) weight *= 1 - job_.corrections[*next].works;
        next = job_.corrections[*next].otherwise;
      }
      odds.push_back(weight);
      if (!known_.ruled_out[odds.size() - 1]) sum += weight;
    }
    if (!(sum > 0)) return;
    for (std::size_t i = 0; i < odds.size(); ++i) job_.causes[i].odds = odds[i];
  }

  Known& known_;
  appraisal::Job& job_;
  Renamed renamed_;
  std::optional<std::size_t> found_;
};

std::string and_more(std::size_t all, std::size_t shown) {
  return all > shown ? fmt::format(" and {} more", all - shown) : "";
}

}  // namespace

std::string causes_by_number(const appraisal::Job& job) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < job.causes.size(); ++i)
    if (job.causes[i].odds > 0) order.push_back(i);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return job.causes[a].odds > job.causes[b].odds; });
  std::string text;
  const std::size_t shown = std::min<std::size_t>(order.size(), 5);
  for (std::size_t i = 0; i < shown; ++i)
    text += fmt::format("{}{} \"{}\"", i > 0 ? ", " : "", order[i] + 1, job.causes[order[i]].name);
  return text + and_more(order.size(), shown);
}

std::string tests_by_number(const appraisal::Job& job) {
  std::string text;
  std::size_t all = 0, shown = 0;
  for (std::size_t i = 0; i < job.tests.size(); ++i) {
    if (job.tests[i].seen || job.tests[i].spoiled) continue;
    if (++all > 3) continue;
    text += fmt::format("{}{} \"{}\": ", shown++ > 0 ? "; " : "", i + 1, job.tests[i].name);
    for (std::size_t o = 0; o < job.tests[i].outcomes.size(); ++o)
      text += fmt::format("{}{}={} \"{}\"", o > 0 ? ", " : "", i + 1, o + 1, job.tests[i].outcomes[o]);
  }
  return text + (shown > 0 ? and_more(all, shown) : "");
}

std::size_t place_of_cause(const appraisal::Job& job, const std::string& name, const std::string& tag) {
  std::vector<std::string> names;
  for (const appraisal::Cause& cause : job.causes) names.push_back(cause.name);
  if (const auto found = place(job.causes, name)) return *found;
  std::vector<std::size_t> meant;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (std::to_string(i + 1) == name) return i;
    if (!name.empty() && names[i].starts_with(name)) meant.push_back(i);
  }
  if (meant.size() == 1) return meant.front();
  std::string known = did_you_mean(name, names);
  if (known.empty()) known = "; it knows: " + causes_by_number(job);
  throw Refusal(fmt::format("{}: the appraisal in force knows no cause \"{}\"{}", tag, name, known));
}

void count_at_shops_hour(const book::Book& book, const std::string& tag, std::optional<Day> on,
                         appraisal::Job& job) {
  if (!book.setting("hour")) return;
  const book::Life life = book::life_of(book, tag, on);
  if (life.bought == 0) return;
  job.shop.hour = in_units(book::hour(book, life.ended != 0 ? life.ended_said : on), book.currency());
}

std::optional<Known> known_of(const book::Book& book, const std::string& tag, std::optional<Day> on,
                              const std::string& cause, bool at_purchase) {
  auto kept = at_purchase ? job_at_purchase(book, tag, on) : kept_job(book, tag, on);
  if (!kept) return std::nullopt;
  Known known;
  known.job = std::move(kept->job);
  known.kept_on = kept->day;
  if (!at_purchase) count_at_shops_hour(book, tag, on, known.job);
  Learning learning(known, Renamed(book, tag, on));
  for (const book::DatedFinding& finding : book::findings(book, tag, on))
    for (const book::Fact& fact : finding.facts) learning.take(fact);
  if (cause == something_else)
    learning.found_something_else();
  else if (!cause.empty())
    learning.found(place_of_cause(known.job, cause, tag));
  learning.conclude();
  return known;
}

std::optional<appraisal::Job> job_as_found(const book::Book& book, const std::string& tag,
                                           const std::optional<std::string>& settled) {
  auto kept = book::appraisal_known(book, tag);
  if (!kept) return std::nullopt;
  if (settled) kept->settled = settled;
  Known known;
  known.job = read_kept_job(book, tag, *kept);
  Learning learning(known, Renamed(book, tag, {}));
  for (const book::DatedFinding& finding : book::findings(book, tag))
    for (const book::Fact& fact : finding.facts) learning.take(fact);
  learning.put_in();
  return known.job;
}

}  // namespace nonrunner::answers
