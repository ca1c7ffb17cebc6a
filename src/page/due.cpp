// What is to come back, by last day, with its weekday and place; brought back with the amount ready. What may still
// go back, and what is owed.
#include "words/due.h"

#include <fmt/format.h>

#include "book/events/suggested.h"
#include "book/questions/figures.h"
#include "book/questions/owed.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "words/calendar.h"
#include "words/days.h"
#include "words/in_words.h"

namespace nonrunner::page {

namespace {

// How many go back is asked where it is more than one.
Html pieces(Quantity all) {
  return all > Quantity::of(1000) ? money_field("qty", "pieces", all.shown()) : hidden("qty", all.shown());
}

// The form that brings it back; the amount stands in it, and is changed where it came back short.
Html brought_back(const Visit& visit, const book::Due& due) {
  const Currency& c = visit.book.currency();
  const Html next = hidden("next", "/due");
  if (due.kind == figures::DueKind::credit)
    return html("<p>It goes when something is paid out of the purse {}.</p>\n", due.what);
  if (due.kind == figures::DueKind::tool_deposit)
    return form("/entry",
                hidden("do", "tool deposit back") + next + hidden("what", due.what) +
                    (due.from.empty() ? Html() : hidden("supplier", due.from)) +
                    money_field("amount", "came back", due.amount.plain(c)) +
                    purse_choice(visit.book, "purse", likely_purse(visit.book, "tool deposit", "")),
                "Brought back");
  book::BackSaid said;
  said.day = visit.today;
  said.line = due.line;
  try {
    const book::SuggestedCore core = book::suggested_core(visit.book, said);
    const Html purse =
        is_zero(core.money.into_purse) ? Html() : purse_choice(visit.book, "purse", core.money.purse);
    return form("/entry",
                hidden("do", "core back") + next + hidden("line", due.line) + pieces(core.back.quantity) +
                    money_field("amount", "came back", core.back.amount.plain(c)) + purse,
                "Brought back");
  } catch (const Refusal& refusal) {
    return html("<p>{}</p>\n", refusal.what());
  }
}

Html one_due(const Visit& visit, const book::Due& due) {
  std::string cars;
  for (const std::string& tag : due.vehicles) cars += (cars.empty() ? "" : ", ") + tag;
  const std::string when = due.by ? words::shown_day(*due.by) + ", " + words::days_left(*due.by, visit.today)
                                  : std::string("no last day");
  return html("<details class=\"detail\"><summary>{}: {}, {}{}{}</summary>\n{}</details>\n", when,
              words::called(due), due.amount.shown(visit.book.currency()),
              due.from.empty() ? "" : ", at " + due.from, cars.empty() ? "" : ", " + cars,
              brought_back(visit, due));
}

// The deposit of the old parts that come along: that of all of them, so that of fewer pieces it has to be seen.
Html core_along(const book::GoodsBack& back, const Currency& c) {
  if (!back.core) return {};
  return back.quantity > Quantity::of(1000)
             ? money_field("core", "deposit that comes along", back.core->plain(c))
             : hidden("core", back.core->plain(c));
}

Html goes_back(const Visit& visit, const book::MayGoBack& each) {
  const Currency& c = visit.book.currency();
  book::BackSaid said;
  said.day = visit.today;
  said.line = each.line;
  try {
    const book::SuggestedReturn back = book::suggested_return(visit.book, said);
    const Html purse =
        is_zero(back.money.into_purse) ? Html() : purse_choice(visit.book, "purse", back.money.purse);
    return form("/entry",
                hidden("do", "return") + hidden("next", "/due") + hidden("line", each.line) +
                    pieces(back.back.quantity) +
                    money_field("goods", "for the goods", back.back.goods.plain(c)) +
                    money_field("tax", "tax that came back", back.back.tax.plain(c)) +
                    money_field("restocking", "kept by the shop") + core_along(back.back, c) + purse,
                "Went back");
  } catch (const Refusal& refusal) {
    return html("<p>{}</p>\n", refusal.what());
  }
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
  for (const book::Due& due : dues) content += one_due(visit, due);
  const auto may = book::may_go_back(visit.book, visit.today);
  if (!may.empty()) content += html("<h2>May still go back</h2>\n");
  for (const book::MayGoBack& each : may)
    content += html("<details class=\"detail\"><summary>{}, {}: {}, {}, at {}</summary>\n{}</details>\n",
                    words::shown_day(each.by), words::days_left(each.by, visit.today), each.what,
                    each.refund.shown(c), each.supplier, goes_back(visit, each));
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
