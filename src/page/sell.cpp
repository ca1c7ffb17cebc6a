// Selling: what to advertise it at, when to drop the price, what to take; a buyer's deposit, the sale, and one
// that falls through.
#include "answers/budget.h"
#include "answers/price.h"
#include "book/questions/figures.h"
#include "figures/opinion.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "words/ending.h"
#include "words/price.h"
#include "words/vehicle.h"

namespace nonrunner::page::rooms {

namespace {

Html purse(const Visit& visit, const std::string& event) {
  return purse_choice(visit.book, "purse", likely_purse(visit.book, event, ""));
}

Html start_of(const Visit& visit, const char* event, const std::string& next) {
  return hidden("do", event) + hidden("vehicle", visit.tag()) + hidden("next", next);
}

// The first advert makes a car ready: what is open is closed by it, but for what is ticked.
Html still_to_do(const std::optional<answers::Budget>& budget) {
  if (!budget || budget->ready) return {};
  Choices open = open_lines(*budget);
  const Choices work = open_work(*budget);
  open.insert(open.end(), work.begin(), work.end());
  Html boxes;
  for (const auto& [name, words] : open)
    boxes +=
        html("<label class=\"tick\"><input type=\"checkbox\" name=\"still_to_do\" value=\"{}\"> {}</label>\n",
             name, words);
  if (boxes.empty()) return boxes;
  return html(
      "<fieldset>\n<legend>The first advert closes what is open, but for what is still to do:</legend>\n{}"
      "</fieldset>\n",
      boxes);
}

Html advert(const Visit& visit, const std::string& price, const std::optional<answers::Budget>& budget) {
  const Html fields = start_of(visit, "advertised", path_of("/sell/", visit.tag())) +
                      money_field("price", "price", price, Need::must) + still_to_do(budget) +
                      folded("Another day", another_day());
  return form("/entry", fields, "Advertise");
}

Html plan(const Visit& visit, const answers::AskingPrice& answer,
          const std::optional<answers::Budget>& budget) {
  const double ask = answer.plan.stages.front().ask;
  Html text = html("<p>{}</p>\n<p class=\"figure\">{}</p>\n", words::advertise_at(answer),
                   words::shown_round(ask, answer.currency));
  for (const answers::Doubt& doubt : answer.doubts)
    text += html("<p class=\"reason\">{}</p>\n", words::in_words(doubt));
  std::vector<std::string> said = {words::drops(answer), words::take_from(answer), words::floor_of(answer)};
  for (const auto& more :
       {words::where_it_stands(answer), {words::expected(answer)}, words::warnings(answer, "")})
    said.insert(said.end(), more.begin(), more.end());
  for (const std::string& each : said)
    if (!each.empty()) text += html("<p class=\"reason\">{}</p>\n", each);
  std::vector<std::vector<Html>> rows;
  for (const words::StageRow& row : words::stages(answer))
    rows.push_back({safe(row.from), safe(row.price), safe(row.chance), safe(row.brings), safe(row.take_from),
                    safe(row.against_floor)});
  Html more =
      table("The plan", {"from", "price", "chance", "brings", "take from", "against the floor"}, rows);
  for (const std::string& each : words::after_the_plan(answer))
    more += html("<p class=\"small\">{}</p>\n", each);
  return text + advert(visit, plain_units(ask, answer.currency), budget) +
         folded("Chance and floor at each price", more);
}

Html buyers_deposit(const Visit& visit, const book::VehicleFigures& figures) {
  const std::string here = path_of("/sell/", visit.tag());
  const Html taken = start_of(visit, "buyer deposit", here) +
                     money_field("amount", "how much", "", Need::must) + purse(visit, "buyer deposit") +
                     another_day();
  Html text = form("/entry", taken, "Deposit taken");
  if (!is_zero(figures.deposit_held)) {
    const std::string held = figures.deposit_held.plain(visit.book.currency());
    text = html("<p>A buyer's deposit is held: {}</p>\n", figures.deposit_held.shown(visit.book.currency())) +
           text;
    text += form("/entry",
                 start_of(visit, "deposit back", here) + money_field("amount", "given back", held) +
                     purse(visit, "buyer deposit"),
                 "Given back");
    text +=
        form("/entry", start_of(visit, "deposit kept", here) + money_field("amount", "kept", held), "Kept");
  }
  return folded("A buyer's deposit", text);
}

Html sale(const Visit& visit, const book::VehicleFigures& figures) {
  Html fields = start_of(visit, "sell", path_of("/report/", visit.tag())) +
                money_field("price", "sold for", "", Need::must) + purse(visit, "sell") +
                field("to", "to whom (may be left out)");
  if (!is_zero(figures.deposit_held))
    fields +=
        money_field("deposit_used", "of it the deposit", figures.deposit_held.plain(visit.book.currency()));
  fields += folded("Another day, costs, commission, tax, odometer",
                   another_day() + field("costs.1.name", "a cost of selling, its name") +
                       money_field("costs.1.amount", "how much") +
                       money_field("commission", "commission: below 1 a share, else an amount") +
                       money_field("tax", "sales tax on top") + field("odometer", "odometer", "", "number"));
  return html("<h2>Sold</h2>\n{}", form("/entry", fields, "Sold"));
}

// A sale that falls through: it counted until that day.
Html fell_through(const Visit& visit, const book::VehicleFigures& figures) {
  const Html fields = hidden("do", "void") + hidden("entry", std::to_string(figures.life.ended)) +
                      hidden("later", "true") + hidden("next", path_of("/sell/", visit.tag())) +
                      field("date", "the day on which it fell through", visit.today.iso(), "date") +
                      field("why", "why", "", "text", "", Need::must);
  return folded("The sale fell through", form("/entry", fields, "It fell through"));
}

}  // namespace

Answer sell(Visit& visit) {
  const std::string& tag = visit.tag();
  book::know_vehicle(visit.book, "sell", tag);
  const auto budget = answers::budget_of(visit.book, tag);
  const book::VehicleFigures figures =
      book::figures_of(visit.book, tag, visit.today, {},
                       budget ? answers::expected_of(*budget, visit.book.currency()) : book::Expected{});
  Html text = what_was_entered(visit);
  const std::string title = tag + ": sell";
  if (figures.life.state == book::State::sold) {
    text += html("<p>{}</p>\n<p class=\"choices\"><a href=\"{}\">Report</a></p>\n",
                 words::headline(figures).about, path_of("/report/", tag));
    return page(visit, title, text + fell_through(visit, figures));
  }
  try {
    text += plan(visit, answers::asking_price(visit.book, tag, "", visit.today), budget);
  } catch (const Refusal&) {
    // No price can be said; sold it can be all the same.
    text += html("<p class=\"reason\">{}</p>\n",
                 words::ending_of(std::current_exception(), visit.book.path()).message);
    if (figures.break_even_price)
      text += html("<p>break-even price</p>\n<p class=\"figure\">{}</p>\n",
                   figures.break_even_price->shown(visit.book.currency()));
    text += advert(visit, "", budget);
  }
  return page(visit, title, text + sale(visit, figures) + buyers_deposit(visit, figures));
}

}  // namespace nonrunner::page::rooms
