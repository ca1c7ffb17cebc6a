// Away from home: a receipt, hours and the clock, what is due, what is to be bought, and the answers for the cars that were
// taken along. The page itself holds nothing of the book and is kept by the browser; its lists are fetched while the house
// is in reach and shown from the device.
#include "words/away.h"

#include "answers/looked_at.h"
#include "answers/shopping.h"
#include "book/events/clock.h"
#include "book/ledger/names.h"
#include "book/questions/lately.h"
#include "page/brought_back.h"
#include "page/files.h"
#include "page/frame.h"
#include "page/lists.h"
#include "page/rooms.h"

namespace nonrunner::page {

namespace {

// Its lists come from the device.
Html hours_away() {
  const Html fields = hidden("do", "hours") + hidden("next", "/away") + choice("vehicle", "car", {}) +
                      money_field("own", "own hours, such as 2.5 or 1:30", "", Need::must) +
                      suggested_field("operation", "what was done", "away-work", "",
                                      "words, or the number of a line of the budget", Need::must) +
                      html("<datalist id=\"away-work\"></datalist>\n") +
                      field("date", "another day than today", "", "date");
  return folded("Hours after work", form_with("/entry", fields, two_buttons("Keep")));
}

}  // namespace

Answer rooms::away(Visit& visit) {
  const Html fields =
      hidden("do", "receipt") + hidden("next", "/away") +
      html(
          "<label><span>photo</span> <input type=\"file\" accept=\"image/*\" capture=\"environment\" "
          "data-photo></label>\n") +
      money_field("amount", "amount paid, tax included") + choice("vehicle", "car", {}) +
      suggested_field("what", "what it was", "away-words") +
      html("<datalist id=\"away-words\"></datalist>\n") + choice("purse", "purse", {});
  Answer answer =
      page(visit, "Away from home",
           html("<p class=\"reason\" id=\"away-as-of\">Nothing is on this device yet: open this page once at "
                "home, with its "
                "script.</p>\n<noscript><p>Away from home this page needs its script.</p></noscript>\n"
                "<div id=\"away-room\" hidden>\n{}<section id=\"away-hours\" aria-label=\"hours\">\n"
                "<h2>Hours</h2>\n<div id=\"away-clock\"></div>\n{}</section>\n<section id=\"away-shopping\" "
                "aria-label=\"to be "
                "bought\"></section>\n"
                "<section id=\"away-due\" aria-label=\"due back\"></section>\n"
                "<section id=\"away-cars\" aria-label=\"before the seller\"></section>\n</div>\n"
                "<script src=\"{}\" defer></script>\n",
                form("/entry", fields, "Keep"), hours_away(), web_path("away.js")));
  answer.is_shell = true;
  return answer;
}

Answer rooms::away_lists(Visit& visit) {
  words::AwayLists lists;
  lists.as_of = visit.now;
  lists.currency = visit.book.currency();
  lists.cars = cars_at_hand(visit);
  lists.car = likely_car(visit);
  lists.purses = book::names_of(visit.book, book::account::purse);
  lists.purse = likely_purse(visit.book, "receipt", "");
  lists.words = book::bought_lately(visit.book);
  lists.suppliers = book::suppliers_lately(visit.book);
  lists.due = to_bring_back(visit);
  lists.may_go_back = that_may_go_back(visit);
  const std::string person = visit.request.person.empty() ? "me" : visit.request.person;
  for (const book::Clock& clock : book::clocks(visit.book))
    if (clock.worker == person) {
      lists.clock_on = clock.vehicle;
      lists.clock_since = clock.since;
    }
  for (const std::string& tag : lists.cars)
    if (const auto budget = answers::budget_of(visit.book, tag))
      for (const auto& [operation, says] : open_work(*budget)) lists.work.push_back({tag, operation, says});
  lists.shopping = answers::shopping_figures(visit.book, "", visit.today).lines;
  for (const std::string& tag : lists.cars)
    if (book::life_of(visit.book, tag).bought == 0 && answers::kept_verdict(visit.book, tag))
      lists.looked_at.push_back(tag);
  Answer answer;
  answer.type = "application/json";
  answer.body = words::to_json(lists);
  return answer;
}

}  // namespace nonrunner::page
