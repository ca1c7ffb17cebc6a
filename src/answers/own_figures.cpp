#include "answers/own_figures.h"

#include <algorithm>
#include <numeric>

#include "answers/kept_job.h"
#include "answers/links.h"
#include "appraisal/estimate.h"
#include "appraisal/fixes.h"
#include "appraisal/sound_value.h"
#include "book/events/finding.h"
#include "book/questions/figures.h"
#include "book/questions/salvage.h"
#include "book/questions/vehicle_money.h"
#include "exact/ends.h"
#include "figures/every_budget.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

// A pace below this is a slip of the pen rather than quick work, unless much work says so. Common practice, no
// source.
constexpr double least_believed = 0.25;
constexpr std::size_t operations_to_believe = 10;

std::optional<std::size_t> place_of(const appraisal::Job& job, const std::string& cause) {
  for (std::size_t i = 0; i < job.causes.size(); ++i)
    if (job.causes[i].name == cause) return i;
  return std::nullopt;
}

void add_kind(OwnFigures& figures, const std::string& kind, double estimated, double booked) {
  auto at = std::find_if(figures.work.begin(), figures.work.end(),
                         [&](const KindOfWork& each) { return each.kind == kind; });
  if (at == figures.work.end()) at = figures.work.insert(at, KindOfWork{kind, 0, 0, 0});
  at->estimated += estimated;
  at->booked += booked;
  ++at->cars;
}

// Own hours that the appraisal estimates for each operation that this cause can come to, at pace 1; of one that
// several corrections name, the first of them.
std::map<std::string, std::pair<std::string, double>> estimated_hours(const appraisal::Job& job,
                                                                      std::size_t cause) {
  std::map<std::string, std::pair<std::string, double>> hours;  // operation -> its kind, its hours
  const double pace = job.shop.pace.mean();
  const double opening = appraisal::opening_hours_of(job, job.causes[cause]).mean();
  if (opening > 0)
    hours.emplace(figures::every_budget::opening_up, std::pair(figures::every_budget::opening_up, opening));
  for (auto next = job.causes[cause].correction; next; next = job.corrections[*next].otherwise)
    for (const auto& work : appraisal::needs_of(job, job.corrections[*next]).work)
      if (work.hours > 0) hours.emplace(work.operation, std::pair("corrections", work.hours / pace));
  const appraisal::FixPlan fixes = appraisal::best_fixes(job);
  for (std::size_t i = 0; i < job.faults.size(); ++i)
    if (fixes.choices[i].fix)
      if (const double fix = job.faults[i].fixes[*fixes.choices[i].fix].hours.mean(); fix > 0)
        hours.emplace(job.faults[i].name, std::pair("fixes", fix));
  for (const appraisal::Trouble& trouble : job.troubles)
    if (trouble.hours.mean() > 0) hours.emplace(trouble.name, std::pair("troubles", trouble.hours.mean()));
  return hours;
}

// Hours booked under the operations of the appraisal, by their links, and what it had estimated for these. What
// has only one of the two says nothing of the pace, and is named.
void compare_hours(const book::Book& book, const appraisal::Job& job, std::size_t cause, OwnCar& car,
                   OwnFigures& figures) {
  const auto estimated = estimated_hours(job, cause);
  const std::vector<figures::Work> worked = book::work_of(book, car.tag);
  const Links links = links_of(book, car.tag, line_names(book, car.tag), {}, worked, {});
  std::map<std::string, double> booked;
  for (std::size_t i = 0; i < worked.size(); ++i) {
    if (worked[i].after_sale || worked[i].own == Hours{}) continue;
    const std::string under = links.worked[i].value_or("");
    if (under.empty() || !estimated.contains(under))
      car.left_out.insert({worked[i].operation, false});
    else
      booked[under] += worked[i].own.approximately();
  }
  double sum = 0;
  std::map<std::string, std::pair<double, double>> kinds;
  for (const auto& [operation, kind_and_hours] : estimated) {
    const auto found = booked.find(operation);
    if (found == booked.end()) {
      car.left_out.insert({operation, true});
      continue;
    }
    sum += kind_and_hours.second;
    car.booked_hours += found->second;
    ++car.operations;
    auto& kind = kinds[kind_and_hours.first];
    kind.first += kind_and_hours.second;
    kind.second += found->second;
  }
  for (const auto& [kind, sums] : kinds) add_kind(figures, kind, sums.first, sums.second);
  if (sum > 0) car.pace = car.booked_hours / sum;
}

