// One car: what it stands at, what is still to come line by line, what was found, its photographs, and the ways
// to all that is done with it.
#include <fmt/format.h>

#include "answers/budget.h"
#include "answers/budget_sums.h"
#include "book/events/finding.h"
#include "book/questions/attached.h"
#include "book/questions/figures.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "text/lower_case.h"
#include "words/budget.h"
#include "words/due.h"
#include "words/finding.h"
#include "words/vehicle.h"

namespace nonrunner::page::rooms {

namespace {

struct OfCar {
  const Visit& visit;
  const std::string& tag;
  const std::optional<answers::Budget>& budget;
  const book::VehicleFigures& figures;
  bool ended() const { return figures.life.ended != 0; }
  bool is_owned() const { return figures.life.state == book::State::owned; }
  const Currency& currency() const { return visit.book.currency(); }
};

Html ways(const OfCar& car) {
  Html links;
  const auto way = [&](const std::string& path, const char* words) {
    links += html("<a href=\"{}\">{}</a>\n", path, words);
  };
  if (car.figures.life.bought == 0) way(path_of("/seller/", car.tag), "Before the seller");
  way(path_of("/receipt?car=", car.tag), "Receipt");
  way(path_of("/hours?car=", car.tag), "Hours");
  if (car.is_owned()) way(path_of("/go-on/", car.tag), "Go on or stop");
  if (car.is_owned()) way(path_of("/sell/", car.tag), "Sell");
  if (car.figures.life.state == book::State::sold) way(path_of("/sell/", car.tag), "The sale fell through");
  if (car.figures.life.bought != 0) way(path_of("/report/", car.tag), "Report");
  way(path_of("/car/", car.tag, "/more"), "More");
  return html("<p class=\"choices\">\n{}</p>\n", links);
}

Html main_rows(const OfCar& car) {
  Html rows;
  for (const words::FigureRow& row : words::main_figures(car.figures, car.visit.book))
    rows += html("<dt>{}</dt><dd>{}{}</dd>\n", row.what, row.value,
                 row.remark.empty() ? Html() : html(" <small class=\"small\">{}</small>", row.remark));
  return rows.empty() ? Html() : html("<dl>\n{}</dl>\n", rows);
}

// Done, or not needed; what has to be put right before it is sold is not left by the way.
Html done_button(const OfCar& car, const std::string& line) {
  bool is_must = false;
  for (const appraisal::Fault& fault : car.budget->job.faults)
    is_must = is_must || (fault.must && fault.name == line);
  Html buttons = html("<button name=\"says\" value=\"done\">Done</button>\n");
  if (!is_must) buttons += html("<button name=\"says\" value=\"not needed\">Not needed</button>\n");
  return form_with("/entry",
                   hidden("do", "done") + hidden("vehicle", car.tag) + hidden("lines", line) +
                       hidden("next", path_of("/car/", car.tag)),
                   buttons);
}

Html name_of(const words::BudgetRow& row) {
  const std::string number = row.number > 0 ? std::to_string(row.number) + " " : "";
  return safe(number + (row.chance.empty() ? "" : row.chance + ": ") + row.name);
}

using Rows = std::vector<std::vector<Html>>;

struct Split {
  Rows open, closed;
  void add(const OfCar& car, const words::BudgetRow& row, bool can_be_done) {
    std::vector<Html> cells = {name_of(row), safe(row.expected), safe(row.booked), safe(row.to_come)};
    if (can_be_done && car.is_owned()) cells.push_back(done_button(car, row.name));
    (can_be_done ? open : closed).push_back(std::move(cells));
  }
};

// What can be done with a tap once the car is bought, and folded under it what is done.
Html in_two(const OfCar& car, const Split& split, const std::string& what) {
  Html text;
  std::vector<std::string> headings = {"what", "expected", "booked", "to come"};
  if (car.is_owned()) headings.emplace_back("done?");
  if (!split.open.empty()) text += table(what + " still to come", headings, split.open);
  const std::string rest = what + ": done, or not needed";
  if (!split.closed.empty())
    text += folded(rest, table(rest, {"what", "expected", "booked", "state"}, split.closed));
  return text;
}

// What all of it comes to, with what stands under no heading, so that what was booked adds up.
Html sums(const OfCar& car) {
  const answers::BudgetSums sum = answers::sums_of(*car.budget);
  const Currency& c = car.currency();
  Rows rows;
  if (!is_zero(sum.under_no_heading))
    rows.push_back(
        {safe("money under no heading"), safe("not in it"), safe(sum.under_no_heading.shown(c)), safe("")});
  rows.push_back({safe("money, all"), safe(sum.expected.shown(c)), safe(sum.booked.shown(c)),
                  safe(car.ended() ? "" : car.budget->cash_to_come.shown(c))});
  if (sum.hours_under_no_heading > Hours{})
    rows.push_back({safe("own hours under no heading"), safe("not in it"),
                    safe(sum.hours_under_no_heading.shown()), safe("")});
  rows.push_back({safe("own hours, all"), safe(fmt::format("{:.1f}", sum.expected_hours)),
                  safe(sum.all_hours.shown()),
                  safe(car.ended() ? "" : fmt::format("{:.1f}", car.budget->hours_to_come))});
  return table("Sums", {"", "expected", "booked", "to come"}, rows);
}

Html budget(const OfCar& car) {
  if (car.figures.life.state == book::State::passed)
    return html("<p>It was left: nothing is to be done on it.</p>\n");
  if (!car.budget)
    return html("<p>No appraisal of it is kept, and nothing is planned: it has no budget.</p>\n");
  const answers::Budget& budget = *car.budget;
  const Currency& c = car.currency();
  Split money, hours;
  Rows only, headings;
  for (const answers::BudgetLine& line : budget.lines)
    money.add(car, words::row_of(line, car.ended(), c), !car.ended() && !line.finished() && line.in_estimate);
  for (const answers::BudgetWork& work : budget.work)
    hours.add(car, words::row_of(work, car.ended()), !car.ended() && !work.finished() && work.in_estimate);
  for (const answers::OtherLine& line : budget.only_if)
    only.push_back({safe(fmt::format("{} {}", line.number, line.estimate.what)),
                    safe(words::chance_of_line(line.chance)), safe(line.if_needed.shown(c))});
  for (const answers::HeadingSum& each : answers::by_heading(budget))
    headings.push_back({safe(each.heading), safe(each.in_estimate ? each.expected.shown(c) : "not in it"),
                        safe(each.booked.shown(c)),
                        safe(is_zero(each.to_come) ? "" : each.to_come.shown(c))});
  Html text = html("<h2>Budget</h2>\n<p class=\"small\">{}</p>\n", words::against(budget));
  text += in_two(car, money, "Money") + in_two(car, hours, "Own hours") + sums(car);
  if (!car.ended() && !only.empty())
    text += folded("Only if it is another cause",
                   table("Only if it is another cause", {"what", "chance", "if so"}, only));
  return text +
         folded("By heading", table("By heading", {"heading", "expected", "booked", "to come"}, headings));
}

Html ahead(const OfCar& car) {
  if (!car.budget || car.ended() || car.figures.life.bought == 0) return {};
  Html text;
  for (const std::string& each :
       words::ahead(car.visit.book, *car.budget, car.figures, car.visit.today, {}, ""))
    text += html("<p class=\"reason\">{}</p>\n", each);
  if (car.budget->in_pieces) return text;
  for (const std::string& each : words::doubts(*car.budget))
    text += html("<p class=\"reason\">{}</p>\n", each);
  return text;
}

Html waiting(const OfCar& car) {
  Html items;
  for (const book::EntryId entry : car.figures.waiting)
    items += html("<li><a href=\"{}\">entry {} waits for its paper</a></li>\n",
                  path_of("/paper/", std::to_string(entry)), std::to_string(entry));
  for (const book::Due& due : car.figures.due)
    items += html("<li><a href=\"/due\">due back: {}, {}{}</a></li>\n", words::called(due),
                  due.amount.shown(car.currency()), due.by ? ", by " + due.by->iso() : "");
  return items.empty() ? Html() : html("<h2>What waits</h2>\n<ul>\n{}</ul>\n", items);
}

Html notes(const OfCar& car) {
  Html items;
  for (const book::DatedFinding& finding : book::findings(car.visit.book, car.tag)) {
    std::string facts;
    for (const book::Fact& fact : finding.facts)
      if (const std::string words = words::in_words(fact); lower_case(words) != lower_case(finding.text))
        facts += "; " + words;
    items += html("<li>{} {}{}</li>\n", finding.day.iso(), finding.text, facts);
  }
  Html photos;
  for (const book::Attached& each : book::attached_to(car.visit.book, car.tag))
    photos += html("<li><a href=\"{}\">{} {}</a></li>\n", path_of("/photo/", each.sha256), each.day.iso(),
                   each.name);
  Html text;
  if (!items.empty()) text += html("<h2>Notes</h2>\n<ul>\n{}</ul>\n", items);
  if (!photos.empty()) text += html("<h2>Photographs</h2>\n<ul>\n{}</ul>\n", photos);
  return text;
}

}  // namespace

Answer job(Visit& visit) {
  const std::string& tag = visit.tag();
  book::know_vehicle(visit.book, "show", tag);
  const auto budget = answers::budget_of(visit.book, tag);
  const book::VehicleFigures figures =
      book::figures_of(visit.book, tag, visit.today, {},
                       budget ? answers::expected_of(*budget, visit.book.currency()) : book::Expected{});
  const OfCar car{visit, tag, budget, figures};
  const words::Headline head = words::headline(figures);
  Html text = what_was_entered(visit) + html("<p>{}</p>\n", head.about);
  if (!head.label.empty())
    text += html("<p>{}</p>\n<p class=\"{}\">{}{}</p>\n", head.label, head.is_loss ? "figure loss" : "figure",
                 head.amount.shown(visit.book.currency()), head.is_loss ? " loss" : "");
  text += ahead(car) + ways(car) + waiting(car) + main_rows(car) + rooms::budget(car) + notes(car);
  return page(visit, tag, text);
}

}  // namespace nonrunner::page::rooms
