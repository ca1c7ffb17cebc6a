#include "answers/learn.h"

#include "answers/budget.h"
#include "answers/links.h"
#include "book/questions/vehicle_money.h"
#include "figures/every_budget.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

namespace practice = resale::common_practice;

constexpr int readying_days = 7;

// Readying a car for sale: what was put under a heading "readying" of its budget, what stands under no line
// of its appraisal and was spent in the last week before it was first advertised, and the costs of selling
// without the commission. Absent where it was never advertised.
std::optional<double> readying_of(const book::Book& book, const OwnCar& car) {
  const auto adverts = book::adverts_of(book, car.tag);
  if (!car.days || adverts.empty()) return std::nullopt;
  const std::optional<Budget> budget = budget_of(book, car.tag);
  Money sum;
  for (const PlacedMoney& line : placed_money(book, car.tag, budget)) {
    using Kind = book::MoneyKind;
    const bool spent = line.kind == Kind::part || line.kind == Kind::consumable ||
                       line.kind == Kind::sublet || line.kind == Kind::fee;
    const int before = days_between(line.day, adverts.front().first);
    const bool headed =
        line.place && budget->lines[*line.place].estimate.what == figures::every_budget::readying;
    if (line.kind == Kind::selling_cost || headed ||
        (spent && !line.place && before >= 0 && before <= readying_days))
      sum -= line.amount;
  }
  return in_units(sum, book.currency());
}

}  // namespace

Learnt learnt(const book::Book& book, Day before) {
  Learnt answer;
  answer.currency = book.currency();
  answer.own = own_figures(book, before);
  answer.tried = appraisals_tried(book, before);
  answer.pace = resale::own_amount(practice::pace, answer.own.pace(), answer.own.least_pace(), 100);
  answer.realised = resale::own_amount(practice::realised, answer.own.realised(), 0.01, 10);
  answer.days = resale::own_amount(practice::days, answer.own.days(), 0, 3650);
  answer.salvage = resale::shrunk(practice::bad_salvage, answer.own.salvage_back, answer.own.salvage_bought);
  std::vector<double> readying;
  for (const OwnCar& car : answer.own.cars) {
    if (const auto spent = readying_of(book, car)) readying.push_back(*spent);
    if (!car.pace && car.no_pace != OwnCar::NoPace::hours_elsewhere) continue;
    answer.booked_hours += car.booked_hours;
    answer.own_hours += car.own_hours;
  }
  answer.readying = resale::mean_and_spread(readying);
  answer.looking = resale::mean_and_spread(answer.own.looking);
  return answer;
}

}  // namespace nonrunner::answers
