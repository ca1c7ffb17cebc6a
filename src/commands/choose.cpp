#include "answers/choose.h"

#include "appraisal/appraise.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/hours_limit.h"
#include "commands/job_given.h"
#include "exact/ends.h"
#include "figures/opinion.h"
#include "text/tag.h"
#include "words/choose.h"

namespace nonrunner::commands {

namespace {

using answers::ChooseAnswer;
using answers::ChosenSet;

double price_in_units(const Given& given, const std::string& option, const std::string& text,
                      const Currency& currency) {
  Money money;
  try {
    money = typed_money(text, currency);
  } catch (const Refusal& refusal) {
    given.wrong(fmt::format("--{}: {}", option, refusal.what()));
  }
  if (is_negative(money)) given.wrong(fmt::format("--{}: found {}, expected 0 or more", option, text));
  return in_units(money, currency);
}

std::vector<answers::CarToChoose> cars_of(const Given& given, Terminal& terminal, Currency& currency) {
  std::vector<answers::CarToChoose> cars;
  if (given.count() > answers::cars_to_choose_max)
    given.wrong(
        fmt::format("found {} cars, expected at most {}", given.count(), answers::cars_to_choose_max));
  for (std::size_t i = 0; i < given.count(); ++i) {
    const JobGiven job = job_given(given, terminal, given.word(i));
    cars.push_back({job.job, job.job.deal.asking});
    currency = job.job.currency;
  }
  for (const std::string& text : given.texts("offer")) {
    const auto [tag, amount] = name_and_value(given, "offer", text);
    const auto car = std::find_if(
        cars.begin(), cars.end(),
        [&, of = as_tag(tag)](const answers::CarToChoose& each) { return each.job.vehicle.tag == of; });
    if (car == cars.end()) {
      std::string tags;
      for (const auto& each : cars) tags += (tags.empty() ? "" : ", ") + each.job.vehicle.tag;
      given.wrong(fmt::format("--offer: found \"{}\", expected the tag of one of the cars: {}", tag, tags));
    }
    car->price = price_in_units(given, "offer", amount, currency);
  }
  return cars;
}

std::string percent(double chance) {
  if (chance > 0 && chance < 0.01) return "below 1 %";
  return fmt::format("{:.0f} %", 100 * chance);
}

std::string set_in_words(const ChooseAnswer& answer, const ChosenSet& set) {
  if (set.cars.empty()) return "none of them";
  std::string tags;
  for (const std::size_t car : set.cars) tags += (tags.empty() ? "" : ", ") + answer.cars[car].tag;
  std::string text = fmt::format("{}: a profit of {} to be expected, for {} of cash and {:.1f} own hours",
                                 tags, shown_units(set.profit, answer.currency),
                                 shown_units(set.cash, answer.currency), set.hours);
  if (answer.limits.cash) text += fmt::format("; over the cash with a chance of {}", percent(set.over_cash));
  if (answer.limits.hours) text += fmt::format("; over the hours with {}", percent(set.over_hours));
  return text;
}

std::string as_text(const ChooseAnswer& answer) {
  const Currency& c = answer.currency;
  Columns columns("llrrrr");
  columns.row({"", "car", "price", "profit", "cash needed", "own hours"});
  std::string apart, not_at_all;
  for (std::size_t i = 0; i < answer.cars.size(); ++i) {
    const ChooseAnswer::Car& car = answer.cars[i];
    if (car.verdict == appraisal::Verdict::test_first) {
      apart += in_80(
          fmt::format("test first: {} at {}: {}", car.tag, shown_units(car.price, c), car.first_test), 2);
    } else if (!car.takes) {
      not_at_all +=
          in_80(car.walk_away < 0 ? fmt::format("not unseen at any price: {}", car.tag)
                                  : fmt::format("not at this price: {} at {}; up to {}", car.tag,
                                                shown_units(car.price, c), shown_units(car.walk_away, c)),
                2);
    } else {
      const bool in =
          std::find(answer.best.cars.begin(), answer.best.cars.end(), i) != answer.best.cars.end();
      columns.row({in ? "->" : "", car.tag, shown_units(car.price, c), shown_units(car.takes->profit, c),
                   shown_units(car.takes->cash, c), fmt::format("{:.1f}", car.takes->hours)});
    }
  }
  std::string text = in_80("buy " + set_in_words(answer, answer.best), 2);
  if (answer.safer && answer.safer->cars != answer.best.cars)
    text +=
        in_80(fmt::format("that overruns what there is more often than one time in ten; the best that does "
                          "not is {}",
                          set_in_words(answer, *answer.safer)),
              2);
  if (answer.next_best) text += in_80("next best: " + set_in_words(answer, *answer.next_best), 2);
  if (answer.with_more_cash)
    text += fmt::format("{} more cash would bring {}\n", shown_units(answers::more_cash, c),
                        shown_units(*answer.with_more_cash, c));
  if (answer.with_more_hours)
    text += fmt::format("{:.0f} more own hours would bring {}\n", answers::more_hours,
                        shown_units(*answer.with_more_hours, c));
  return text + "\n" + columns.text() + apart + not_at_all;
}

int run_choose(const Given& given, Terminal& terminal) {
  Currency currency;
  const std::vector<answers::CarToChoose> cars = cars_of(given, terminal, currency);
  answers::ChooseLimits limits{std::nullopt, hours_limit(given, "40")};
  if (const auto cash = given.text("cash")) limits.cash = price_in_units(given, "cash", *cash, currency);
  const ChooseAnswer answer = answers::choose(cars, limits, 16384);
  if (given.json())
    terminal.out << words::to_json(answer);
  else
    terminal.out << as_text(answer);
  return 0;
}

}  // namespace

extern const Command choose;
const Command choose{
    {"choose",
     "JOB.toml|TAG...",
     "several cars, one purse: which of them to buy",
     "nonrunner choose sample-jobs/five-cars/*.toml --cash 4000 --hours 60",
     {{"cash", "AMOUNT", "what there is to spend on all of them, until the first is sold"},
      {"hours", "N", "own hours for all of them, as they will really be taken"},
      {"offer", "TAG=AMOUNT", "a price in place of the one asked", true}},
     true,
     "Each at its price, by the most profitable way that holds its aims. A car for which a test comes first\n"
     "stands apart. Cash and hours are expected ones; how often they come to more than there is stands "
     "beside."},
    run_choose};

}  // namespace nonrunner::commands
