#include "answers/price.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "answers/budget.h"
#include "appraisal/evidence.h"
#include "appraisal/sound_value.h"
#include "book/questions/figures.h"
#include "book/questions/vehicle_money.h"
#include "exact/hint.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

constexpr int likely_values = 200;  // equally likely ones that stand for what the car would fetch
constexpr int day_points = 2000;    // and for the days of a sale

// What the car would fetch once it is ready, and how long a right price takes: by the appraisal in force.
resale::Market market_of(const Budget& budget, double carried) {
  const appraisal::Job& job = budget.job;
  const appraisal::SoundValue sound = appraisal::sound_value_of(job);
  const double off = sound.mean * job.keeps - budget.estimate.sale_price;
  resale::Market market;
  for (int i = 0; i < likely_values; ++i) {
    const double value = sound.is_constant ? sound.mean : sound.quantile((i + 0.5) / likely_values);
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

[[noreturn]] void refuse_without_budget(const book::Book& book, const std::string& tag,
                                        const std::string& cause) {
  const std::optional<Budget> appraised = appraised_cause(book, tag, cause);
  if (!appraised)
    throw hinted<Refusal>(fmt::format("price: no appraisal of {} is kept in the book, expected one", tag),
                          {Action::keep_appraisal, {}});
  throw NotSoldRunning(fmt::format("price: by the appraisal of {} {} cannot be put right from \"{}\"{}",
                                   appraised->kept_on.iso(), tag, appraised->cause,
                                   appraised->cause_is_noted ? "" : ", the likeliest cause"),
                       why_not_put_right(*appraised),
                       {Action::go_on, {{"tag", tag}, {"cause", appraised->cause}}});
}

// Where the appraisal does not mean to sell the car running, or is not sure that it may: what it means.
std::vector<Doubt> doubts_of(const Budget& budget, std::size_t cause) {
  const appraisal::Job& job = budget.job;
  const appraisal::Courses courses(job, appraisal::sound_value_of(job).mean);
  const std::vector<double> troubles = appraisal::posterior(job).trouble;
  std::vector<Doubt> doubts;
  unsigned certain = 0;
  for (std::size_t j = 0; j < troubles.size(); ++j) {
    if (troubles[j] == 1) certain |= 1u << j;
    if (job.troubles[j].bars_road && troubles[j] > 0)
      doubts.push_back({Doubt::Kind::bars_road, job.troubles[j].name, troubles[j], budget.kept_on});
  }
  const appraisal::Course best = courses.best(cause, certain).course;
  if (best != appraisal::Course::put_right)
    doubts.push_back(
        {Doubt::Kind::other_course, appraisal::name_of(job.causes[cause], best), 1, budget.kept_on});
  return doubts;
}

// At which prices it stood, each until the next or until today.
void add_adverts(AskingPrice& answer, const book::Book& book) {
  const auto adverts = book::adverts_of(book, answer.tag);
  for (std::size_t i = 0; i < adverts.size(); ++i) {
    const Day until = i + 1 < adverts.size() ? adverts[i + 1].first : answer.first;
    answer.stood.push_back(
        {in_units(adverts[i].second, answer.currency), std::max(0, days_between(adverts[i].first, until))});
    answer.advertised = adverts[i].second;
  }
}

// What its pieces would leave, after their costs and own hours, each of which costs a piece of a week as
// well.
void add_part_out(AskingPrice& answer, const appraisal::Job& job, std::size_t cause) {
  const auto& pieces = appraisal::part_out_of(job, job.causes[cause]);
  if (!pieces) return;
  const double hour = job.shop.hour + 7 * job.shop.holding_per_day / job.shop.hours_per_week;
  answer.part_out =
      pieces->proceeds.mean() - pieces->costs.mean() - pieces->hours.mean() * job.shop.pace.mean() * hour;
  answer.part_out_day = resale::part_out_day(answer.plan, *answer.part_out);
}

// What the other courses would leave from here, and from which price on selling it running leaves more. `selling`: what
// selling it whole still costs, an advert that is paid left out.
void add_take_from(AskingPrice& answer, const appraisal::Job& job, std::size_t cause, Money selling) {
  const appraisal::Cause& of = job.causes[cause];
  answer.take_from = answer.plan.stages.front().take_from;
  const double still = in_units(answer.to_come, answer.currency) + answer.hours_to_come * job.shop.hour;
  const auto against = [&](appraisal::Course course, double leaves) {
    const double from = (leaves + still) / (1 - job.sale.rate);
    if (from <= answer.take_from) return;
    answer.take_from = from;
    answer.better_below = course;
  };
  if (answer.part_out) against(appraisal::Course::part_out, *answer.part_out);
  // As it was found it can be sold only while something is left to put right.
  if (of.found && answer.hours_to_come > 0.05) {
    double fetches = of.found->mean();
    for (const appraisal::Trouble& trouble : job.troubles)
      fetches -= trouble.chance * trouble.found_less.mean();
    against(appraisal::Course::as_found,
            fetches * (1 - job.sale.rate) - in_units(selling, answer.currency) -
                job.sale.days.mean() * (job.shop.holding_per_day + job.shop.bay_per_day));
  }
  if (const auto& scrap = appraisal::scrap_of(job, of))
    against(appraisal::Course::scrap, scrap->value.mean() - scrap->costs.mean());
}

}  // namespace

Day AskingPrice::best_offer_by() const {
  return first.plus(static_cast<int>(std::lround(plan.expected_days)));
}
double AskingPrice::floor_units() const { return in_units(floor, currency); }

AskingPrice asking_price(const book::Book& book, const std::string& tag, const std::string& cause_given,
                         Day today) {
  book::know_vehicle(book, "price", tag);
  const book::Life life = book::life_of(book, tag);
  if (life.state != book::State::owned)
    throw Refusal(fmt::format("price: {} is {}, expected a car that is owned and not sold yet", tag,
                              book::shown(life.state)));
  if (life.in_pieces_since)
    throw Refusal(fmt::format("price: {} is in pieces since {}, expected a car that is sold whole", tag,
                              life.in_pieces_since->iso()));
  const std::optional<Budget> budget = budget_of(book, tag, cause_given);
  if (budget && budget->repair_unknown) refuse_unknown_repair("price", tag, Action::keep_appraisal);
  if (!budget || !budget->appraised || budget->not_put_right) refuse_without_budget(book, tag, cause_given);
  const book::Expected expected = expected_of(*budget, book.currency());
  const book::VehicleFigures figures = book::figures_of(book, tag, today, {}, expected);

  AskingPrice answer;
  answer.tag = tag;
  answer.currency = book.currency();
  answer.first = today;
  answer.floor = figures.break_even_price.value_or(Money{});
  answer.to_come = expected.to_complete + expected.selling_costs;
  answer.hours_to_come = budget->hours_to_come;
  if (!budget->cause_is_noted) answer.likeliest = budget->cause;
  answer.likeliest_chance = budget->cause_chance;
  if (const IfCause* dearest = budget->dearest()) {
    answer.dearest = dearest->cause;
    answer.dearest_chance = dearest->chance;
    answer.dearest_floor =
        book::figures_of(book, tag, today, {}, expected_of(*budget, *dearest, book.currency()))
            .break_even_price.value_or(Money{});
  }
  add_adverts(answer, book);
  resale::Market market = market_of(*budget, in_units(figures.carried, answer.currency));
  answer.realised = market.realised;
  if (!answer.stood.empty()) market = resale::after_standing(market, answer.stood);
  answer.plan = resale::asking_plan(market);
  std::size_t cause = 0;
  while (budget->job.causes[cause].name != budget->cause) ++cause;
  answer.doubts = doubts_of(*budget, cause);
  answer.commission = budget->job.sale.rate;
  answer.hour = budget->job.shop.hour;
  answer.hour_is_shops = book.setting("hour").has_value();
  add_part_out(answer, budget->job, cause);
  add_take_from(answer, budget->job, cause, expected.selling_costs);
  return answer;
}

}  // namespace nonrunner::answers