void count_cause(const appraisal::Job& job, const std::string& found, OwnFigures& figures) {
  double odds = 0;
  for (const auto& cause : job.causes) odds += cause.odds;
  for (const auto& cause : job.causes) {
    CauseCount& count = figures.causes[cause.name];
    ++count.thought;
    count.stated += cause.odds / odds;
    if (cause.name == found) ++count.found;
  }
}

std::vector<double> those_known(const std::vector<OwnCar>& cars, std::optional<double> OwnCar::*which) {
  std::vector<double> known;
  for (const OwnCar& car : cars)
    if (car.*which) known.push_back(*(car.*which));
  return known;
}

}  // namespace

double OwnFigures::least_pace() const {
  std::size_t operations = 0;
  for (const OwnCar& car : cars) operations += car.operations;
  return operations < operations_to_believe ? least_believed : 0.01;
}
std::vector<double> OwnFigures::pace() const { return those_known(cars, &OwnCar::pace); }
std::vector<double> OwnFigures::realised() const { return those_known(cars, &OwnCar::realised); }
std::vector<double> OwnFigures::days() const { return those_known(cars, &OwnCar::days); }

double OwnPlace::with_stated(double stated) const {
  constexpr double weight = resale::common_practice::place_weight;
  const auto own = static_cast<double>(cars);
  return std::max(0.0, (weight * stated + own * a_day()) / (weight + own));
}

OwnPlace OwnFigures::place() const {
  OwnPlace place;
  for (const OwnCar& car : cars) {
    place.profit += car.profit;
    place.days += car.held;
    ++place.cars;
  }
  return place;
}

OwnFigures own_figures(const book::Book& book, Day before) {
  OwnFigures figures;
  for (const std::string& tag : book::all_tags(book)) {
    const book::VehicleFigures known = book::figures_of(book, tag, before);
    if (known.life.state == book::State::passed && known.life.passed_day < before)
      figures.looking.push_back(in_units(known.looking, book.currency()));
    const bool ended = known.life.ended != 0 && known.life.ended_day < before;
    if (!ended) continue;
    OwnCar car;
    car.tag = tag;
    car.sold = known.life.ended_said;
    car.own_hours = known.own_hours.approximately();
    car.profit = in_units(*known.profit, book.currency());
    car.held = std::max(*known.days, 1);
    car.no_pace = OwnCar::NoPace::no_appraisal;
    if (const auto job = believed_job_at_purchase(book, tag)) {
      car.no_pace = OwnCar::NoPace::no_cause;
      const std::string found = book::found_cause(book, tag);
      if (const auto cause = place_of(*job, found)) {
        // A car that ended in pieces leaves operations half done: its hours would make the pace look quick.
        if (known.life.state == book::State::sold) compare_hours(book, *job, *cause, car, figures);
        car.no_pace = OwnCar::NoPace::hours_elsewhere;
        count_cause(*job, found, figures);
      }
    }
    if (known.life.state == book::State::sold) {
      const auto adverts = book::adverts_of(book, tag);
      if (!adverts.empty() && adverts.front().first <= known.life.ended_said) {
        car.days = days_between(adverts.front().first, known.life.ended_said);
        if (known.advertised_last && *known.advertised_last > Money{} && known.sales > Money{})
          car.realised =
              static_cast<double>(known.sales.minor()) / static_cast<double>(known.advertised_last->minor());
      }
    }
    if (car.pace || known.life.state != book::State::sold) car.no_pace = OwnCar::NoPace::none;
    figures.cars.push_back(std::move(car));
  }
  std::stable_sort(figures.cars.begin(), figures.cars.end(),
                   [](const OwnCar& a, const OwnCar& b) { return a.sold < b.sold; });
  const book::SalvageParts salvage = book::salvage_parts(book, before);
  figures.salvage_bought = static_cast<std::size_t>(salvage.bought.thousandths() / 1000);
  figures.salvage_back =
      std::min(figures.salvage_bought, static_cast<std::size_t>(salvage.went_back.thousandths() / 1000));
  return figures;
}

}  // namespace nonrunner::answers
