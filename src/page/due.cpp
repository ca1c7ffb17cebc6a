// What is to come back, by last day, with its weekday and place; brought back with the amount ready. What may still
// go back, and what is owed.
#include "words/due.h"

#include <fmt/format.h>

#include "book/questions/figures.h"
#include "book/questions/owed.h"
#include "page/brought_back.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "words/calendar.h"
#include "words/in_words.h"

namespace nonrunner::page {

namespace {

Html shown(const Visit& visit, const words::BackForm& back) {
  const std::string says = back.by + (back.left.empty() ? "" : ", " + back.left) + ": " + back.what;
  if (!back.cannot.empty()) return folded(says, html("<p>{}</p>\n", back.cannot));
  Html fields = hidden("next", "/due");
  for (const auto& [name, value] : back.fields) fields += hidden(name, value);
  for (const words::BackForm::Asked& each : back.asked)
    fields += money_field(each.name, each.label, each.value);
  if (back.purse) fields += purse_choice(visit.book, "purse", *back.purse);
  return folded(says, form("/entry", fields, back.button));
}

}  // namespace

Answer rooms::due(Visit& visit) {
  const Currency& c = visit.book.currency();
  Html content = what_was_entered(visit);
  const auto dues = book::dues(visit.book);
  Money sum;
  for (const book::Due& due : dues) sum += due.amount;
  if (dues.empty())
    content += html("<p>Nothing is due back.</p>\n");
  else
    content += html(
        "<p class=\"figure\">{}</p>\n<p class=\"reason\">to come back, by last day. "
        "<a href=\"/due.ics\">Into the phone's calendar</a></p>\n",
        sum.shown(c));
  for (const words::BackForm& each : to_bring_back(visit)) content += shown(visit, each);
  const auto may = that_may_go_back(visit);
  if (!may.empty()) content += html("<h2>May still go back</h2>\n");
  for (const words::BackForm& each : may) content += shown(visit, each);
  std::vector<std::vector<Html>> owed;
  for (const book::Owed& each : book::owed(visit.book))
    owed.push_back({safe(words::in_words(each)), safe(each.amount.shown(c))});
  if (!owed.empty()) content += table("Owed to others", {"to whom", "amount"}, owed);
  return page(visit, "Due", content);
}

Answer rooms::due_calendar(Visit& visit) {
  Answer answer;
  answer.type = "text/calendar; charset=utf-8";
  answer.body = words::calendar(words::reminders(visit.book, visit.today), visit.now);
  answer.save_as = "due.ics";
  return answer;
}

}  // namespace nonrunner::page
