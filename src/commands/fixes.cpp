#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "appraisal/fix_choices.h"
#include "appraisal/frontier.h"
#include "appraisal/knapsack.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/job_given.h"
#include "commands/way_picture.h"
#include "exact/ends.h"
#include "figures/opinion.h"
#include "words/way_in_words.h"

namespace nonrunner::commands {

namespace {

using appraisal::ChoiceClass;
using appraisal::ChoiceSet;
using Json = nlohmann::ordered_json;

std::optional<double> hours_limit(const Given& given) {
  const auto text = given.text("hours");
  if (!text) return std::nullopt;
  const auto thousandths = scaled(*text, 3);
  if (!thousandths || *thousandths < 0)
    given.wrong(
        fmt::format("--hours: found \"{}\", expected a number of own hours, 0 or more, such as 6.5", *text));
  return static_cast<double>(*thousandths) / 1000;
}

std::optional<double> cash_limit(const Given& given, const Currency& currency) {
  const auto money = given.money("cash", currency);
  if (!money) return std::nullopt;
  if (is_negative(*money)) given.wrong("--cash: found an amount below 0, expected 0 or more");
  return in_units(*money, currency);
}

std::string shown_hours(double hours) { return fmt::format("{:.2f}", hours); }

struct Answer {
  const JobGiven& given;
  std::string asked;  // the file or the tag, as it was typed
  const Currency& currency;
  std::vector<ChoiceClass> classes;
  appraisal::Limits limits;
  ChoiceSet best;     // without limits
  ChoiceSet limited;  // within them
  std::vector<ChoiceSet> frontier, steps;

