// A paper at the table: its photograph beside the form, the supplier from those known, line after line with the
// open lines of the budget first. It takes the place of its quick line.
#include "page/paper.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstdlib>

#include "answers/shopping.h"
#include "book/events/attach.h"
#include "book/events/receipt.h"
#include "book/questions/entry_now.h"
#include "book/questions/figures.h"
#include "book/questions/lately.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "text/typed_numbers.h"
#include "words/days.h"

namespace nonrunner::page {

namespace {

constexpr int rows_at_first = 3, rows_more = 6, most_rows = 60;

// What a form of a paper starts from: its quick line, or nothing.
Form start_of(const Visit& visit, const std::string& entry) {
  Form form;
  form.set("date", visit.today.iso());
  for (const book::Waiting& each : book::tray(visit.book)) {
    if (std::to_string(each.entry) != entry) continue;
    form.set("replaces", entry);
    form.set("date", each.day.iso());
    form.set("supplier", each.supplier);
    form.set("total", each.total.plain(visit.book.currency()));
    if (!each.vehicles.empty()) form.set("car", each.vehicles.front());
    if (const std::string purse = book::first_purse_of(visit.book, each.entry); !purse.empty())
      form.set("paid", purse);
  }
  if (!form.has("car")) form.set("car", likely_car(visit));
  return form;
}

Html words_of(const std::string& list, const std::vector<std::string>& words) {
  Choices all;
  for (const std::string& word : words) all.emplace_back(word, "");
  return suggestions(list, all);
}

Html ticked(const std::string& name, const std::string& label, bool on) {
  return on ? html(
                  "<label class=\"tick\"><input type=\"checkbox\" name=\"{}\" value=\"on\" checked> "
                  "{}</label>\n",
                  name, label)
            : html("<label class=\"tick\"><input type=\"checkbox\" name=\"{}\" value=\"on\"> {}</label>\n",
                   name, label);
}

std::vector<std::string> cars_of(const Visit& visit) {
  std::vector<std::string> cars = cars_at_hand(visit);
  for (const char* own : {"tools", "overhead", "owner"}) cars.emplace_back(own);
  return cars;
}

// The choices of the first line go to the others by the script: they are sent once. Without it they are offered while the
// car is typed.
Html car_of_line(const Visit& visit, const Form& form, int number) {
  const std::string name = fmt::format("line.{}.to", number);
  const std::string car = form.has(name) ? form.get(name) : form.get("car");
  const std::vector<std::string> cars = cars_of(visit);
  if (number == 1) return car_field(cars, car, name);
  return html(
      "<label><span>car</span> <input name=\"{}\" type=\"text\" list=\"cars\" value=\"{}\" "
      "autocomplete=\"off\" data-like=\"line.1.to\"></label>\n",
      name, car.empty() ? cars.front() : car);
}

Html line_of(const Visit& visit, const Form& form, int number) {
  const std::string at = fmt::format("line.{}.", number);
  const Html rest = html(
      "<details class=\"detail\"><summary>More of line {}</summary>\n{}{}{}{}{}</details>\n",
      std::to_string(number), money_field(at + "amount", "or amount of all of them", form.get(at + "amount")),
      suggested_field(at + "kind", "what it is to the shop (else guessed)", "kinds", form.get(at + "kind")),
      suggested_field(at + "source", "where it comes from", "sources", form.get(at + "source")),
      field(at + "core_by", "old part back by", form.get(at + "core_by"), "date"),
      field(at + "stock", "goes to the shelf as", form.get(at + "stock")));
  return html("<fieldset class=\"line\"><legend>line {}</legend>\n{}{}{}{}{}{}{}</fieldset>\n",
              std::to_string(number), suggested_field(at + "what", "what", "offered", form.get(at + "what")),
              money_field(at + "qty", "pieces", form.get(at + "qty")),
              money_field(at + "unit", "price of one", form.get(at + "unit")),
              car_of_line(visit, form, number),
              money_field(at + "core", "deposit on one", form.get(at + "core")),
              ticked(at + "taxed", "taxed", form.get(at + "taxed") == "on"), rest);
}

Html photos(const Visit& visit, const std::string& entry) {
  Html pictures;
  if (entry.empty()) return pictures;
  for (const book::Photo& photo : book::photos_of(visit.book, std::stoll(entry)))
    pictures += photo_pane(photo.sha256, "the photo of this paper");
  return pictures.empty() ? photo_form(entry, path_of("/paper/", entry))
                          : html("<div class=\"photos\">\n{}</div>\n", pictures);
}

Html paid_by(const Visit& visit, const Form& form) {
  const std::string purse =
      form.get("paid").empty() ? likely_purse(visit.book, "receipt", form.get("supplier")) : form.get("paid");
  return purse_choice(visit.book, "paid", purse) +
         ticked("on_account", "not paid yet: on account", form.get("on_account") == "on");
}

int rows_in(const Form& form) {
  int rows = rows_at_first;
  for (const auto& [name, value] : form.fields)
    if (name.starts_with("line.") && !value.empty()) rows = std::max(rows, std::atoi(name.c_str() + 5));
  if (form.has("longer")) rows += rows_more;
  return std::min(rows, most_rows);
}

// What waits for this paper, as it was kept: so that nobody has to remember which of the quick lines it is.
Html quick_lines(const Visit& visit, const std::string& replaces) {
  Html said;
  const std::vector<std::string> entries = parted(replaces, ',');
  for (const book::Waiting& each : book::tray(visit.book)) {
    if (std::find(entries.begin(), entries.end(), std::to_string(each.entry)) == entries.end()) continue;
    said += html("<p class=\"small\">It takes the place of {}: {}, {}, of {}.</p>\n",
                 each.vehicles.empty() ? std::string("a quick line")
                                       : fmt::format("the quick line of {}", fmt::join(each.vehicles, ", ")),
                 each.what, each.total.shown(visit.book.currency()), words::shown_day(each.day));
  }
  return said;
}

}  // namespace

Answer paper_page(const Visit& visit, const Form& form, const std::string& reason) {
  Choices known;
  for (const std::string& supplier : book::suppliers_lately(visit.book)) known.emplace_back(supplier, "");
  Html lines;
  for (int number = 1; number <= rows_in(form); ++number) lines += line_of(visit, form, number);
  const std::string replaces = form.get("replaces");
  const Html fields =
      hidden("do", "receipt") + hidden("next", "/tray") +
      (replaces.empty() ? Html() : hidden("replaces", replaces)) +
      suggested_field("supplier", "supplier", "suppliers", form.get("supplier")) +
      suggestions("suppliers", known) + field("number", "number, as printed", form.get("number")) +
      field("date", "day printed on it", form.get("date"), "date") +
      suggestions("offered", offered_lines(visit)) + words_of("cars", cars_of(visit)) +
      words_of("kinds", book::line_kinds()) + words_of("sources", book::line_sources()) + lines +
      money_field("tax", "tax", form.get("tax")) + money_field("shipping", "shipping", form.get("shipping")) +
      money_field("discount", "discount", form.get("discount")) +
      money_field("total", "total, as printed", form.get("total")) + paid_by(visit, form) +
      field("back_by", "goods may go back until", form.get("back_by"), "date");
  // Behind the button that keeps, which is the one that Enter presses.
  const Html longer = rows_in(form) == most_rows
                          ? Html()
                          : html(
                                "<noscript><button class=\"quiet\" name=\"longer\" value=\"true\" "
                                "formnovalidate>{} more lines; "
                                "nothing is kept yet</button></noscript>\n",
                                std::to_string(std::min(rows_more, most_rows - rows_in(form))));
  const Html said = reason.empty() ? Html() : html("<p class=\"reason\" role=\"alert\">{}</p>\n", reason);
  const Html paper = html(
      "<form method=\"post\" action=\"/entry\" class=\"wide\" data-kept data-paper=\"{}\">\n{}{}"
      "<button>Keep</button>\n{}</form>\n",
      std::to_string(visit.book.currency().digits),
      hidden("kept", form.get("kept").empty() ? fresh_id() : form.get("kept")), fields, longer);
  Answer answer = page(visit, replaces.empty() ? "A paper" : "The paper of entry " + replaces,
                       said + quick_lines(visit, replaces) +
                           html("<div class=\"beside\">\n{}{}</div>\n", photos(visit, replaces), paper));
  if (!reason.empty()) answer.status = 422;
  return answer;
}

Answer rooms::paper(Visit& visit) {
  const std::string& entry = visit.tag();
  Form form = start_of(visit, entry == "new" ? "" : entry);
  if (entry != "new" && !form.has("replaces")) {
    Answer answer =
        page(visit, "No paper waits for that",
             html("<p>Entry {} waits for no paper.</p>\n<p><a href=\"/tray\">Tray</a></p>\n", entry));
    answer.status = 404;
    return answer;
  }
  return paper_page(visit, form, "");
}

}  // namespace nonrunner::page
