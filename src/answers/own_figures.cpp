#include "answers/own_figures.h"

#include <algorithm>
#include <numeric>

#include "answers/kept_job.h"
#include "appraisal/budget.h"
#include "appraisal/estimate.h"
#include "appraisal/sound_value.h"
#include "book/events/finding.h"
#include "book/questions/figures.h"
#include "book/questions/salvage.h"
#include "book/questions/vehicle_money.h"
#include "exact/ends.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

std::optional<std::size_t> place_of(const appraisal::Job& job, const std::string& cause) {
  for (std::size_t i = 0; i < job.causes.size(); ++i)
    if (job.causes[i].name == cause) return i;
  return std::nullopt;
}

std::string kind_of(const appraisal::Job& job, const appraisal::EstimatedWork& work) {
  for (const auto& fault : job.faults)
    if (fault.name == work.group) return "fixes";
  for (const auto& correction : job.corrections)
    if (correction.name == work.group) return "corrections";
  for (const auto& trouble : job.troubles)
    if (trouble.name == work.group) return "troubles";
  return "opening up";
}

void add_kind(OwnFigures& figures, const std::string& kind, double estimated, double booked) {
  auto at = std::find_if(figures.work.begin(), figures.work.end(),
                         [&](const KindOfWork& each) { return each.kind == kind; });
  if (at == figures.work.end()) at = figures.work.insert(at, KindOfWork{kind, 0, 0, 0});
  at->estimated += estimated;
  at->booked += booked;
  ++at->cars;
}

// Hours booked under the operations of the appraisal, and what it had estimated for these.
void compare_hours(const book::Book& book, const appraisal::Job& job, std::size_t cause, OwnCar& car,
                   OwnFigures& figures) {
  // A sound value is not needed for hours: any will do.
  const auto estimate = appraisal::estimate_of(appraisal::Courses(job, 0), cause);
  if (!estimate) return;
  std::vector<double> booked(estimate->work.size(), 0);
  for (const book::WorkLine& worked : book::work_of(book, car.tag)) {
    const auto under = worked.after_sale ? std::nullopt : appraisal::under_work(*estimate, worked.operation);
    if (under) booked[*under] += worked.own.approximately();
  }
  double estimated = 0;
  std::map<std::string, std::pair<double, double>> kinds;
  for (std::size_t i = 0; i < booked.size(); ++i) {
    if (!(booked[i] > 0) || !(estimate->work[i].hours > 0)) continue;
    const double hours = estimate->work[i].hours / job.shop.pace.mean();
    estimated += hours;
    car.booked_hours += booked[i];
    auto& kind = kinds[kind_of(job, estimate->work[i])];
    kind.first += hours;
    kind.second += booked[i];
  }
  for (const auto& [kind, sums] : kinds) add_kind(figures, kind, sums.first, sums.second);
  if (estimated > 0) car.pace = car.booked_hours / estimated;
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

std::vector<double> OwnFigures::pace() const { return those_known(cars, &OwnCar::pace); }
std::vector<double> OwnFigures::realised() const { return those_known(cars, &OwnCar::realised); }
std::vector<double> OwnFigures::days() const { return those_known(cars, &OwnCar::days); }

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
    car.sold = known.life.ended_day;
    car.own_hours = known.own_hours.approximately();
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
      if (!adverts.empty() && adverts.front().first <= known.life.ended_day) {
        car.days = days_between(adverts.front().first, known.life.ended_day);
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
