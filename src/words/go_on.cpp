#include "words/go_on.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "figures/opinion.h"

namespace nonrunner::words {

using Json = nlohmann::ordered_json;

std::string in_words(const answers::GoOnAnswer& answer) {
  const auto& courses = answer.result.courses;
  const appraisal::CourseFromHere& take = courses[answer.result.advice];
  std::string text =
      fmt::format("go on or stop: {} (from here {}", take.name, shown_units(take.value, answer.currency));
  for (const appraisal::CourseFromHere& each : courses)
    if (each.name != take.name)
      text += fmt::format("; {} {}", each.name, shown_units(each.value, answer.currency));
  return text + ")";
}

std::string to_json(const answers::GoOnAnswer& answer) {
  const Currency& c = answer.currency;
  const appraisal::GoOn& result = answer.result;
  Json json{{"tag", answer.tag},
            {"currency", c.code},
            {"best", result.courses[0].name},
            {"advice", result.courses[result.advice].name},
            {"too_close", result.too_close},
            {"not_put_right", answer.not_put_right.empty() ? Json(nullptr) : Json(answer.not_put_right)}};
  json["ahead"] = result.courses.size() > 1 ? Json(plain_units(result.ahead, c)) : Json(nullptr);
  json["hours_wrong"] = result.courses.size() > 1 ? Json(result.hours_wrong) : Json(nullptr);
  json["spent"] = answer.spent.plain(c);
  json["worked"] = Json::parse(answer.worked.shown());
  json["courses"] = Json::array();
  for (const appraisal::CourseFromHere& each : result.courses)
    json["courses"].push_back({{"name", each.name},
                               {"value", plain_units(each.value, c)},
                               {"brings", plain_units(each.mean.brings, c)},
                               {"selling", plain_units(each.mean.selling, c)},
                               {"spend", plain_units(each.mean.spend, c)},
                               {"back", plain_units(each.mean.back, c)},
                               {"hours", each.mean.hours},
                               {"days", each.mean.days}});
  return json.dump(2) + "\n";
}

}  // namespace nonrunner::words
