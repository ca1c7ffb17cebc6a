#include "page/lists.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/purse.h"
#include "book/events/clock.h"
#include "book/ledger/names.h"
#include "book/questions/board.h"
#include "book/questions/lately.h"

namespace nonrunner::page {

std::vector<std::string> cars_at_hand(const Visit& visit) {
  std::vector<std::string> tags;
  for (const book::BoardRow& row : book::board(visit.book, visit.today))
    if (row.state == book::State::owned || row.state == book::State::considered) tags.push_back(row.tag);
  return tags;
}

std::string whose_clock(const Visit& visit, const std::string& worker) {
  const std::string person = visit.request.person.empty() ? "me" : visit.request.person;
  if (worker == person) return "Your clock";
  return (worker == "me" ? "The owner" : worker) + "'s clock";
}

std::string likely_car(const Visit& visit) {
  if (const std::string asked = visit.request.query.get("car"); !asked.empty()) return asked;
  const std::string person = visit.request.person.empty() ? "me" : visit.request.person;
  for (const book::Clock& clock : book::clocks(visit.book))
    if (clock.worker == person) return clock.vehicle;
  const std::vector<std::string> here = cars_at_hand(visit), lately = book::cars_lately(visit.book);
  const auto found = std::ranges::find_first_of(lately, here);
  return found == lately.end() ? "" : *found;
}

Html car_field(const std::vector<std::string>& cars, const std::string& chosen, const std::string& name) {
  Choices all;
  for (const std::string& tag : cars) all.emplace_back(tag, tag);
  if (!chosen.empty() && std::find(cars.begin(), cars.end(), chosen) == cars.end())
    all.insert(all.begin(), {chosen, chosen});
  if (all.empty()) return field(name, "car");
  return choice(name, "car", all, chosen.empty() ? all.front().first : chosen);
}

std::string likely_purse(const book::Book& book, const std::string& event, const std::string& supplier) {
  if (const auto only = answers::only_purse(book)) return *only;
  return answers::last_purse(book, event, supplier).value_or("");
}

Html purse_choice(const book::Book& book, const std::string& name, const std::string& chosen) {
  Choices all;
  for (const std::string& purse : book::names_of(book, book::account::purse)) all.emplace_back(purse, purse);
  if (all.empty()) return field(name, "purse", "cash");
  if (chosen.empty()) all.insert(all.begin(), {"", "choose one"});
  return choice(name, "purse", all, chosen);
}

Html suggested_field(const std::string& name, const std::string& label, const std::string& list,
                     const std::string& value, const std::string& hint, Need need) {
  const Html below = hint.empty() ? Html() : html(" <small class=\"small\">{}</small>", hint);
  return html(
      "<label><span>{}</span> <input name=\"{}\" type=\"text\" list=\"{}\" value=\"{}\" "
      "autocomplete=\"off\"{}>{}</label>\n",
      label, name, list, value, required(need), below);
}

Html suggestions(const std::string& list, const Choices& choices) {
  Html options;
  for (const auto& [value, words] : choices)
    options += html("<option value=\"{}\">{}</option>", value, words);
  return html("<datalist id=\"{}\">{}</datalist>\n", list, options);
}

Choices open_lines(const answers::Budget& budget) {
  std::vector<const answers::BudgetLine*> lines;
  for (const answers::BudgetLine& line : budget.lines)
    if (!line.finished()) lines.push_back(&line);
  std::stable_sort(lines.begin(), lines.end(),
                   [](const auto* a, const auto* b) { return a->chance() > b->chance(); });
  Choices all;
  for (const answers::BudgetLine* line : lines)
    all.emplace_back(line->estimate.what, fmt::format("{} {}, {}", line->number, line->estimate.what,
                                                      line->if_needed.shown(budget.job.currency)));
  return all;
}

Choices open_work(const answers::Budget& budget) {
  Choices all;
  for (const answers::BudgetWork& work : budget.work)
    if (!work.finished())
      all.emplace_back(work.estimate.operation, fmt::format("{} {}", work.number, work.estimate.operation));
  return all;
}

namespace {
Choices of_every_car(const Visit& visit, Choices (*open)(const answers::Budget&)) {
  Choices all;
  for (const std::string& tag : cars_at_hand(visit))
    if (const auto budget = answers::budget_of(visit.book, tag))
      for (const auto& [name, words] : open(*budget)) all.emplace_back(name, tag + ": " + words);
  return all;
}
}  // namespace

Choices offered_lines(const Visit& visit) {
  Choices all = of_every_car(visit, open_lines);
  for (const std::string& word : book::bought_lately(visit.book)) all.emplace_back(word, "bought lately");
  return all;
}

Choices offered_work(const Visit& visit) { return of_every_car(visit, open_work); }

Html another_day() { return field("date", "another day than today", "", "date"); }

Html photo_field() {
  return html(
      "<label><span>{}</span> <input type=\"file\" accept=\"image/*\" capture=\"environment\" "
      "data-photo></label>\n",
      "photo");
}

Html photo_pane(const std::string& sha256, const std::string& about) {
  return html(
      "<div class=\"pane\" tabindex=\"0\" role=\"group\" aria-label=\"{}\"><img src=\"{}\" "
      "alt=\"{}\"></div>\n",
      about, path_of("/photo/", sha256), about);
}

Html photo_form(const std::string& entry, const std::string& next) {
  return html(
      "<details class=\"detail\"><summary>Add a photo</summary>\n{}</details>\n",
      form("/entry", hidden("do", "photo") + hidden("entry", entry) + hidden("next", next) + photo_field(),
           "Keep"));
}

Html two_buttons(const std::string& keep) {
  return html(
      "<p class=\"choices\">\n<button>{}</button>\n<button name=\"done\" value=\"true\">{}</button>\n</p>\n",
      keep, keep + ", done");
}

Html form_with(const std::string& action, const Html& fields, const Html& buttons) {
  return html("<form method=\"post\" action=\"{}\" data-kept>\n{}{}{}</form>\n", action,
              hidden("kept", fresh_id()), fields, buttons);
}

}  // namespace nonrunner::page
