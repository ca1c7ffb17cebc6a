// What is to be bought, by place; a tick with the price paid makes a quick line of it. A line by hand is added here.
#include "answers/shopping.h"

#include <fmt/format.h>

#include <array>

#include "book/questions/lately.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "reports/shopping_words.h"

namespace nonrunner::page {

namespace {

using Place = figures::ShoppingLine::Place;

std::string most_of(const figures::ShoppingLine& line, const Currency& c) {
  return line.most ? ", at most " + line.most->times(Quantity::of(1000)).shown(c) : "";
}

Html one_line(const Visit& visit, const figures::ShoppingLine& line) {
  const Currency& c = visit.book.currency();
  const Money price = line.price.times(line.quantity);
  const std::string pieces = line.quantity == Quantity::of(1000) ? "" : line.quantity.shown() + " ";
  const Money core = line.core.times(line.quantity);
  const std::string needed = reports::when_needed(line, c);
  const Html more = needed.empty() ? Html() : html("<p class=\"small\">{}</p>\n", needed);
  const Html note = line.note.empty() || line.note == line.what
                        ? Html()
                        : html("<p class=\"small\">for {}</p>\n", line.note);
  const Html fields = hidden("do", "receipt") + hidden("next", "/shopping") +
                      hidden("vehicle", line.vehicle) + hidden("what", line.what) +
                      money_field("amount",
                                  is_zero(core) ? "price paid, tax included"
                                                : "price paid, tax included, without the deposit",
                                  price.plain(c)) +
                      (is_zero(core) ? Html() : money_field("core", "deposit on top", core.plain(c))) +
                      suggested_field("supplier", "where", "suppliers") +
                      purse_choice(visit.book, "purse", likely_purse(visit.book, "receipt", ""));
  return html("<details class=\"detail\"><summary>{}{}, {}: {}{}{}</summary>\n{}{}{}</details>\n", pieces,
              line.what, line.vehicle, price.shown(c), most_of(line, c),
              line.certain ? "" : ", if it is needed", more, note, form("/entry", fields, "Bought"));
}

Html by_hand(const Visit& visit) {
  const Html fields =
      hidden("do", "plan") + hidden("next", "/shopping") + car_field(cars_at_hand(visit), likely_car(visit)) +
      field("name", "what is needed", "", "text", "", Need::must) + money_field("amount", "about how much") +
      money_field("qty", "pieces") + money_field("hours", "own hours for it");
  return html("<details class=\"detail\"><summary>A line by hand</summary>\n{}</details>\n",
              form("/entry", fields, "Add it"));
}

}  // namespace

Answer rooms::shopping(Visit& visit) {
  const figures::ShoppingFigures figures =
      answers::shopping_figures(visit.book, visit.request.query.get("car"), visit.today);
  Choices known;
  for (const std::string& supplier : book::suppliers_lately(visit.book)) known.emplace_back(supplier, "");
  Html content = what_was_entered(visit) + suggestions("suppliers", known);
  for (const figures::ShoppingVehicle& car : figures.vehicles)
    if (!car.cause_is_noted && !car.cause.empty())
      content +=
          html("<p>{}: no cause is noted, so these are for the likeliest, {}</p>\n", car.tag, car.cause);
  constexpr std::array<std::pair<Place, const char*>, 3> places{{{Place::yard, "At the yard"},
                                                                 {Place::counter, "At the counter"},
                                                                 {Place::ordered, "Ordered, sent out"}}};
  for (const auto& [place, heading] : places) {
    Html lines;
    for (const figures::ShoppingLine& line : figures.lines)
      if (line.place == place) lines += one_line(visit, line);
    if (!lines.empty()) content += html("<h2>{}</h2>\n{}", heading, lines);
  }
  if (figures.lines.empty()) content += html("<p>Nothing is to be bought.</p>\n");
  for (const figures::WaitingReceipt& waits : figures.waiting)
    content += html("<p class=\"small\">Not itemised yet, and may be one of these: {}</p>\n",
                    reports::in_words(waits, visit.book.currency()));
  for (const figures::LookedFor& each : figures.not_there)
    content += html("<p class=\"small\">Not there on {}: {}{}</p>\n", each.day.iso(), each.what,
                    each.place.empty() ? "" : ", at " + each.place);
  return page(visit, "Shopping", content + by_hand(visit));
}

}  // namespace nonrunner::page
