#include <cmath>
#include <nlohmann/json.hpp>

#include "answers/budget.h"
#include "appraisal/evidence.h"
#include "appraisal/sound_value.h"
#include "book/questions/figures.h"
#include "book/questions/vehicle_money.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"
#include "figures/opinion.h"
#include "resale/asking_price.h"

namespace nonrunner::commands {

namespace {

using Json = nlohmann::ordered_json;

constexpr int values = 200;       // equally likely ones that stand for what the car would fetch
constexpr int day_points = 2000;  // and for the days of a sale

// What the car would fetch once it is ready, and how long a right price takes: by the appraisal in force.
resale::Market market_of(const answers::Budget& budget, double carried) {
  const appraisal::Job& job = budget.job;
  const appraisal::SoundValue sound = appraisal::sound_value_of(job);
  const double off = sound.mean * job.keeps - budget.estimate.sale_price;
  resale::Market market;
  for (int i = 0; i < values; ++i) {
    const double value = sound.is_constant ? sound.mean : sound.quantile((i + 0.5) / values);
    market.fetches.push_back(std::max(1.0, value * job.keeps - off));
  }
  const ThreePoint& days = job.sale.days;
  market.sold_on_day.assign(static_cast<std::size_t>(std::max(1.0, std::ceil(days.high))), 0.0);
  for (int i = 0; i < day_points; ++i) {
    const double day = days.is_constant() ? days.low : days.quantile((i + 0.5) / day_points);
    const auto place = static_cast<std::size_t>(std::max(1.0, std::ceil(day))) - 1;
    market.sold_on_day[std::min(place, market.sold_on_day.size() - 1)] += 1.0 / day_points;
  }
  // Above 1 people bid a price up: for advertising that is as good as getting what is asked.
  market.realised = std::min(1.0, job.sale.realised.mean());
  market.per_day = job.shop.holding_per_day + job.shop.money_rate * carried / 365;
  market.rate = job.sale.rate;
  return market;
}

struct Answer {
  std::string tag;
  Currency currency;
  Day first;  // of the plan
  resale::AskingPlan plan;
  Money floor;  // break-even price with what is still to come
  Money to_come;
  std::vector<resale::Stood> stood;  // at which prices, for how long
  std::optional<Money> advertised;
  double hours_to_come = 0;
  std::vector<std::string> doubts;  // why it may not come to a sale running
  std::string likeliest;            // the cause that was taken, where none was noted
  std::optional<double> part_out;   // what the pieces would leave
  std::optional<int> part_out_day;
  double realised = 1, commission = 0;

