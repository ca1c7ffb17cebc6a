#include "words/go_on.h"

#include <fmt/format.h>

#include "figures/opinion.h"
#include "text/counted.h"
#include "words/json.h"
#include "words/why_not.h"

namespace nonrunner::words {

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

std::string troubles_by_chance(const answers::GoOnAnswer& answer) {
  std::string text;
  for (const auto& each : answer.by_chance)
    text += fmt::format("{}{} ({:.0f} %)", text.empty() ? "" : ", ", each.trouble, 100 * each.chance);
  return text;
}

std::string how_sure(const answers::GoOnAnswer& answer) {
  const appraisal::GoOn& result = answer.result;
  const Currency& c = answer.currency;
  if (result.courses.size() < 2) return "";
  if (result.too_close)
    return fmt::format("too close to call ({} apart, under 5 %): take the shorter",
                       shown_units(result.ahead, c));
  return fmt::format("ahead by {}: it loses to \"{}\" only if it is wrong by that much money{}",
                     shown_units(result.ahead, c), result.courses[1].name,
                     result.hours_wrong > 0 ? fmt::format(", or {:.1f} own hours", result.hours_wrong) : "");
}

std::vector<CourseRow> courses(const answers::GoOnAnswer& answer) {
  const Currency& c = answer.currency;
  std::vector<CourseRow> rows;
  for (const appraisal::CourseFromHere& each : answer.result.courses)
    rows.push_back({each.name, shown_units(each.mean.brings - each.mean.selling, c),
                    shown_units(each.mean.spend, c),
                    each.mean.back == 0 ? "" : shown_units(each.mean.back, c),
                    fmt::format("{:.1f}", each.mean.hours), fmt::format("{:.0f}", each.mean.days),
                    shown_units(each.value, c) + (each.value < 0 ? " loss" : "")});
  return rows;
}

std::string what_price_rests_on(const answers::GoOnAnswer& answer) {
  if (!answer.price_rests_on) return "";
  const auto way = [&] {
    switch (*answer.price_rests_on) {
      case appraisal::Course::part_out:
        return "parted out";
      case appraisal::Course::scrap:
        return "scrapped";
      case appraisal::Course::as_found:
      case appraisal::Course::put_right:
        break;
    }
    return "sold as found";
  };
  return fmt::format(
      "the price held your aims only if it is {}: putting it right brings more, and did not hold them all",
      way());
}

std::string spent_already(const answers::GoOnAnswer& answer) {
  return fmt::format("spent already{} and the same on every course, so left out: {} and {}",
                     answer.on ? " on " + answer.on->iso() : "", answer.spent.shown(answer.currency),
                     counted(answer.worked.shown(), "own hour"));
}

std::string to_json(const answers::GoOnAnswer& answer) {
  const Currency& c = answer.currency;
  const appraisal::GoOn& result = answer.result;
  Json json;
  json["tag"] = answer.tag;
  json["currency"] = c.code;
  json["best"] = result.courses[0].name;
  json["advice"] = result.courses[result.advice].name;
  json["too_close"] = result.too_close;
  json["not_put_right"] = answer.not_put_right ? Json(in_words(*answer.not_put_right)) : Json(nullptr);
  json["price_rests_on"] =
      answer.price_rests_on ? Json(appraisal::name_of(*answer.price_rests_on)) : Json(nullptr);
  json["ahead"] = result.courses.size() > 1 ? Json(plain_units(result.ahead, c)) : Json(nullptr);
  json["hours_wrong"] = result.courses.size() > 1 ? Json(result.hours_wrong) : Json(nullptr);
  json["spent"] = answer.spent.plain(c);
  json["worked"] = exact(answer.worked.shown());
  json["troubles_by_chance"] = Json::array();
  for (const auto& each : answer.by_chance) {
    Json& row = added(json["troubles_by_chance"]);
    row["trouble"] = each.trouble;
    row["chance"] = each.chance;
  }
  json["courses"] = Json::array();
  for (const appraisal::CourseFromHere& each : result.courses) {
    Json& row = added(json["courses"]);
    row["name"] = each.name;
    row["value"] = plain_units(each.value, c);
    row["brings"] = plain_units(each.mean.brings, c);
    row["selling"] = plain_units(each.mean.selling, c);
    row["spend"] = plain_units(each.mean.spend, c);
    row["back"] = plain_units(each.mean.back, c);
    row["hours"] = each.mean.hours;
    row["days"] = each.mean.days;
  }
  return text_of(json);
}

}  // namespace nonrunner::words
