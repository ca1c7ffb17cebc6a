#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "answers/budget.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/figures_text.h"
#include "commands/option_on.h"
#include "words/figures_json.h"

namespace nonrunner::commands {

namespace {

using Json = nlohmann::ordered_json;

std::vector<std::size_t> not_in_estimate(const answers::Budget& budget) {
  using Kind = book::MoneyKind;
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < budget.money.size(); ++i) {
    const Kind kind = budget.money[i].kind;
    const bool cost = kind == Kind::part || kind == Kind::consumable || kind == Kind::sublet ||
                      kind == Kind::paid_hours || kind == Kind::other_cost || kind == Kind::fee;
    if (cost && !answers::in_estimate(budget, i)) places.push_back(i);
  }
  std::stable_sort(places.begin(), places.end(), [&](std::size_t a, std::size_t b) {
    return budget.money[a].amount < budget.money[b].amount;
  });
  return places;
}

// The same as things that were bought and kept: what went back of a line lowers it.
struct Kept {
  std::string what;
  Money cost;
};
std::vector<Kept> kept_of(const answers::Budget& budget, const std::vector<std::size_t>& places) {
  std::vector<Kept> all;
  std::map<std::string, std::size_t> by_line;
  for (const std::size_t i : places) {
    const book::MoneyLine& money = budget.money[i];
    const auto [found, added] = by_line.emplace(money.line, all.size());
    if (added || money.line.empty())
      all.push_back({money.what, -money.amount});
    else
      all[found->second].cost -= money.amount;
  }
  std::stable_sort(all.begin(), all.end(), [](const Kept& a, const Kept& b) { return a.cost > b.cost; });
  std::erase_if(all, [](const Kept& each) { return each.cost <= Money{}; });
  return all;
}

// By heading: each correction, all fixes, fees, one's own headings.
struct HeadingSum {
  std::string heading;
  Money expected, booked, to_come;
  bool in_estimate = false;
};
std::vector<HeadingSum> by_heading(const answers::Budget& budget) {
  using Kind = appraisal::EstimatedLine::Kind;
  std::vector<HeadingSum> all;
  for (const answers::BudgetLine& line : budget.lines) {
    const std::string heading = line.estimate.kind == Kind::fix ? "fixes" : line.estimate.group;
    auto found =
        std::find_if(all.begin(), all.end(), [&](const HeadingSum& each) { return each.heading == heading; });
    if (found == all.end()) {
      all.push_back({heading, {}, {}, {}, false});
      found = all.end() - 1;
    }
    found->expected += line.expected;
    found->booked += line.booked;
    found->to_come += line.to_come;
    found->in_estimate |= line.in_estimate;
  }
  return all;
}

Json budget_as_json(const answers::Budget& budget, const Currency& c) {
  Json json{{"kept_on", budget.kept_on.iso()},
            {"cause", budget.cause},
            {"cause_is_noted", budget.cause_is_noted},
            {"cash_to_come", budget.cash_to_come.plain(c)},
            {"hours_to_come", budget.hours_to_come},
            {"lines", Json::array()},
            {"hours", Json::array()},
            {"not_in_estimate", Json::array()}};
  for (const answers::BudgetLine& line : budget.lines)
    json["lines"].push_back({{"group", line.estimate.group},
                             {"what", line.estimate.what},
                             {"expected", line.expected.plain(c)},
                             {"booked", line.booked.plain(c)},
                             {"to_come", line.to_come.plain(c)},
                             {"at_completion", (line.booked + line.to_come).plain(c)}});
  json["headings"] = Json::array();
  for (const HeadingSum& each : by_heading(budget))
    json["headings"].push_back({{"heading", each.heading},
                                {"expected", each.expected.plain(c)},
                                {"booked", each.booked.plain(c)},
                                {"to_come", each.to_come.plain(c)}});
  for (const answers::BudgetWork& work : budget.work)
    json["hours"].push_back({{"group", work.estimate.group},
                             {"operation", work.estimate.operation},
                             {"expected", work.estimate.hours},
                             {"booked", Json::parse(work.booked.shown())},
                             {"to_come", work.to_come}});
  for (const std::size_t i : not_in_estimate(budget))
    json["not_in_estimate"].push_back({{"what", budget.money[i].what},
                                       {"amount", (-budget.money[i].amount).plain(c)},
                                       {"entry", budget.money[i].entry}});
  return json;
}

std::string budget_as_text(const answers::Budget& budget, bool ended, const Currency& c) {
  std::string text =
      fmt::format("\nagainst the appraisal of {}, cause \"{}\"\n", budget.kept_on.iso(), budget.cause);
  if (!budget.cause_is_noted)
    text += "(the likeliest; note the one found: nonrunner note TAG \"...\" --cause NAME)\n";
  Columns money("lrrrr");
  money.row({"  money", "expected", "booked", ended ? "" : "to come", ended ? "" : "at the end"});
  Money expected, booked;
  for (const answers::BudgetLine& line : budget.lines) {
    money.row({"  " + line.estimate.what, line.in_estimate ? line.expected.shown(c) : "not in it",
               is_zero(line.booked) ? "" : line.booked.shown(c),
               ended || is_zero(line.to_come) ? "" : line.to_come.shown(c),
               ended ? "" : (line.booked + line.to_come).shown(c)});
    expected += line.expected;
    booked += line.booked;
  }
  Money others;
  const auto strays = not_in_estimate(budget);
  for (const std::size_t i : strays)
    if (!budget.money_under[i]) others -= budget.money[i].amount;
  if (!is_zero(others))
    money.row({"  under no heading", "not in it", others.shown(c), "", ended ? "" : others.shown(c)});
  money.row({"  sum", expected.shown(c), (booked + others).shown(c),
             ended ? "" : budget.cash_to_come.shown(c),
             ended ? "" : (booked + others + budget.cash_to_come).shown(c)});
  text += money.text() + "\n";
  Columns headings("lrrr");
  headings.row({"  by heading", "expected", "booked", ended ? "" : "to come"});
  for (const HeadingSum& each : by_heading(budget))
    headings.row({"  " + each.heading, each.in_estimate ? each.expected.shown(c) : "not in it",
                  each.booked.shown(c), ended || is_zero(each.to_come) ? "" : each.to_come.shown(c)});
  text += headings.text();
  if (const auto kept = kept_of(budget, strays); !kept.empty()) {
    text += "  of what is not in it, the largest:\n";
    Columns largest("lr");
    for (std::size_t i = 0; i < kept.size() && i < 5; ++i)
      largest.row({"    " + kept[i].what, kept[i].cost.shown(c)});
    text += largest.text();
  }
  Columns hours("lrrr");
  hours.row({"  own hours", "expected", "booked", ended ? "" : "to come"});
  double expected_hours = 0;
  Hours booked_hours, all_hours;
  for (const answers::BudgetWork& work : budget.work) {
    hours.row({"  " + work.estimate.operation,
               work.in_estimate ? fmt::format("{:.1f}", work.estimate.hours) : "not in it",
               work.booked == Hours{} ? "" : work.booked.shown(),
               ended || work.to_come < 0.05 ? "" : fmt::format("{:.1f}", work.to_come)});
    expected_hours += work.estimate.hours;
    booked_hours += work.booked;
  }
  for (const book::WorkLine& worked : budget.worked) all_hours += worked.own;
  if (all_hours > booked_hours)
    hours.row({"  under no heading", "not in it", (all_hours - booked_hours).shown(), ""});
  hours.row({"  sum", fmt::format("{:.1f}", expected_hours), all_hours.shown(),
             ended ? "" : fmt::format("{:.1f}", budget.hours_to_come)});
  return text + "\n" + hours.text();
}

int run_show(const Given& given, Terminal& terminal) {
  const auto on = given.day("on");
  const book::Book book = open_book(given, terminal);
  const std::string& tag = given.word(0);
  book::know_vehicle(book, "show", tag);
  const auto budget = answers::budget_of(book, tag, "", on);
  const book::VehicleFigures figures =
      book::figures_of(book, tag, terminal.today, on,
                       budget ? answers::expected_of(*budget, book.currency()) : book::Expected{});
  if (given.json()) {
    Json json = words::as_json(figures, book);
    json["budget"] = budget ? budget_as_json(*budget, book.currency()) : Json(nullptr);
    terminal.out << json.dump(2) << "\n";
    return 0;
  }
  const bool detail = given.flag("detail"), ended = figures.life.ended != 0;
  terminal.out << as_text(figures, book, detail);
  if (budget && !ended && figures.life.bought != 0 && !figures.still_brings) {
    terminal.out << in_80(
        fmt::format(
            "  still to come: {} and {:.1f} own hours (in the break-even price, as the costs of selling are)",
            budget->cash_to_come.shown(book.currency()), budget->hours_to_come),
        2);
    if (!budget->cause_is_noted)
      terminal.out << in_80(fmt::format("  if the cause is \"{}\", the likeliest: nobody noted the one found "
                                        "(nonrunner note {} \"...\" --cause NAME)",
                                        budget->cause, tag),
                            2);
  }
  if (detail && budget) terminal.out << budget_as_text(*budget, ended, book.currency());
  if (!detail) terminal.out << fmt::format("\nmore: nonrunner show {} --detail\n", tag);
  return 0;
}
}  // namespace

extern const Command show;
const Command show{
    {"show",
     "TAG",
     "one car: result or break-even, cost, hours, budget, what is due",
     "nonrunner show pip",
     {{"detail", "", "every figure, the budget line by line, the hours, what is due back"}, on_option()},
     true,
     ""},
    run_show};

}  // namespace nonrunner::commands