  const ChoiceSet& chosen() const { return has_limits() ? limited : best; }
  bool has_must() const {
    return std::any_of(given.job.faults.begin(), given.job.faults.end(),
                       [](const appraisal::Fault& each) { return each.must; });
  }
  bool would_gain(std::size_t k) const {
    const auto& choices = classes[k].choices;
    return std::any_of(choices.begin() + 1, choices.end(),
                       [](const appraisal::Choice& each) { return each.gain > 0; });
  }
  bool has_limits() const { return limits.hours || limits.cash; }
  const appraisal::Fault& fault(std::size_t k) const { return given.job.faults[k]; }
  bool is_left(std::size_t k, std::size_t pick) const { return !appraisal::fix_of(fault(k), pick); }
  std::string money(double units) const { return shown_units(units, currency); }
};

[[noreturn]] void refuse_limits(const Answer& answer, const appraisal::Knapsack& found) {
  const auto& limits = answer.limits;
  std::string asked;
  if (limits.hours) asked += fmt::format(" --hours {:g}", *limits.hours);
  if (limits.cash) asked += fmt::format(" --cash {}", plain_units(*limits.cash, answer.currency));
  throw Refusal(fmt::format(
      "fixes: what must be put right does not fit into{}: it needs {} own hours and {} of cash at least{}; "
      "allow more, or do not sell it running",
      asked, shown_hours(found.least_hours), answer.money(found.least_cash),
      limits.hours && limits.cash ? " (each looked at alone)" : ""));
}

// Every choice that there is, with the gain; an arrow at what the best set does.
std::string choices_text(const Answer& answer) {
  const ChoiceSet& set = answer.chosen();
  Columns columns("lllrrr");
  columns.row({"", "fault", "choice", "gain", "own hours", "cash"});
  for (std::size_t k = 0; k < answer.classes.size(); ++k) {
    const std::string name = (answer.fault(k).must ? "* " : "") + answer.classes[k].name;
    bool first = true;
    for (std::size_t j = 0; j < answer.classes[k].choices.size(); ++j) {
      const bool left = answer.is_left(k, j), taken = set.picks[k] == j;
      if (left && !taken) continue;
      const appraisal::Choice& choice = answer.classes[k].choices[j];
      columns.row({taken ? "->" : "", first ? name : "", left ? "leave it" : choice.name,
                   left ? "" : answer.money(choice.gain), left ? "" : shown_hours(choice.hours),
                   left ? "" : answer.money(choice.cash)});
      first = false;
    }
  }
  std::string text = "\n" + columns.text() + "-> what the best set does";
  if (answer.has_must()) text += "; * must be put right";
  return text + "\n";
}

// The fixes of the best set as they would be done: what must be first, then by what a further hour earns.
std::string order_text(const Answer& answer) {
  const ChoiceSet& set = answer.chosen();
  std::string must, left, no_room;
  const auto add = [](std::string& list, const std::string& name) {
    list += (list.empty() ? "" : "; ") + name;
  };
  std::vector<std::pair<double, std::size_t>> order;  // gain an hour, fault
  for (std::size_t k = 0; k < answer.classes.size(); ++k) {
    const appraisal::Choice& choice = answer.classes[k].choices[set.picks[k]];
    if (answer.fault(k).must)
      add(must, choice.name + " (" + answer.classes[k].name + ")");
    else if (!answer.is_left(k, set.picks[k]))
      order.emplace_back(choice.hours > 0 ? choice.gain / choice.hours : 1e300, k);
    else
      add(answer.would_gain(k) ? no_room : left, answer.classes[k].name);
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& x, const auto& y) { return x.first > y.first; });
  std::string text;
  if (!must.empty()) text += in_80("must be put right: " + must, 2);
  if (!order.empty()) {
    text += must.empty() ? "in this order, by what an hour of each earns\n"
                         : "then, in this order, by what an hour of each earns\n";
    Columns columns("rl");
    constexpr std::size_t most = 5;
    for (std::size_t i = 0; i < std::min(most, order.size()); ++i) {
      const auto& [an_hour, k] = order[i];
      columns.row({"  " + (an_hour < 1e300 ? answer.money(an_hour) : std::string("no hours")),
                   answer.classes[k].choices[set.picks[k]].name + " (" + answer.classes[k].name + ")"});
    }
    text += columns.text();
    if (order.size() > most)
      text += fmt::format("  and {} more that earn less an hour\n", order.size() - most);
  }
  if (!no_room.empty()) text += in_80("would pay, but not within the limits: " + no_room, 2);
  if (!left.empty()) text += in_80("leave: " + left + "; no fix wins back what it costs", 2);
  return text;
}

std::string way_text(const Answer& answer) {
  if (answer.steps.empty()) return "";
  std::string text;
  const std::string picture =
      picture_of_way(answer.frontier, answer.steps, answer.money(std::min(0.0, answer.frontier.front().gain)),
                     answer.money(answer.frontier.back().gain));
  if (picture.empty()) return "";
  text += fmt::format("\nthe best gain at each budget of own hours{}\n",
                      answer.limits.cash ? ", within the cash" : "");
  text += picture + "\n";
  Columns columns("lrrrl");
  columns.row({"", "own hours", "gain", "an hour", "next"});
  for (std::size_t i = 0; i < answer.steps.size(); ++i) {
    const ChoiceSet* before = i > 0 ? &answer.steps[i - 1] : nullptr;
    const std::string next = words::next_in_words(answer.given.job, answer.classes, before, answer.steps[i]);
    columns.row({i < 26 ? std::string(1, static_cast<char>('a' + i)) : "+",
                 shown_hours(answer.steps[i].hours), answer.money(answer.steps[i].gain),
                 before ? answer.money(per_hour(*before, answer.steps[i])) : "", next});
  }
  text += columns.text();
  text += fmt::format("gains pay own hours at {} an hour, and what holding costs meanwhile\n",
                      answer.money(answer.given.job.shop.hour));
  return text;
}

std::string as_text(const Answer& answer, bool detail) {
  const auto& job = answer.given.job;
  const auto sentence = [&](const ChoiceSet& set) {
    std::size_t fixed = 0;
    for (std::size_t k = 0; k < answer.classes.size(); ++k) fixed += answer.is_left(k, set.picks[k]) ? 0 : 1;
    return fmt::format("fix {} of {} faults: {} {} in {} own hours and {} cash", fixed, answer.classes.size(),
                       set.gain < 0 ? "loss" : "gain", answer.money(std::abs(set.gain)),
                       shown_hours(set.hours), answer.money(set.cash));
  };
  if (answer.classes.empty())
    return fmt::format("{}: the job file names no [[fault]], so there is nothing to fix\n", job.vehicle.tag);
  std::string text;
  if (answer.has_limits()) {
    text += in_80(fmt::format("{}, within the limits: {}", job.vehicle.tag, sentence(answer.limited)), 2);
    text += in_80("without limits: " + sentence(answer.best), 2) + "\n";
  } else {
    text += in_80(fmt::format("{}: {}", job.vehicle.tag, sentence(answer.best)), 2) + "\n";
  }
  text += order_text(answer);
  if (detail) text += choices_text(answer);
  if (detail) text += way_text(answer);
  if (!detail) text += "\nmore: nonrunner fixes " + answer.asked + " --detail\n";
  return text;
}

Json set_as_json(const Answer& answer, const ChoiceSet& set) {
  Json json;
  json["gain"] = plain_units(set.gain, answer.currency);
  json["own_hours"] = std::round(set.hours * 1000) / 1000;
  json["cash"] = plain_units(set.cash, answer.currency);
  json["fixes"] = Json::array();
  for (std::size_t k = 0; k < answer.classes.size(); ++k)
    if (!answer.is_left(k, set.picks[k]))
      json["fixes"].push_back(
          {{"fault", answer.classes[k].name}, {"fix", answer.classes[k].choices[set.picks[k]].name}});
  return json;
}

Json as_json(const Answer& answer) {
  Json json;
  json["tag"] = answer.given.job.vehicle.tag;
  json["currency"] = answer.currency.code;
  json["faults"] = Json::array();
  for (std::size_t k = 0; k < answer.classes.size(); ++k) {
    Json choices = Json::array();
    for (std::size_t j = 0; j < answer.classes[k].choices.size(); ++j) {
      const appraisal::Choice& choice = answer.classes[k].choices[j];
      if (answer.is_left(k, j)) continue;
      choices.push_back({{"fix", choice.name},
                         {"gain", plain_units(choice.gain, answer.currency)},
                         {"own_hours", std::round(choice.hours * 1000) / 1000},
                         {"cash", plain_units(choice.cash, answer.currency)}});
    }
    json["faults"].push_back(
        {{"fault", answer.classes[k].name}, {"must", answer.fault(k).must}, {"choices", std::move(choices)}});
  }
  json["best"] = set_as_json(answer, answer.best);
  json["within_limits"] = answer.has_limits() ? set_as_json(answer, answer.limited) : Json(nullptr);
  json["frontier"] = Json::array();
  for (const ChoiceSet& set : answer.frontier)
    json["frontier"].push_back({{"own_hours", std::round(set.hours * 1000) / 1000},
                                {"gain", plain_units(set.gain, answer.currency)},
                                {"cash", plain_units(set.cash, answer.currency)}});
  json["steps"] = Json::array();
  for (std::size_t i = 0; i < answer.steps.size(); ++i) {
    const ChoiceSet* before = i > 0 ? &answer.steps[i - 1] : nullptr;
    Json changed = Json::array();
    for (const auto& [k, what] :
         words::what_changes(answer.given.job, answer.classes, before, answer.steps[i]))
      changed.push_back({{"fault", answer.classes[k].name},
                         {"choice", answer.classes[k].choices[answer.steps[i].picks[k]].name}});
    json["steps"].push_back(
        {{"own_hours", std::round(answer.steps[i].hours * 1000) / 1000},
         {"gain", plain_units(answer.steps[i].gain, answer.currency)},
         {"per_hour",
          before ? Json(plain_units(per_hour(*before, answer.steps[i]), answer.currency)) : Json(nullptr)},
         {"changes", std::move(changed)}});
  }
  return json;
}

int run_fixes(const Given& given, Terminal& terminal) {
  const JobGiven job = job_given(given, terminal, given.word(0));
  Answer answer{job,
                given.word(0),
                job.job.currency,
                appraisal::fix_choices(job.job),
                {hours_limit(given), cash_limit(given, job.job.currency)},
                {},
                {},
                {},
                {}};
  answer.best = *appraisal::best_set(answer.classes, {}).best;
  if (answer.has_limits()) {
    const appraisal::Knapsack found = appraisal::best_set(answer.classes, answer.limits);
    if (!found.best) refuse_limits(answer, found);
    answer.limited = *found.best;
  }
  answer.frontier = appraisal::frontier(answer.classes, answer.limits.cash);
  answer.steps = appraisal::steps(answer.frontier);
  if (given.json())
    terminal.out << as_json(answer).dump(2) << "\n";
  else
    terminal.out << as_text(answer, given.flag("detail"));
  return 0;
}

}  // namespace

extern const Command fixes;
const Command fixes{
    {"fixes",
     "JOB.toml|TAG",
     "which fixes pay, which comes next, and where to stop",
     "nonrunner fixes sample-jobs/sprat/job.toml --hours 8 --cash 480",
     {{"hours", "N", "own hours at most, as they will really be taken"},
      {"cash", "N", "cash at most for all fixes together"},
      {"detail", "", "every choice with its gain, and the way to the best set step by step"}},
     true,
     "The best set within the limits is found exactly. A fault marked must is put right whatever it costs.\n"
     "Gains are expected: what the fix wins back on the sale price, less its cash, its own hours and the "
     "days they take."},
    run_fixes};

}  // namespace nonrunner::commands
