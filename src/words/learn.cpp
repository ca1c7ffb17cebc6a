#include "words/learn.h"

#include <nlohmann/json.hpp>

#include "figures/opinion.h"

namespace nonrunner::words {

using Json = nlohmann::ordered_json;

namespace {

namespace practice = resale::common_practice;

Json amount_as_json(const resale::OwnAmount& each) {
  const auto& own = each.figures.own;
  return {{"stated", each.prior.points.mean()},
          {"stated_cars", each.prior.weight},
          {"own", own.number > 0 ? Json(own.mean) : Json(nullptr)},
          {"spread", own.sd ? Json(*own.sd) : Json(nullptr)},
          {"cars", own.number},
          {"taken", each.figures.mean},
          {"points", {each.points.low, each.points.likely, each.points.high}}};
}

}  // namespace

std::string in_words(answers::OwnCar::NoPace why) {
  using Why = answers::OwnCar::NoPace;
  switch (why) {
    case Why::none:
      return "";
    case Why::no_appraisal:
      return "no appraisal was kept";
    case Why::no_cause:
      return "no cause was noted";
    case Why::hours_elsewhere:
      return "none of its hours stand under an operation of its appraisal";
  }
  return "";
}

std::string to_json(const answers::Learnt& answer) {
  const auto mean = [&](const resale::MeanAndSpread& each) {
    return Json{{"mean", each.number > 0 ? Json(plain_units(each.mean, answer.currency)) : Json(nullptr)},
                {"spread", each.sd ? Json(plain_units(*each.sd, answer.currency)) : Json(nullptr)},
                {"cars", each.number}};
  };
  Json json;
  json["currency"] = answer.currency.code;
  json["cars"] = answer.own.cars.size();
  json["pace"] = amount_as_json(answer.pace);
  json["realised"] = amount_as_json(answer.realised);
  json["days"] = amount_as_json(answer.days);
  json["bad_salvage"] = {{"stated", practice::bad_salvage.share},
                         {"own", answer.salvage.own ? Json(*answer.salvage.own) : Json(nullptr)},
                         {"parts", answer.own.salvage_bought},
                         {"went_back", answer.own.salvage_back},
                         {"taken", answer.salvage.share}};
  json["readying"] = mean(answer.readying);
  json["looking"] = mean(answer.looking);
  json["left_out"] = Json::array();
  for (const answers::OwnCar& car : answer.own.cars)
    for (const std::string& each : car.left_out)
      json["left_out"].push_back({{"tag", car.tag}, {"operation", each}});
  json["work"] = Json::array();
  for (const answers::KindOfWork& each : answer.own.work)
    json["work"].push_back({{"kind", each.kind},
                            {"booked", each.booked},
                            {"estimated", each.estimated},
                            {"pace", each.booked / each.estimated},
                            {"cars", each.cars}});
  json["causes"] = Json::array();
  for (const auto& [cause, count] : answer.own.causes)
    json["causes"].push_back(
        {{"cause", cause}, {"found", count.found}, {"cars", count.thought}, {"expected", count.stated}});
  json["appraisals"] = Json::array();
  for (const answers::Tried& each : answer.tried.cars)
    json["appraisals"].push_back({{"tag", each.tag},
                                  {"expected", plain_units(each.expected, answer.currency)},
                                  {"actual", plain_units(each.actual, answer.currency)},
                                  {"chance_below", each.chance_below},
                                  {"loss_chance", each.loss_chance}});
  json["losses"] = {{"expected", answer.tried.losses.expected},
                    {"actual", answer.tried.losses.losses},
                    {"brier", answer.tried.losses.brier},
                    {"chance_of_so_many", answer.tried.losses.so_many},
                    {"chance_of_so_few", answer.tried.losses.so_few}};
  return json.dump(2) + "\n";
}

}  // namespace nonrunner::words
