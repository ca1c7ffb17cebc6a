#include "words/fixes.h"

#include <fmt/format.h>

#include <cmath>

#include "figures/opinion.h"
#include "words/json.h"
#include "words/way_in_words.h"
#include "words/why_not.h"

namespace nonrunner::words {

using appraisal::ChoiceSet;

namespace {

double to_thousandths(double hours) { return std::round(hours * 1000) / 1000; }

Json set_as_json(const answers::FixesAnswer& answer, const ChoiceSet& set) {
  const Currency& c = answer.job.currency;
  Json json;
  json["gain"] = plain_units(set.gain, c);
  json["own_hours"] = to_thousandths(set.hours);
  json["cash"] = plain_units(set.cash, c);
  json["fixes"] = Json::array();
  for (std::size_t k = 0; k < answer.classes.size(); ++k)
    if (!answer.is_left(k, set.picks[k])) {
      Json& row = added(json["fixes"]);
      row["fault"] = answer.classes[k].name;
      row["fix"] = answer.classes[k].choices[set.picks[k]].name;
    }
  return json;
}

Json faults_as_json(const answers::FixesAnswer& answer) {
  const Currency& c = answer.job.currency;
  Json faults = Json::array();
  for (std::size_t k = 0; k < answer.classes.size(); ++k) {
    Json choices = Json::array();
    for (std::size_t j = 0; j < answer.classes[k].choices.size(); ++j) {
      const appraisal::Choice& choice = answer.classes[k].choices[j];
      if (answer.is_left(k, j)) continue;
      Json& row = added(choices);
      row["fix"] = choice.name;
      row["gain"] = plain_units(choice.gain, c);
      row["own_hours"] = to_thousandths(choice.hours);
      row["cash"] = plain_units(choice.cash, c);
    }
    Json& row = added(faults);
    row["fault"] = answer.classes[k].name;
    row["must"] = answer.fault(k).must;
    row["choices"] = std::move(choices);
  }
  return faults;
}

Json steps_as_json(const answers::FixesAnswer& answer) {
  const Currency& c = answer.job.currency;
  Json steps = Json::array();
  for (std::size_t i = 0; i < answer.steps.size(); ++i) {
    const ChoiceSet* before = i > 0 ? &answer.steps[i - 1] : nullptr;
    Json changed = Json::array();
    for (const auto& [k, what] : what_changes(answer.job, answer.classes, before, answer.steps[i])) {
      Json& row = added(changed);
      row["fault"] = answer.classes[k].name;
      row["choice"] = answer.classes[k].choices[answer.steps[i].picks[k]].name;
    }
    Json& row = added(steps);
    row["own_hours"] = to_thousandths(answer.steps[i].hours);
    row["gain"] = plain_units(answer.steps[i].gain, c);
    row["per_hour"] = before ? Json(plain_units(per_hour(*before, answer.steps[i]), c)) : Json(nullptr);
    row["changes"] = std::move(changed);
  }
  return steps;
}

}  // namespace

std::string in_words(const answers::FixesAnswer& answer, const ChoiceSet& set) {
  const Currency& c = answer.job.currency;
  std::size_t fixed = 0;
  for (std::size_t k = 0; k < answer.classes.size(); ++k) fixed += answer.is_left(k, set.picks[k]) ? 0 : 1;
  return fmt::format("fix {} of {} faults: {} {} in {:.2f} own hours and {} cash", fixed,
                     answer.classes.size(), set.gain < 0 ? "loss" : "gain",
                     shown_units(std::abs(set.gain), c), set.hours, shown_units(set.cash, c));
}

std::string to_json(const answers::FixesAnswer& answer) {
  const Currency& c = answer.job.currency;
  Json json;
  json["tag"] = answer.job.vehicle.tag;
  json["currency"] = c.code;
  json["not_put_right"] = answer.not_put_right ? Json(in_words(*answer.not_put_right)) : Json(nullptr);
  json["other_course"] = answer.other_course.empty() ? Json(nullptr) : Json(answer.other_course);
  json["faults"] = faults_as_json(answer);
  json["best"] = set_as_json(answer, answer.best);
  json["within_limits"] = answer.has_limits() ? set_as_json(answer, answer.limited) : Json(nullptr);
  json["frontier"] = Json::array();
  for (const ChoiceSet& set : answer.frontier) {
    Json& row = added(json["frontier"]);
    row["own_hours"] = to_thousandths(set.hours);
    row["gain"] = plain_units(set.gain, c);
    row["cash"] = plain_units(set.cash, c);
  }
  json["steps"] = steps_as_json(answer);
  return text_of(json);
}

}  // namespace nonrunner::words
