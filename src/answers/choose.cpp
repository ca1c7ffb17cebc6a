#include "answers/choose.h"

#include <fmt/format.h>

#include <algorithm>
#include <random>

#include "appraisal/appraise.h"
#include "appraisal/knapsack.h"
#include "exact/ends.h"

namespace nonrunner::answers {

namespace {

constexpr std::size_t draws = 8192;

class Choosing {
 public:
  Choosing(ChooseAnswer& answer) : answer_(answer) {
    for (std::size_t i = 0; i < answer.cars.size(); ++i)
      if (answer.cars[i].is_in_question()) open_.push_back(i);
  }

  void run() {
    answer_.best = *solved(answer_.limits, std::nullopt);
    for (std::size_t k = 0; k < open_.size(); ++k) {
      const auto other = solved(answer_.limits, k);
      if (other && other->profit > 0 && (!answer_.next_best || other->profit > answer_.next_best->profit))
        answer_.next_best = other;
    }
    ChooseLimits more = answer_.limits;
    if (more.cash) {
      *more.cash += more_cash;
      answer_.with_more_cash = solved(more, std::nullopt)->profit - answer_.best.profit;
    }
    more = answer_.limits;
    if (more.hours) {
      *more.hours += more_hours;
      answer_.with_more_hours = solved(more, std::nullopt)->profit - answer_.best.profit;
    }
    if (std::max(answer_.best.over_cash, answer_.best.over_hours) > overrun_accepted) find_safer();
  }

 private:
  ChosenSet set_of(std::vector<std::size_t> cars) const {
    ChosenSet set;
    set.cars = std::move(cars);
    for (const std::size_t car : set.cars) {
      set.profit += answer_.cars[car].takes->profit;
      set.cash += answer_.cars[car].takes->cash;
      set.hours += answer_.cars[car].takes->hours;
    }
    overrun(set);
    return set;
  }

  // The best set; with `turned` the best of those that do with this car the other way than the best set.
  std::optional<ChosenSet> solved(const ChooseLimits& limits, std::optional<std::size_t> turned) const {
    std::vector<appraisal::ChoiceClass> classes;
    std::vector<std::optional<std::size_t>> bought(open_.size());  // which of its choices it is
    for (std::size_t k = 0; k < open_.size(); ++k) {
      const appraisal::FromPurse& takes = *answer_.cars[open_[k]].takes;
      appraisal::ChoiceClass one{answer_.cars[open_[k]].tag, {}};
      const bool is_in = std::ranges::count(answer_.best.cars, open_[k]) > 0;
      if (turned != k || is_in) one.choices.push_back({"leave it", 0, 0, 0});
      if (turned != k || !is_in) {
        bought[k] = one.choices.size();
        one.choices.push_back(
            {"buy it", std::max(0.0, takes.hours), std::max(0.0, takes.cash), takes.profit});
      }
      classes.push_back(std::move(one));
    }
    const auto found = appraisal::best_set(classes, {limits.hours, limits.cash});
    if (!found.best) return std::nullopt;
    std::vector<std::size_t> cars;
    for (std::size_t k = 0; k < open_.size(); ++k)
      if (found.best->picks[k] == bought[k]) cars.push_back(open_[k]);
    return set_of(cars);
  }

  // How likely the cars of the set, each on its own, come to more than there is.
  void overrun(ChosenSet& set) const {
    std::mt19937_64 bits(20130614);
    std::size_t over_cash = 0, over_hours = 0;
    for (std::size_t i = 0; i < draws; ++i) {
      double cash = 0, hours = 0;
      for (const std::size_t car : set.cars) {
        const appraisal::FromPurse& takes = *answer_.cars[car].takes;
        cash += takes.cash_steps[bits() % takes.cash_steps.size()];
        hours += takes.hours_steps[bits() % takes.hours_steps.size()];
      }
      over_cash += answer_.limits.cash && cash > *answer_.limits.cash;
      over_hours += answer_.limits.hours && hours > *answer_.limits.hours;
    }
    set.over_cash = static_cast<double>(over_cash) / static_cast<double>(draws);
    set.over_hours = static_cast<double>(over_hours) / static_cast<double>(draws);
  }

  // Every set by its profit, until one stays below; buying nothing always does.
  void find_safer() {
    struct Sum {
      double profit;
      std::size_t which;
    };
    std::vector<Sum> all;
    for (std::size_t which = 0; which < std::size_t{1} << open_.size(); ++which) {
      double profit = 0, cash = 0, hours = 0;
      for (std::size_t k = 0; k < open_.size(); ++k) {
        if (!(which >> k & 1u)) continue;
        profit += answer_.cars[open_[k]].takes->profit;
        cash += answer_.cars[open_[k]].takes->cash;
        hours += answer_.cars[open_[k]].takes->hours;
      }
      const bool fits = (!answer_.limits.cash || cash <= *answer_.limits.cash) &&
                        (!answer_.limits.hours || hours <= *answer_.limits.hours);
      if (fits) all.push_back({profit, which});
    }
    std::stable_sort(all.begin(), all.end(), [](const Sum& a, const Sum& b) { return a.profit > b.profit; });
    for (const Sum& sum : all) {
      std::vector<std::size_t> cars;
      for (std::size_t k = 0; k < open_.size(); ++k)
        if (sum.which >> k & 1u) cars.push_back(open_[k]);
      ChosenSet set = set_of(cars);
      if (std::max(set.over_cash, set.over_hours) > overrun_accepted) continue;
      answer_.safer = set;
      return;
    }
  }

  ChooseAnswer& answer_;
  std::vector<std::size_t> open_;  // the cars that are in question
};

}  // namespace

ChooseAnswer choose(const std::vector<CarToChoose>& cars, const ChooseLimits& limits, std::size_t points) {
  ChooseAnswer answer;
  answer.limits = limits;
  for (const CarToChoose& car : cars) {
    appraisal::Job job = car.job;
    job.deal.asking = car.price;
    answer.currency = job.currency;
    if (job.vehicle.tag.empty())
      throw Refusal("choose: a job file without [vehicle] tag, expected one by which the car is called");
    for (const ChooseAnswer::Car& other : answer.cars)
      if (other.tag == job.vehicle.tag)
        throw Refusal(fmt::format("choose: two cars are called {}, expected each once", other.tag));
    const appraisal::SoundValue sound = appraisal::sound_value_of(job);
    const appraisal::Appraisal a = appraisal::appraise(job, sound, points, appraisal::Extent::screen);
    ChooseAnswer::Car line;
    line.tag = job.vehicle.tag;
    line.price = car.price;
    line.verdict = a.verdict;
    line.walk_away = a.walk_away.price;
    if (a.verdict == appraisal::Verdict::test_first) line.first_test = job.tests[a.plan.steps.which].name;
    line.takes = appraisal::from_purse(job, sound, car.price, points);
    answer.cars.push_back(std::move(line));
  }
  Choosing(answer).run();
  return answer;
}

}  // namespace nonrunner::answers
