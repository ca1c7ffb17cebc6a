#include "words/take_along.h"

#include <fmt/format.h>

#include "figures/opinion.h"
#include "text/counted.h"
#include "words/appraise.h"
#include "words/json.h"

namespace nonrunner::words {

answers::TakeAlong taken_along(const appraisal::Job& job, const answers::GoOnTaking& go_on,
                               std::size_t states, std::size_t from) {
  return answers::take_along(
      job,
      [](const appraisal::Appraisal& answer, answers::State& state) {
        state.next = AppraisalInWords(answer, false).next();
      },
      go_on, states, from);
}

std::string key_of(const answers::State& state) {
  std::string key;
  for (std::size_t t = 0; t < state.seen.size(); ++t)
    if (state.seen[t]) key += fmt::format("{}{}:{}", key.empty() ? "" : ",", t + 1, *state.seen[t] + 1);
  return key;
}

std::string how_whole(const answers::TakeAlong& taken) {
  if (taken.is_whole()) return counted(taken.there(), "state") + " of the tests, all there are";
  return fmt::format("{} of {}{} states of the tests, the likeliest{}", taken.there(),
                     taken.all < answers::counted_most ? "" : "more than ", taken.all,
                     taken.was_ended ? ": ended before all were worked out"
                                     : fmt::format(" with up to {} tests made", answers::tests_made_max));
}

std::string verdict_of(const answers::State& state) {
  switch (state.verdict) {
    case appraisal::Verdict::buy:
      return "BUY";
    case appraisal::Verdict::test_first:
      return "TEST FIRST";
    case appraisal::Verdict::offer_less:
      return "OFFER LESS";
    case appraisal::Verdict::walk_away:
      return "WALK AWAY";
  }
  return "";
}

std::string limit_of(const answers::State& state, const Currency& c) {
  return state.walk_away < 0 ? "not unseen, even as a gift"
                             : "never pay more than " + shown_units(state.walk_away, c);
}

std::string prices_of(const answers::State& state, const Currency& c) {
  std::string text = limit_of(state, c);
  if (state.with_tests <= state.walk_away || state.with_tests < 0) return text;
  if (state.test_from && *state.test_from > 0)
    return text +
           fmt::format("; below {} buy it as it is, from there to {} test first, above that offer less",
                       shown_units(*state.test_from, c), shown_units(state.with_tests, c));
  return text + fmt::format("; up to {} test before you decide, above that offer less",
                            shown_units(state.with_tests, c));
}

namespace {

// "buy", "test first", "take "with a trailer" instead": what follows a price that a seller names.
std::string advice_of(const appraisal::UpTo& row, const appraisal::Job& job) {
  if (row.verdict == appraisal::Verdict::buy && row.offer != 0) {
    const appraisal::Offer& other = job.deal.others[row.offer - 1];
    return fmt::format("take \"{}\" instead, at {} or less", other.name,
                       shown_units(other.price, job.currency));
  }
  return appraisal::name_of(row.verdict);
}

}  // namespace

std::string to_json(const answers::TakeAlong& taken, const std::string& as_of, const std::string& appraisal) {
  const Currency& c = taken.job.currency;
  const auto money = [&](const std::optional<double>& amount) {
    return amount ? Json(plain_units(*amount, c)) : Json(nullptr);
  };
  Json json;
  json["tag"] = taken.job.vehicle.tag;
  json["description"] = taken.job.vehicle.description;
  json["currency"] = c.code;
  json["as_of"] = as_of;
  json["appraisal"] = appraisal;
  json["asking"] = money(taken.job.deal.asking);
  json["how_whole"] = how_whole(taken);
  json["all"] = taken.all;
  json["meant"] = taken.meant;
  json["go_on"] = taken.was_ended ? Json(taken.there()) : Json(nullptr);
  json["tests"] = Json::array();
  for (const appraisal::Test& test : taken.job.tests) {
    Json& row = added(json["tests"]);
    row["name"] = test.name;
    row["takes"] = cost_in_words(taken.job, test);
    row["outcomes"] = test.outcomes;
    row["seen"] = test.seen ? Json(*test.seen + 1) : Json(nullptr);
    row["spoiled"] = test.spoiled;
  }
  json["states"] = Json::object();
  for (const answers::State& state : taken.states) {
    Json& row = json["states"][key_of(state)] = Json::object();
    row["verdict"] = appraisal::name_of(state.verdict);
    row["walk_away"] = state.walk_away < 0 ? Json(nullptr) : money(state.walk_away);
    row["limit"] = limit_of(state, c);
    row["with_tests"] = state.with_tests < 0 ? Json(nullptr) : money(state.with_tests);
    row["test_from"] = money(state.test_from);
    row["at_prices"] = Json::array();
    for (const appraisal::UpTo& at : state.at_prices) {
      Json& one = added(row["at_prices"]);
      one["up_to"] = money(at.price);
      one["says"] = advice_of(at, taken.job);
    }
    row["next_test"] = state.next_test ? Json(*state.next_test + 1) : Json(nullptr);
    row["next"] = state.next;
    row["first_figure"] = money(state.first_figure);
    row["costs_to_name"] = Json::array();
    for (const appraisal::CostToName& cost : state.costs) {
      Json& one = added(row["costs_to_name"]);
      one["what"] = cost.what;
      one["amount"] = about(cost.amount, c);
      one["chance"] = cost.chance < 1 ? Json(in_percent(cost.chance)) : Json(nullptr);
      one["counted"] = cost.counted;
    }
  }
  return text_of(json);
}

}  // namespace nonrunner::words
