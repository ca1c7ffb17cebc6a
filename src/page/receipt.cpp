// A receipt in ten seconds: the photograph, the amount, keep. The car and the purse are chosen already; all else is
// folded, and what it was is asked after it was kept.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "book/events/quick_line.h"
#include "book/ledger/kept.h"
#include "book/questions/entry_now.h"
#include "book/questions/lately.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "text/typed_numbers.h"

namespace nonrunner::page {

namespace {

// Tools, the shop, the owner: what is bought for no car.
Html for_whom(const Visit& visit, const std::string& chosen) {
  std::vector<std::string> all = cars_at_hand(visit);
  for (const char* own : {"tools", "overhead", "owner"}) all.emplace_back(own);
  return car_field(all, chosen);
}

Html rarely_said(const Visit& visit, const std::string& purse) {
  Choices known;
  for (const std::string& supplier : book::suppliers_lately(visit.book)) known.emplace_back(supplier, "");
  return html(
      "<details class=\"detail\"><summary>More</summary>\n{}{}{}{}{}{}{}{}{}</details>\n",
      suggested_field("what", "what it was", "words", "",
                      "a word, a line of the budget, or that line's number"),
      suggestions("words", offered_lines(visit)), suggested_field("supplier", "who sold it", "suppliers"),
      suggestions("suppliers", known), purse_choice(visit.book, "purse", purse),
      money_field("core", "deposit on top, for the old part"),
      field("core_by", "the old part back by", "", "date"),
      choice("paper", "paper", {{"", "it waits in the tray for its paper"}, {"false", "there was no paper"}}),
      another_day());
}

// Up to three open lines of the car, those first whose price lies nearest.
std::vector<std::string> likely_lines(const Visit& visit, const book::QuickLine& line) {
  const auto budget = answers::budget_of(visit.book, line.car);
  if (!budget) return {};
  std::vector<const answers::BudgetLine*> open;
  for (const answers::BudgetLine& each : budget->lines)
    if (!each.finished()) open.push_back(&each);
  const auto apart = [&](const answers::BudgetLine* each) {
    return std::abs(each->if_needed.minor() - line.amount.minor());
  };
  std::stable_sort(open.begin(), open.end(), [&](auto* a, auto* b) { return apart(a) < apart(b); });
  std::vector<std::string> names;
  for (std::size_t i = 0; i < open.size() && i < 3; ++i) names.push_back(open[i]->estimate.what);
  return names;
}

// After it was kept: what was it, and was it that car?
Html what_was_it(const Visit& visit) {
  const std::string number = visit.request.query.get("entry");
  const auto entry = typed_entry(number);
  const auto line = entry ? book::quick_line_of(visit.book, *entry) : std::nullopt;
  if (!line) return {};
  Html buttons, others;
  if (line->unnamed)
    for (const std::string& name : likely_lines(visit, *line))
      buttons += html("<button name=\"what\" value=\"{}\">{}</button>\n", name, name);
  for (const std::string& tag : cars_at_hand(visit))
    if (tag != line->car) others += html("<button name=\"vehicle\" value=\"{}\">{}</button>\n", tag, tag);
  const std::string action = path_of("/correct/", number);
  const Html next = hidden("next", "/receipt");
  Html forms;
  if (!buttons.empty())
    forms += html(
        "<form method=\"post\" action=\"{}\" class=\"ask\">\n{}<p>What was it?</p>\n<p class=\"choices\">\n"
        "{}</p>\n</form>\n",
        action, next, buttons);
  if (!others.empty())
    forms += html(
        "<details class=\"detail\"><summary>Other car than {}</summary>\n<form method=\"post\" "
        "action=\"{}\">\n{}<p class=\"choices\">\n{}</p>\n</form>\n</details>\n",
        line->car, action, next, others);
  return forms;
}

}  // namespace

Answer rooms::receipt(Visit& visit) {
  const std::string car = likely_car(visit);
  const std::string purse = likely_purse(visit.book, "receipt", "");
  const Html fields = hidden("do", "receipt") + hidden("next", "/receipt") + photo_field() +
                      money_field("amount", "amount paid, tax included, without a deposit", "", Need::must) +
                      for_whom(visit, car) + rarely_said(visit, purse);
  const Html buttons = html("<button>{}</button>\n", purse.empty() ? std::string("Keep") : "Keep, " + purse);
  return page(visit, "Receipt",
              what_was_entered(visit) + what_was_it(visit) + form_with("/entry", fields, buttons));
}

}  // namespace nonrunner::page
