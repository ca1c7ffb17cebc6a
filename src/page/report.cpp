// What a car brought: the profit, where the money went, hours, what was expected against what it came to; and the
// pictures of it.
#include "answers/budget.h"
#include "answers/where_it_went.h"
#include "book/questions/figures.h"
#include "exact/hint.h"
#include "figures/opinion.h"
#include "page/entry.h"
#include "page/picture.h"
#include "page/rooms.h"
#include "words/vehicle.h"
#include "words/where_it_went.h"

namespace nonrunner::page::rooms {

namespace {

using Rows = std::vector<std::vector<Html>>;

Html where(const Visit& visit, const book::VehicleFigures& figures) {
  const Currency& c = visit.book.currency();
  const auto all = answers::where_it_went(visit.book, visit.tag());
  if (all.empty()) return {};
  std::vector<Bar> bars;
  Rows rows;
  for (const answers::OfKind& each : all) {
    bars.push_back({words::name_of(each.kind), each.amount.shown(c), in_units(each.amount, c), false});
    rows.push_back({safe(words::name_of(each.kind)), safe(each.amount.shown(c))});
  }
  const words::Headline head = words::headline(figures);
  if (figures.cash_profit) {
    const std::string amount = figures.cash_profit->shown(c);
    bars.push_back(
        {head.is_loss ? "cash loss" : "cash profit", amount, in_units(*figures.cash_profit, c), true});
    rows.push_back({safe(head.is_loss ? "cash loss" : "cash profit"), safe(amount)});
  }
  return html("<h2>Where the money went</h2>\n{}{}",
              steps_picture("Where the money went", words::in_words(all, c), bars),
              table("Where the money went", {"what", "amount"}, rows));
}

Html over_time(const Visit& visit) {
  const Currency& c = visit.book.currency();
  const auto all = answers::cash_over_time(visit.book, visit.tag());
  if (all.size() < 2) return {};
  std::vector<Point> points;
  Rows rows;
  Money lowest, highest;
  for (const answers::StoodAt& each : all) {
    points.push_back({static_cast<double>(days_between(all.front().day, each.day)), in_units(each.sum, c)});
    rows.push_back({safe(each.day.iso()), safe(each.sum.shown(c))});
    lowest = std::min(lowest, each.sum);
    highest = std::max(highest, each.sum);
  }
  const Ends ends{all.front().day.iso(), all.back().day.iso(), "lowest " + lowest.shown(c),
                  "highest " + highest.shown(c)};
  return html("<details class=\"detail\"><summary>Cash over time</summary>\n{}{}</details>\n",
              line_picture("Cash over time", words::in_words(all, c), points, ends),
              table("Cash at the end of each day", {"day", "stood at"}, rows));
}

Html hours(const book::VehicleFigures& figures) {
  Rows rows;
  for (const book::OperationHours& each : figures.hours)
    rows.push_back(
        {safe(each.operation), safe(each.own.shown()), safe(each.paid > Hours{} ? each.paid.shown() : "")});
  if (rows.empty()) return {};
  return html("<details class=\"detail\"><summary>Hours</summary>\n{}</details>\n",
              table("Hours", {"work", "own", "paid"}, rows));
}

Html variance(const Visit& visit) {
  const auto budget = answers::budget_at_purchase(visit.book, visit.tag());
  if (!budget) return {};
  const Currency& c = visit.book.currency();
  Rows rows;
  for (const answers::Variance& each : answers::variances(*budget))
    rows.push_back({safe(each.heading.empty() ? "under no heading" : each.heading),
                    safe(each.expected ? each.expected->shown(c) : "not in it"), safe(each.came_to.shown(c)),
                    safe(is_negative(each.over) ? (-each.over).shown(c) + " less"
                         : is_zero(each.over)   ? "as expected"
                                                : each.over.shown(c) + " more")});
  return html("<details class=\"detail\"><summary>Against the appraisal of {}</summary>\n{}</details>\n",
              budget->kept_on.iso(),
              table("Expected and come to", {"heading", "expected", "came to", "difference"}, rows));
}

Html downloads(const Visit& visit) {
  Html links;
  for (const char* kind : {"profit", "job", "appraisal"})
    links += html("<a href=\"{}\" download>{} workbook</a>\n",
                  path_of("/workbook/" + std::string(kind) + "/", visit.tag()), kind);
  return html("<h2>Workbooks</h2>\n<p class=\"choices\">\n{}</p>\n", links);
}

}  // namespace

Answer report(Visit& visit) {
  const std::string& tag = visit.tag();
  book::know_vehicle(visit.book, "report", tag);
  const auto budget = answers::budget_of(visit.book, tag);
  const book::VehicleFigures figures =
      book::figures_of(visit.book, tag, visit.today, {},
                       budget ? answers::expected_of(*budget, visit.book.currency()) : book::Expected{});
  if (figures.life.bought == 0)
    throw Refusal("report: " + tag +
                  " was not bought, expected a car that was: it has no profit and no loss");
  const words::Headline head = words::headline(figures);
  Html text =
      what_was_entered(visit) + html("<p>{}</p>\n<p>{}</p>\n<p class=\"{}\">{}{}</p>\n", head.about,
                                     head.label, head.is_loss ? "figure loss" : "figure",
                                     head.amount.shown(visit.book.currency()), head.is_loss ? " loss" : "");
  Html rows;
  for (const words::FigureRow& row : words::main_figures(figures, visit.book))
    rows += html("<dt>{}</dt><dd>{}{}</dd>\n", row.what, row.value,
                 row.remark.empty() ? Html() : html(" <small class=\"small\">{}</small>", row.remark));
  if (!rows.empty()) text += html("<dl>\n{}</dl>\n", rows);
  if (const std::string said = words::hour_not_set(figures, visit.book); !said.empty())
    text += html("<p class=\"reason\">{}. It is said at the prompt.</p>\n", said);
  text += where(visit, figures) + hours(figures) + variance(visit) + over_time(visit) + downloads(visit);
  return page(visit, tag + ": report", text);
}

}  // namespace nonrunner::page::rooms
