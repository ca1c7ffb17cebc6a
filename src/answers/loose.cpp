#include "answers/loose.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "answers/budget.h"

namespace nonrunner::answers {

namespace {

constexpr std::size_t choices_shown = 9;

std::vector<LineName> may_be(const std::vector<LineName>& names, const Budget& budget,
                             const std::string& words, bool is_hours) {
  std::vector<LineName> all;
  const auto add = [&](const LineName& name) {
    const auto same = [&](const LineName& each) { return each.number == name.number; };
    if (all.size() < choices_shown && std::none_of(all.begin(), all.end(), same)) all.push_back(name);
  };
  for (const LineName* close : close_names(names, words, is_hours)) add(*close);
  for (const LineName& name : names) {
    if (name.is_hours != is_hours) continue;
    const bool open =
        is_hours ? std::any_of(budget.work.begin(), budget.work.end(),
                               [&](const BudgetWork& work) {
                                 return work.estimate.operation == name.name && !work.finished();
                               })
                 : std::any_of(budget.lines.begin(), budget.lines.end(), [&](const BudgetLine& line) {
                     return line.estimate.what == name.name && !line.finished();
                   });
    if (open) add(name);
  }
  return all;
}

}  // namespace

std::vector<Loose> loose_of(const book::Book& book, const std::string& tag) {
  std::vector<Loose> all;
  const auto budget = budget_of(book, tag);
  if (!budget) return all;
  const std::vector<LineName> names = line_names(book, tag);
  std::set<std::string> lines;
  for (const PlacedMoney& line : budget->money) {
    if (line.place || !book::is_cost(line.kind) || line.amount >= Money{}) continue;
    if (!line.line.empty() && !lines.insert(line.line).second) continue;
    Loose loose;
    loose.thing.vehicle = tag;
    if (line.line.empty())
      loose.thing.entry = line.entry;
    else
      loose.thing.line = line.line;
    loose.day = line.day, loose.what = line.what, loose.amount = -line.amount;
    loose.may_be = may_be(names, *budget, line.what, false);
    all.push_back(std::move(loose));
  }
  std::set<std::string> operations;
  for (const PlacedWork& work : budget->worked) {
    if (work.place || work.own == Hours{} || !operations.insert(work.operation).second) continue;
    Loose loose;
    loose.thing.vehicle = tag;
    loose.thing.operation = work.operation;
    loose.what = work.operation;
    loose.may_be = may_be(names, *budget, work.operation, true);
    all.push_back(std::move(loose));
  }
  return all;
}

Question question_of(const Loose& loose, const Currency& currency) {
  Question question;
  question.about = "under";
  question.words = loose.thing.operation.empty()
                       ? fmt::format("{} {}, {}", loose.day.iso(), loose.what, loose.amount.shown(currency))
                       : "own hours: " + loose.what;
  for (const LineName& name : loose.may_be)
    question.choices.push_back({std::to_string(name.number), name.name, "", ""});
  question.choices.push_back({"n", "under none of them", "", ""});
  question.choices.push_back({"q", "enough for now", "", ""});
  return question;
}

}  // namespace nonrunner::answers
