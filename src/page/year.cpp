// A year: what was earned, what the inventory and the purses stood at, and its workbook.
#include "page/year.h"

#include "answers/year.h"
#include "answers/year_sums.h"
#include "exact/ends.h"
#include "page/frame.h"
#include "page/rooms.h"
#include "text/counted.h"
#include "words/year_sums.h"

namespace nonrunner::page::rooms {

namespace {

using Rows = std::vector<std::vector<Html>>;

Html figures_of(const std::string& caption, const std::vector<words::YearRow>& all, const Currency& c) {
  Rows rows;
  for (const words::YearRow& row : all)
    rows.push_back({safe(row.what), safe(row.amount.shown(c)), safe(row.remark)});
  return rows.empty() ? Html() : table(caption, {"what", "amount", ""}, rows);
}

Html cars(const answers::YearSums& sums, const Currency& c) {
  Rows rows;
  for (const answers::YearCar& each : sums.cars)
    rows.push_back({html("<a href=\"{}\">{}</a>", path_of("/report/", each.tag), each.tag), safe(each.state),
                    // What was not sold in the year has no result, and so none an hour.
                    safe(is_zero(each.result) ? "" : each.result.shown(c)),
                    safe(each.own_hours == Hours{} ? "" : each.own_hours.shown()),
                    safe(each.per_own_hour && !is_zero(each.result) ? each.per_own_hour->shown(c) : "")});
  if (rows.empty()) return {};
  const std::string before = words::hours_before(sums);
  return table("Cars", {"car", "at the end", "result", "own hours", "an hour"}, rows) +
         (before.empty() ? Html() : html("<p>{}</p>\n", before));
}

Html hours_in_all(const answers::YearSums& sums, const Currency& c) {
  Html text = html("<p>own hours: {}</p>\n", sums.own_hours.shown());
  if (sums.per_own_hour)
    text += html("<p>result an hour: {} <small class=\"small\">result / own hours</small></p>\n",
                 sums.per_own_hour->shown(c));
  return text;
}

Html without_paper(const answers::YearSums& sums) {
  if (sums.without_paper == 0) return {};
  return html("<p>{} bought without a paper</p>\n", counted(sums.without_paper, "thing"));
}

Html purses(const figures::YearFigures& year) {
  Rows rows;
  for (const figures::YearPurse& each : year.purses)
    rows.push_back({safe(each.name), safe(each.opening.shown(year.currency)),
                    safe(each.in.shown(year.currency)), safe(each.out.shown(year.currency)),
                    safe(each.closing.shown(year.currency))});
  if (rows.empty()) return {};
  return html("<details class=\"detail\"><summary>Purses</summary>\n{}</details>\n",
              table("Purses", {"purse", "before", "in", "out", "at the end"}, rows));
}

}  // namespace

int year_of(const std::string& text, Day today) {
  try {
    return answers::year_named(text, today);
  } catch (const Refusal& refusal) {
    throw Refusal(std::string("year: ") + refusal.what());
  }
}

Answer year(Visit& visit) {
  const std::string asked = visit.stars.empty() ? visit.today.iso().substr(0, 4) : visit.stars.front();
  const int number = year_of(asked, visit.today);
  const figures::YearFigures figures = answers::year_figures(visit.book, number, visit.today);
  const answers::YearSums sums = answers::sums_of(figures);
  const bool is_loss = is_negative(figures.result);
  Html text =
      html("<p>result of {}, before own hours and before tax</p>\n<p class=\"{}\">{}{}</p>\n", asked,
           is_loss ? "figure loss" : "figure",
           (is_loss ? -figures.result : figures.result).shown(figures.currency), is_loss ? " loss" : "");
  const std::string before = std::to_string(number - 1), after = std::to_string(number + 1);
  const Html next =
      number < visit.today.year() ? html("<a href=\"/year/{}\">{}</a>\n", after, after) : Html();
  text += html(
      "<p class=\"choices\">\n<a href=\"/year/{}\">{}</a>\n{}"
      "<a href=\"/workbook/year/{}\" download>Year workbook</a>\n</p>\n",
      before, before, next, asked);
  text += figures_of("How it comes about", words::how_it_comes_about(sums), figures.currency) +
          hours_in_all(sums, figures.currency) + cars(sums, figures.currency) +
          figures_of(sums.year < visit.today.year() ? "At the end of the year" : "As it stands today",
                     words::there_at_the_end(sums, figures.currency), figures.currency) +
          without_paper(sums) + purses(figures);
  return page(visit, "Year " + asked, text);
}

}  // namespace nonrunner::page::rooms