  std::string round(double units) const {
    const Money money = in_money(std::round(units), currency);
    const std::string text = money.shown(currency);
    return currency.digits == 0 ? text
                                : text.substr(0, text.size() - static_cast<std::size_t>(currency.digits) - 1);
  }
  // At its prices hardly anybody buys: what the plan comes to is the best offer in the end.
  bool is_best_offer() const { return plan.best_offer_chance > 0.99; }
  Day best_offer_by() const { return first.plus(static_cast<int>(std::lround(plan.expected_days))); }
  // What a sale at this price loses; below zero: what it earns.
  double loss_at(double price) const { return (floor_units() - price) * (1 - commission); }
  double floor_units() const { return in_units(floor, currency); }
};

std::string as_text(const Answer& answer, bool detail) {
  const auto& stages = answer.plan.stages;
  std::string text;
  for (const std::string& doubt : answer.doubts) text += in_80(answer.tag + ": " + doubt, 2);
  if (answer.is_best_offer())
    text += in_80(fmt::format("{}: no single price: ask {} to draw offers, and take the best by {}",
                              answer.tag, answer.round(stages[0].ask), answer.best_offer_by().iso()),
                  2);
  else
    text += fmt::format("{}: advertise at {}", answer.tag, answer.round(stages[0].ask));
  for (std::size_t i = 1; i < stages.size() && !answer.is_best_offer(); ++i)
    text += fmt::format("{} {} on {}", i == 1 ? "\nunsold, drop to" : ", to", answer.round(stages[i].ask),
                        answer.first.plus(stages[i].from_day).iso());
  if (!answer.is_best_offer()) text += "\n";
  text += fmt::format("floor {}: brings back all that went in, and {} still to come\n",
                      answer.floor.shown(answer.currency), answer.to_come.shown(answer.currency));
  if (answer.advertised) {
    int days = 0;
    for (const auto& each : answer.stood) days += each.days;
    const double now = in_units(*answer.advertised, answer.currency);
    text += fmt::format("it has stood {} days, {} now, and did not sell: that is counted in\n", days,
                        answer.round(now));
    if (answer.loss_at(now) > 0) {
      text += in_80(fmt::format("{} is BELOW THE FLOOR: sold there it LOSES {}; raise it to {} at least",
                                answer.round(now),
                                in_money(answer.loss_at(now), answer.currency).shown(answer.currency),
                                answer.floor.shown(answer.currency)),
                    2);
    } else if (stages[0].ask > now && !answer.is_best_offer())
      text += fmt::format(
          "{} is MORE than it stands at: by the appraisal {} is low yet; leave it there, or raise it\n",
          answer.round(stages[0].ask), answer.round(now));
  }
  text += fmt::format("expected: {} after {:.0f} days\n", answer.round(answer.plan.expected_got),
                      answer.plan.expected_days);
  if (answer.hours_to_come > 0.05)
    text += fmt::format("as if it were ready today: {:.1f} own hours of work are still to come\n",
                        answer.hours_to_come);
  if (!answer.likeliest.empty())
    text += in_80(
        "no cause is noted, so the likeliest is taken: " + answer.likeliest + "; else say --cause NAME", 2);
  if (answer.part_out && answer.part_out_day)
    text +=
        *answer.part_out_day == 0
            ? "PARTING OUT would leave more than selling it whole, today already\n"
            : fmt::format("from {} on parting out would leave more than what is left of selling it whole\n",
                          answer.first.plus(*answer.part_out_day).iso());
  const double loss = answer.floor_units() - stages.back().got;
  if (answer.is_best_offer()) {
    if (answer.plan.expected_got < answer.floor_units())
      text += "the best offer is expected below the floor: a LOSS\n";
  } else if (loss > 0)
    text += "the last price lies below the floor: a LOSS, if it comes to that\n";
  if (!detail) return text + fmt::format("\nmore: nonrunner price {} --detail\n", answer.tag);
  text += "\n";
  Columns columns("lrrrrl");
  columns.row({"from", "price", "chance", "brings", "take from", "against the floor"});
  for (const resale::PriceStage& stage : stages) {
    const double over = stage.got - answer.floor_units();
    columns.row({answer.first.plus(stage.from_day).iso(), answer.round(stage.ask),
                 fmt::format("{:.0f} %", stage.chance * 100), answer.round(stage.got),
                 answer.round(stage.take_from),
                 fmt::format("{} {}", answer.round(std::abs(over)), over < 0 ? "below: a loss" : "above")});
  }
  text += columns.text();
  text += fmt::format("unsold on {} (chance {:.0f} %): take the best offer\n",
                      answer.first.plus(stages.back().until_day).iso(), answer.plan.best_offer_chance * 100);
  text += fmt::format("of the {} expected, commission and days leave {}\n",
                      answer.round(answer.plan.expected_got), answer.round(answer.plan.expected_net));
  if (answer.part_out)
    text += fmt::format("parting out would leave {}{}\n", answer.round(*answer.part_out),
                        answer.part_out_day ? "" : ": less than selling it whole, to the end of this plan");
  text += fmt::format("brings: price x {:.3f}, as buyers haggle; take from: better than going on\n",
                      answer.realised);
  return text;
}

Json as_json(const Answer& answer) {
  const Currency& c = answer.currency;
  Json json;
  json["tag"] = answer.tag;
  json["currency"] = c.code;
  json["floor"] = answer.floor.plain(c);
  json["to_come"] = answer.to_come.plain(c);
  json["advertised"] = answer.advertised ? Json(answer.advertised->plain(c)) : Json(nullptr);
  json["plan"] = Json::array();
  for (const resale::PriceStage& stage : answer.plan.stages)
    json["plan"].push_back({{"from", answer.first.plus(stage.from_day).iso()},
                            {"until", answer.first.plus(stage.until_day).iso()},
                            {"price", plain_units(stage.ask, c)},
                            {"chance", stage.chance},
                            {"brings", plain_units(stage.got, c)},
                            {"take_from", plain_units(stage.take_from, c)},
                            {"above_floor", plain_units(stage.got - answer.floor_units(), c)}});
  json["loss_at_advertised"] =
      answer.advertised ? Json(plain_units(std::max(0.0, answer.loss_at(in_units(*answer.advertised, c))), c))
                        : Json(nullptr);
  json["best_offer_by"] = answer.is_best_offer() ? Json(answer.best_offer_by().iso()) : Json(nullptr);
  json["doubts"] = answer.doubts;
  json["hours_to_come"] = answer.hours_to_come;
  json["best_offer_chance"] = answer.plan.best_offer_chance;
  json["expected"] = {{"sale_price", plain_units(answer.plan.expected_got, c)},
                      {"days", answer.plan.expected_days},
                      {"after_commission_and_days", plain_units(answer.plan.expected_net, c)}};
  json["part_out"] =
      answer.part_out
          ? Json{{"leaves", plain_units(*answer.part_out, c)},
                 {"better_from",
                  answer.part_out_day ? Json(answer.first.plus(*answer.part_out_day).iso()) : Json(nullptr)}}
          : Json(nullptr);
  return json;
}

[[noreturn]] void refuse_without_budget(const book::Book& book, const std::string& tag,
                                        const std::string& cause) {
  const std::optional<answers::Budget> appraised = answers::appraised_cause(book, tag, cause);
  if (!appraised)
    throw Refusal(fmt::format(
        "price: no appraisal of {} is kept in the book, expected one; keep it with: nonrunner appraise "
        "JOB.toml --keep",
        tag));
  throw Refusal(fmt::format(
      "price: by the appraisal of {} {} cannot be put right from \"{}\"{}, since {}, expected a car "
      "to be sold running; what the other courses bring: nonrunner go-on {} --cause \"{}\"",
      appraised->kept_on.iso(), tag, appraised->cause,
      appraised->cause_is_noted ? "" : ", the likeliest cause", answers::why_not_put_right(*appraised), tag,
      appraised->cause));
}

// Where the appraisal does not mean to sell the car running, or is not sure that it may: what it means.
std::vector<std::string> doubts_of(const answers::Budget& budget, std::size_t cause) {
  const appraisal::Job& job = budget.job;
  const appraisal::Courses courses(job, appraisal::sound_value_of(job).mean);
  const std::vector<double> troubles = appraisal::posterior(job).trouble;
  std::vector<std::string> doubts;
  unsigned certain = 0;
  for (std::size_t j = 0; j < troubles.size(); ++j) {
    if (troubles[j] == 1) certain |= 1u << j;
    if (job.troubles[j].bars_road && troubles[j] > 0)
      doubts.push_back(
          fmt::format("by the appraisal of {} \"{}\" {}bars the road: then it may not be sold running",
                      budget.kept_on.iso(), job.troubles[j].name,
                      troubles[j] == 1 ? "" : fmt::format("with a chance of {:.0f} % ", 100 * troubles[j])));
  }
  const appraisal::Course best = courses.best(cause, certain).course;
  if (best != appraisal::Course::put_right)
    doubts.push_back(
        fmt::format("the appraisal of {} means to {} and not to put it right; this is for selling it "
                    "running all the same",
                    budget.kept_on.iso(), appraisal::name_of(best)));
  return doubts;
}

int run_price(const Given& given, Terminal& terminal) {
  const book::Book book = open_book(given, terminal);
  const std::string& tag = given.word(0);
  book::know_vehicle(book, "price", tag);
  const book::Life life = book::life_of(book, tag);
  if (life.state != book::State::owned)
    throw Refusal(fmt::format("price: {} is {}, expected a car that is owned and not sold yet", tag,
                              book::shown(life.state)));
  const std::optional<answers::Budget> budget = answers::budget_of(book, tag, given.text_or("cause", ""));
  if (!budget) refuse_without_budget(book, tag, given.text_or("cause", ""));
  const book::Expected expected = answers::expected_of(*budget, book.currency());
  const book::VehicleFigures figures = book::figures_of(book, tag, terminal.today, {}, expected);

  Answer answer;
  answer.tag = tag;
  answer.currency = book.currency();
  answer.first = terminal.today;
  answer.floor = figures.break_even_price.value_or(Money{});
  answer.to_come = expected.to_complete + expected.selling_costs;
  answer.hours_to_come = budget->hours_to_come;
  if (!budget->cause_is_noted) answer.likeliest = budget->cause;
  resale::Market market = market_of(*budget, in_units(figures.carried, answer.currency));
  answer.realised = market.realised;
  const auto adverts = book::adverts_of(book, tag);
  for (std::size_t i = 0; i < adverts.size(); ++i) {
    const Day until = i + 1 < adverts.size() ? adverts[i + 1].first : terminal.today;
    answer.stood.push_back(
        {in_units(adverts[i].second, answer.currency), std::max(0, days_between(adverts[i].first, until))});
    answer.advertised = adverts[i].second;
  }
  if (!answer.stood.empty()) market = resale::after_standing(market, answer.stood);
  answer.plan = resale::asking_plan(market);
  const appraisal::Job& job = budget->job;
  std::size_t cause = 0;
  while (job.causes[cause].name != budget->cause) ++cause;
  answer.doubts = doubts_of(*budget, cause);
  answer.commission = job.sale.rate;
  if (const auto& pieces = appraisal::part_out_of(job, job.causes[cause])) {
    const double hour = job.shop.hour + 7 * job.shop.holding_per_day / job.shop.hours_per_week;
    answer.part_out =
        pieces->proceeds.mean() - pieces->costs.mean() - pieces->hours.mean() * job.shop.pace.mean() * hour;
    answer.part_out_day = resale::part_out_day(answer.plan, *answer.part_out);
  }
  if (given.json())
    terminal.out << as_json(answer).dump(2) << "\n";
  else
    terminal.out << as_text(answer, given.flag("detail"));
  return 0;
}

}  // namespace

extern const Command price;
const Command price{{"price",
                     "TAG",
                     "what to advertise it at, when to drop the price, and the floor",
                     "nonrunner price pip",
                     {{"cause", "NAME", "the cause that was found, where it is not noted in the book"},
                      {"detail", "", "chance, offer to take and distance from the floor at each price"}},
                     true,
                     "From the appraisal in force: what a sound one sells for less what stays on this car, "
                     "what buyers get off, the days a\n"
                     "sale takes and what a day costs. A price stands for whole weeks; at a price above what "
                     "it would fetch nobody buys."},
                    run_price};

}  // namespace nonrunner::commands
