#include "words/learn.h"

#include "figures/opinion.h"
#include "words/json.h"

namespace nonrunner::words {

namespace {

namespace practice = resale::common_practice;

Json amount_as_json(const resale::OwnAmount& each) {
  const auto& own = each.figures.own;
  Json json;
  json["stated"] = each.prior.points.mean();
  json["stated_cars"] = each.prior.weight;
  json["own"] = own.number > 0 ? Json(own.mean) : Json(nullptr);
  json["spread"] = own.sd ? Json(*own.sd) : Json(nullptr);
  json["cars"] = own.number;
  json["taken"] = each.figures.mean;
  json["points"] = {each.points.low, each.points.likely, each.points.high};
  return json;
}

Json salvage_as_json(const answers::Learnt& answer) {
  return Object()
      .with("stated", practice::bad_salvage.share)
      .with("own", answer.salvage.own ? Json(*answer.salvage.own) : Json(nullptr))
      .with("parts", answer.own.salvage_bought)
      .with("went_back", answer.own.salvage_back)
      .with("taken", answer.salvage.share);
}

Json place_as_json(const answers::Learnt& answer) {
  const answers::OwnPlace place = answer.own.place();
  return Object()
      .with("earned", place.cars > 0 ? Json(plain_units(place.a_day(), answer.currency)) : Json(nullptr))
      .with("days", place.days)
      .with("taken", plain_units(place.with_stated(0), answer.currency))
      .with("cars", place.cars);
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

std::string in_words(const answers::OwnCar::LeftOut& left_out) {
  return left_out.operation + (left_out.is_estimated ? ": no hours" : ": not estimated");
}

std::string to_json(const answers::Learnt& answer) {
  const auto mean = [&](const resale::MeanAndSpread& each) {
    Json row;
    row["mean"] = each.number > 0 ? Json(plain_units(each.mean, answer.currency)) : Json(nullptr);
    row["spread"] = each.sd ? Json(plain_units(*each.sd, answer.currency)) : Json(nullptr);
    row["cars"] = each.number;
    return row;
  };
  Json json;
  json["currency"] = answer.currency.code;
  json["cars"] = answer.own.cars.size();
  json["pace"] = amount_as_json(answer.pace);
  json["realised"] = amount_as_json(answer.realised);
  json["days"] = amount_as_json(answer.days);
  json["day_of_the_place"] = place_as_json(answer);
  json["bad_salvage"] = salvage_as_json(answer);
  json["readying"] = mean(answer.readying);
  json["looking"] = mean(answer.looking);
  json["left_out"] = Json::array();
  for (const answers::OwnCar& car : answer.own.cars)
    for (const answers::OwnCar::LeftOut& each : car.left_out)
      json["left_out"].push_back(Object().with("tag", car.tag).with("operation", in_words(each)));
  json["work"] = Json::array();
  for (const answers::KindOfWork& each : answer.own.work) {
    Json& row = added(json["work"]);
    row["kind"] = each.kind;
    row["booked"] = each.booked;
    row["estimated"] = each.estimated;
    row["pace"] = each.booked / each.estimated;
    row["cars"] = each.cars;
  }
  json["causes"] = Json::array();
  for (const auto& [cause, count] : answer.own.causes) {
    Json& row = added(json["causes"]);
    row["cause"] = cause;
    row["found"] = count.found;
    row["cars"] = count.thought;
    row["expected"] = count.stated;
  }
  json["appraisals"] = Json::array();
  for (const answers::Tried& each : answer.tried.cars) {
    Json& row = added(json["appraisals"]);
    row["tag"] = each.tag;
    row["expected"] = plain_units(each.expected, answer.currency);
    row["actual"] = plain_units(each.actual, answer.currency);
    row["chance_below"] = each.chance_below;
    row["loss_chance"] = each.loss_chance;
  }
  const auto& losses = answer.tried.losses;
  json["losses"] = Object()
                       .with("expected", losses.expected)
                       .with("actual", losses.losses)
                       .with("brier", losses.brier)
                       .with("chance_of_so_many", losses.so_many)
                       .with("chance_of_so_few", losses.so_few);
  return text_of(json);
}

}  // namespace nonrunner::words
