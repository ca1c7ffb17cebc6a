#include "answers/finding.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/known.h"
#include "appraisal/evidence.h"
#include "exact/hint.h"
#include "exact/nearest.h"

namespace nonrunner::answers {

namespace {

namespace fact = book::fact;

// For a message.
std::string shown(const book::Fact& each) {
  return each.what + ": " + each.name + (each.value.empty() ? "" : " = " + each.value);
}

template <class Named>
std::vector<std::string> names_of(const std::vector<Named>& all) {
  std::vector<std::string> names;
  for (const Named& each : all) names.push_back(each.name);
  return names;
}

// By number, whole name, or a beginning that only one of them has.
std::optional<std::size_t> place_meant(const std::vector<std::string>& names, const std::string& text) {
  std::vector<std::size_t> beginning;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (names[i] == text || std::to_string(i + 1) == text) return i;
    if (!text.empty() && names[i].starts_with(text)) beginning.push_back(i);
  }
  return beginning.size() == 1 ? std::optional(beginning.front()) : std::nullopt;
}

std::string meant(const std::string& what, const std::vector<std::string>& names, const std::string& text,
                  const std::string& whose) {
  if (const auto place = place_meant(names, text)) return names[*place];
  std::string known = did_you_mean(text, names);
  if (known.empty()) {
    known = names.empty() ? "; it has none" : ", expected one of ";
    for (std::size_t i = 0; i < names.size(); ++i)
      known += fmt::format("{}{} \"{}\"", i > 0 ? ", " : "", i + 1, names[i]);
  }
  throw Refusal(fmt::format("note: {} knows no {} \"{}\"{}", whose, what, text, known));
}

class Checking {
 public:
  Checking(const appraisal::Job& job, std::string whose) : job_(job), whose_(std::move(whose)) {}

  book::Fact checked(book::Fact each) const {
    if (each.what == fact::not_there) return each;  // no name of the appraisal's
    if (each.what == fact::seen) {
      each.name = meant("test", names_of(job_.tests), each.name, whose_);
      for (const appraisal::Test& test : job_.tests)
        if (test.name == each.name)
          each.value = meant("outcome of \"" + each.name + "\"", test.outcomes, each.value, whose_);
    } else if (each.what == fact::cause || each.what == fact::ruled_out) {
      std::vector<std::string> causes = names_of(job_.causes);
      if (each.what == fact::cause) causes.emplace_back(something_else);
      each.name = meant("cause", causes, each.name, whose_);
    } else if (each.what == fact::trouble) {
      each.name = meant("trouble", names_of(job_.troubles), each.name, whose_);
      if (each.value != "there" && each.value != "not there")
        throw Refusal(fmt::format("note: found \"{}\" for \"{}\", expected there or \"not there\"",
                                  each.value, each.name));
    } else if (each.what == fact::same) {
      each.value = meant("name", all_names(), each.value, whose_);
    } else {
      each.name = meant("correction", names_of(job_.corrections), each.name, whose_);
    }
    return each;
  }

 private:
  // Whatever can be called by a name: tests, causes, troubles, corrections, and the lines of the budget.
  std::vector<std::string> all_names() const {
    std::vector<std::string> all;
    const auto add = [&](const auto& things) {
      for (const auto& each : things) all.push_back(each.name);
    };
    add(job_.tests);
    add(job_.causes);
    add(job_.troubles);
    add(job_.faults);
    for (const appraisal::Correction& correction : job_.corrections) {
      all.push_back(correction.name);
      add(correction.operations);
      add(correction.parts);
      add(correction.consumables);
      add(correction.sublets);
    }
    return all;
  }

  const appraisal::Job& job_;
  std::string whose_;
};

// Whether these facts leave a cause with a chance, in this order after what is known already.
void expect_a_cause_left(const book::Book& book, const book::Finding& finding) {
  const auto before = known_of(book, finding.vehicle, finding.day);
  if (!before || before->is_something_else) return;
  std::vector<double> odds;
  for (const appraisal::Cause& cause : before->job.causes) odds.push_back(cause.odds);
  bool names_cause = false;
  for (const book::Fact& each : finding.facts) names_cause = names_cause || each.what == fact::cause;
  if (names_cause) return;
  for (const book::Fact& each : finding.facts) {
    for (std::size_t c = 0; c < odds.size(); ++c) {
      if (each.what == fact::ruled_out && before->job.causes[c].name == each.name) odds[c] = 0;
      for (const appraisal::Test& test : before->job.tests)
        if (each.what == fact::seen && test.name == each.name && !test.trouble)
          for (std::size_t o = 0; o < test.outcomes.size(); ++o)
            if (test.outcomes[o] == each.value && !test.seen) odds[c] *= test.given[c][o];
    }
    double sum = 0;
    for (const double each_odds : odds) sum += each_odds;
    if (sum > 0) continue;
    std::string found;
    for (const book::DatedFinding& earlier : book::findings(book, finding.vehicle, finding.day))
      for (const book::Fact& other : earlier.facts)
        if (other.what != fact::trouble)
          found += fmt::format("{}{} (entry {})", found.empty() ? "" : ", ", shown(other), earlier.entry);
    throw hinted<Refusal>(
        fmt::format(
            "note: {} leaves no cause of the appraisal of {} with a chance, expected one to be left{}",
            shown(each), finding.vehicle, found.empty() ? "" : "; found before: " + found),
        {Action::say_something_else, {}});
  }
}

}  // namespace

std::string seen_in_names(const appraisal::Job& job, const std::string& given) {
  const auto at = given.rfind('=');
  if (at == std::string::npos) return given;
  const std::string test = given.substr(0, at), outcome = given.substr(at + 1);
  const auto t = place_meant(names_of(job.tests), test);
  if (!t) return given;
  const auto& outcomes = job.tests[*t].outcomes;
  const auto o = place_meant(outcomes, outcome);
  return job.tests[*t].name + "=" + (o ? outcomes[*o] : outcome);
}

book::Finding checked(const book::Book& book, const book::Finding& finding) {
  if (finding.facts.empty()) return finding;
  const auto known = known_of(book, finding.vehicle);
  if (!known) {
    // Nothing to look a number up in; a name is taken as it stands.
    for (const book::Fact& each : finding.facts)
      if (each.what != fact::not_there &&
          std::all_of(each.name.begin(), each.name.end(), [](char c) { return c >= '0' && c <= '9'; }))
        throw hinted<Refusal>(
            fmt::format("note: found {} for a name, and no appraisal of {} is kept to look it up in",
                        each.name, finding.vehicle),
            {Action::keep_appraisal, {}});
    return finding;
  }
  const Checking checking(known->job,
                          fmt::format("the appraisal of {} of {}", finding.vehicle, known->kept_on.iso()));
  book::Finding result = finding;
  for (book::Fact& each : result.facts) each = checking.checked(each);
  expect_a_cause_left(book, result);
  return result;
}

}  // namespace nonrunner::answers
