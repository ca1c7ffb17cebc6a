#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "answers/appraisals_tried.h"
#include "answers/budget.h"
#include "answers/own_figures.h"
#include "book/questions/vehicle_money.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "figures/opinion.h"

namespace nonrunner::commands {

namespace {

using Json = nlohmann::ordered_json;
namespace practice = resale::common_practice;

constexpr int readying_days = 7;

// Readying a car for sale: what was put under a heading "readying" of its budget, what stands under no line
// of its appraisal and was spent in the last week before it was first advertised, and the costs of selling
// without the commission. Absent where it was never advertised.
std::optional<double> readying_of(const book::Book& book, const answers::OwnCar& car) {
  const auto adverts = book::adverts_of(book, car.tag);
  if (!car.days || adverts.empty()) return std::nullopt;
  const std::optional<answers::Budget> budget = answers::budget_of(book, car.tag);
  const auto money = budget ? budget->money : book::money_of(book, car.tag);
  Money sum;
  for (std::size_t i = 0; i < money.size(); ++i) {
    using Kind = book::MoneyKind;
    const book::MoneyLine& line = money[i];
    const bool spent = line.kind == Kind::part || line.kind == Kind::consumable ||
                       line.kind == Kind::sublet || line.kind == Kind::fee;
    const auto under = budget ? budget->money_under[i] : std::nullopt;
    const int before = days_between(line.day, adverts.front().first);
    const bool headed = under && budget->lines[*under].estimate.what == "readying";
    if (line.kind == Kind::selling_cost || headed ||
        (spent && !under && before >= 0 && before <= readying_days))
      sum -= line.amount;
  }
  return in_units(sum, book.currency());
}

struct Answer {
  Currency currency;
  answers::OwnFigures own;
  answers::AppraisalsTried tried;
  resale::OwnAmount pace, realised, days;
  resale::ShrunkShare salvage;
  resale::MeanAndSpread readying, looking;
  double booked_hours = 0, own_hours = 0;  // of cars whose hours could be compared

