// Away from home: a receipt, what is due, what is to be bought, and the answers for the cars that were taken along. The
// page itself holds nothing of the book and is kept by the browser; its lists are fetched while the house is in reach and
// shown from the device.
#include "words/away.h"

#include <fmt/format.h>

#include "answers/looked_at.h"
#include "answers/shopping.h"
#include "book/ledger/names.h"
#include "book/questions/figures.h"
#include "book/questions/lately.h"
#include "page/files.h"
#include "page/frame.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "words/days.h"
#include "words/due.h"

namespace nonrunner::page {

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
                "<div id=\"away-room\" hidden>\n{}<section id=\"away-shopping\" aria-label=\"to be "
                "bought\"></section>\n"
                "<section id=\"away-due\" aria-label=\"due back\"></section>\n"
                "<section id=\"away-cars\" aria-label=\"before the seller\"></section>\n</div>\n"
                "<script src=\"{}\" defer></script>\n",
                form("/entry", fields, "Keep"), web_path("away.js")));
  answer.is_shell = true;
  return answer;
}

Answer rooms::away_lists(Visit& visit) {
  words::AwayLists lists;
  lists.as_of = visit.now;
  lists.currency = visit.book.currency();
  lists.cars = cars_at_hand(visit);
  lists.car = likely_car(visit, "receipt");
  lists.purses = book::names_of(visit.book, book::account::purse);
  lists.purse = likely_purse(visit.book, "receipt", "");
  lists.words = book::bought_lately(visit.book);
  lists.suppliers = book::suppliers_lately(visit.book);
  for (const book::Due& due : book::dues(visit.book))
    lists.due.push_back(fmt::format("{}: {}, {}{}", due.by ? words::shown_day(*due.by) : "no last day",
                                    words::called(due), due.amount.shown(visit.book.currency()),
                                    due.from.empty() ? "" : ", at " + due.from));
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