  std::string money(double units) const { return shown_units(units, currency); }
};

Answer answer_of(const book::Book& book, Day before) {
  Answer answer;
  answer.currency = book.currency();
  answer.own = answers::own_figures(book, before);
  answer.tried = answers::appraisals_tried(book, before);
  answer.pace = resale::own_amount(practice::pace, answer.own.pace(), 0.01, 100);
  answer.realised = resale::own_amount(practice::realised, answer.own.realised(), 0.01, 10);
  answer.days = resale::own_amount(practice::days, answer.own.days(), 0, 3650);
  answer.salvage = resale::shrunk(practice::bad_salvage, answer.own.salvage_back, answer.own.salvage_bought);
  std::vector<double> readying;
  for (const answers::OwnCar& car : answer.own.cars) {
    if (const auto spent = readying_of(book, car)) readying.push_back(*spent);
    if (!car.pace && car.no_pace.rfind("none of its hours", 0) != 0) continue;
    answer.booked_hours += car.booked_hours;
    answer.own_hours += car.own_hours;
  }
  answer.readying = resale::mean_and_spread(readying);
  answer.looking = resale::mean_and_spread(answer.own.looking);
  return answer;
}

std::string number(double value) { return fmt::format("{:.4g}", value); }
std::string cars(std::size_t count) { return fmt::format("{} car{}", count, count == 1 ? "" : "s"); }

std::string figures_text(const Answer& answer) {
  Columns columns("lrrrrr");
  columns.row({"figure", "stated", "own", "spread", "cars", "with both"});
  const auto amount = [&](const char* name, const resale::OwnAmount& each) {
    const auto& own = each.figures.own;
    columns.row({name, number(each.prior.points.mean()), own.number > 0 ? number(own.mean) : "",
                 own.sd ? number(*own.sd) : "", std::to_string(own.number), number(each.figures.mean)});
  };
  amount("pace: real hours / estimated", answer.pace);
  amount("realised: got / advertised", answer.realised);
  amount("days from advert to sale", answer.days);
  columns.row({"salvage parts that went back", fmt::format("{:.0f} %", practice::bad_salvage.share * 100),
               answer.salvage.own ? fmt::format("{:.0f} %", *answer.salvage.own * 100) : "", "",
               fmt::format("{} parts", answer.own.salvage_bought),
               fmt::format("{:.0f} %", answer.salvage.share * 100)});
  const auto mean = [&](const char* name, const resale::MeanAndSpread& each) {
    if (each.number > 0)
      columns.row({name, "", answer.money(each.mean), each.sd ? answer.money(*each.sd) : "",
                   std::to_string(each.number), ""});
  };
  mean("readying it for sale, and selling", answer.readying);
  mean("looking at one that was left", answer.looking);
  return columns.text();
}

std::string work_text(const Answer& answer) {
  if (answer.own.work.empty()) return "";
  std::string text = "\npace by kind of work\n";
  Columns columns("lrrrr");
  columns.row({"  kind", "booked", "estimated", "pace", "cars"});
  for (const answers::KindOfWork& each : answer.own.work)
    columns.row({"  " + each.kind, fmt::format("{:.1f}", each.booked), fmt::format("{:.1f}", each.estimated),
                 fmt::format("{:.2f}", each.booked / each.estimated), std::to_string(each.cars)});
  text += columns.text();
  if (answer.own_hours > 0)
    text += fmt::format("  {:.0f} % of their own hours stand under no operation of an appraisal\n",
                        (1 - answer.booked_hours / answer.own_hours) * 100);
  return text;
}

std::string causes_text(const Answer& answer) {
  if (answer.own.causes.empty()) return "";
  std::string text = "\ncauses found, of the cars whose appraisal named them\n";
  Columns columns("lrrr");
  columns.row({"  cause", "found", "cars", "expected"});
  for (const auto& [cause, count] : answer.own.causes)
    columns.row({"  " + cause, std::to_string(count.found), std::to_string(count.thought),
                 fmt::format("{:.1f}", count.stated)});
  return text + columns.text();
}

std::string tried_text(const Answer& answer) {
  if (answer.tried.cars.empty()) return "";
  std::string text = "\nhow the appraisals did: cash profit, at the price paid\n";
  Columns columns("lrrrr");
  columns.row({"  vehicle", "expected", "came", "chance of so little", "chance of loss"});
  for (const answers::Tried& each : answer.tried.cars)
    columns.row({"  " + each.tag, answer.money(each.expected),
                 answer.money(each.actual) + (each.actual < 0 ? " loss" : ""),
                 fmt::format("{:.0f} %", each.chance_below * 100),
                 fmt::format("{:.0f} %", each.loss_chance * 100)});
  text += columns.text();
  const auto& off = answer.tried.off;
  text += fmt::format("  on average {} {} than expected{}\n", answer.money(std::abs(off.mean)),
                      off.mean < 0 ? "less" : "more",
                      off.sd ? fmt::format(", give or take {}", answer.money(*off.sd)) : "");
  const auto& losses = answer.tried.losses;
  text += fmt::format("  losses: {:.1f} expected, {} came; so many or more had a chance of {:.0f} %\n",
                      losses.expected, losses.losses, losses.so_many * 100);
  return text;
}

// Which cars say nothing of the pace, and why.
std::string left_out_text(const Answer& answer) {
  std::map<std::string, std::string> by_reason;
  for (const answers::OwnCar& car : answer.own.cars)
    if (!car.no_pace.empty()) {
      std::string& tags = by_reason[car.no_pace];
      tags += (tags.empty() ? "" : ", ") + car.tag;
    }
  std::string text;
  for (const auto& [reason, tags] : by_reason) {
    const bool hours = reason.rfind("none of its hours", 0) == 0;
    text += in_80("pace leaves out " + tags + ": " + reason +
                      (hours ? "; put them there: nonrunner under TAG HEADING --operation \"...\"" : ""),
                  2);
  }
  return text.empty() ? "" : "\n" + text;
}

// What a job file would take, in a line each: the figures and what they rest on stand under --detail.
std::string short_text(const Answer& answer) {
  Columns columns("lrl");
  const auto rests_on = [](std::size_t number, const char* one) {
    return number == 0
               ? std::string("stated; none of your own yet")
               : fmt::format("{} {}{} of your own, and what is stated", number, one, number == 1 ? "" : "s");
  };
  const auto amount = [&](const char* name, const resale::OwnAmount& each) {
    columns.row({name, number(each.figures.mean), rests_on(each.figures.own.number, "car")});
  };
  amount("pace: real hours / estimated", answer.pace);
  amount("realised: got / advertised", answer.realised);
  amount("days from advert to sale", answer.days);
  columns.row({"salvage parts that went back", fmt::format("{:.0f} %", answer.salvage.share * 100),
               rests_on(answer.own.salvage_bought, "part")});
  std::string text = columns.text();
  const std::size_t tried = answer.tried.cars.size();
  if (tried > 0)
    text += fmt::format("\nthe appraisals expected {} {} than came, on average of {}; {} ended in a loss\n",
                        answer.money(std::abs(answer.tried.off.mean)),
                        answer.tried.off.mean < 0 ? "more" : "less", cars(tried), answer.tried.losses.losses);
  return text + left_out_text(answer) + "\nmore: nonrunner learn --detail\n";
}

std::string as_text(const Answer& answer, bool detail) {
  std::string text = fmt::format("{} sold or finished, {} left: what they say, beside what is stated\n\n",
                                 cars(answer.own.cars.size()), answer.own.looking.size());
  if (!detail) return text + short_text(answer);
  text += figures_text(answer) + work_text(answer) + causes_text(answer) + tried_text(answer) +
          left_out_text(answer);
  text +=
      "\nstated: common practice, no source; it counts as 4 cars, or 10 parts.\n"
      "\"with both\" is what a job file takes that says pace, realised, days = \"own\".\n";
  return text;
}

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

Json as_json(const Answer& answer) {
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
  return json;
}

int run_learn(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  const Answer answer = answer_of(book, terminal.today.plus(1));
  if (given.json()) {
    terminal.out << as_json(answer).dump(2) << "\n";
  } else if (answer.own.cars.empty() && answer.own.looking.empty()) {
    terminal.out
        << "no car is sold, finished or left yet; what they say will stand here, beside common practice\n";
  } else {
    terminal.out << as_text(answer, given.flag("detail"));
  }
  return 0;
}

}  // namespace

extern const Command learn;
const Command learn{
    {"learn",
     "",
     "what your own cars say: pace, price got, days, bad parts, causes",
     "nonrunner learn",
     {{"detail", "", "stated and own figures with their spread, kinds of work, causes, each appraisal"}},
     true,
     "A car counts once it is sold, finished or left. Hours and causes need an appraisal kept with the "
     "purchase\n"
     "(buy --job) and the cause noted (note TAG TEXT --cause NAME); prices and days need advertise."},
    run_learn};

}  // namespace nonrunner::commands
