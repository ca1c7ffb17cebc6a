// Every car with its state, what is in it, what is due and what is next; the clock that runs; what waits.
#include <fmt/format.h>

#include <algorithm>

#include "answers/next_step.h"
#include "book/events/clock.h"
#include "book/ledger/kept.h"
#include "book/questions/board.h"
#include "book/questions/figures.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "text/counted.h"
#include "words/days.h"
#include "words/due.h"
#include "words/next_step.h"

namespace nonrunner::page {

namespace {

// What comes next for a car, and the room where it is done.
Html next_step(const Visit& visit, const book::BoardRow& row) {
  using What = answers::NextStep::What;
  const bool is_at_hand = row.state == book::State::owned && !row.in_pieces;
  const auto step = answers::next_step(row.state, row.in_pieces,
                                       is_at_hand ? answers::budget_of(visit.book, row.tag) : std::nullopt);
  if (!step) return {};
  const auto to = [&](const char* before, const char* after) {
    return html("<a href=\"{}\">{}</a>", path_of(before, row.tag, after), words::in_words(*step));
  };
  switch (step->what) {
    case What::decide:
      return to("/seller/", "");
    case What::report:
      return to("/report/", "");
    case What::sell_parts:
      return to("/car/", "/more");
    case What::find_cause:
      return to("/go-on/", "");
    case What::work:
    case What::buy:
      return to("/car/", "");
    case What::sell:
    case What::advertise:
      break;
  }
  return to("/sell/", "");
}

// One car's appraisal that cannot be read keeps nobody from the others.
Html next_of(const Visit& visit, const book::BoardRow& row) {
  try {
    return next_step(visit, row);
  } catch (const Refusal& refusal) {
    return safe(refusal.what());
  }
}

// Of what is due for the car, what comes first.
std::string due_of(const std::vector<book::Due>& dues, const std::string& tag, Day today) {
  for (const book::Due& due : dues)
    if (std::find(due.vehicles.begin(), due.vehicles.end(), tag) != due.vehicles.end())
      return words::called(due) + (due.by ? ", " + words::days_left(*due.by, today) : "");
  return "";
}

std::vector<std::vector<Html>> rows_of(const Visit& visit, bool at_hand) {
  const Currency& c = visit.book.currency();
  const auto dues = book::dues(visit.book);
  std::vector<std::vector<Html>> rows;
  for (const book::BoardRow& row : book::board(visit.book, visit.today)) {
    const bool open = row.state == book::State::owned || row.state == book::State::considered;
    if (open != at_hand) continue;
    const std::string state = row.in_pieces ? "in pieces" : book::shown(row.state);
    const Html tag = html("<a href=\"{}\">{}</a>", path_of("/car/", row.tag), row.tag);
    if (at_hand)
      rows.push_back({tag, safe(row.days ? state + ", " + counted(*row.days, "day") : state),
                      safe(is_zero(row.carried) ? "" : row.carried.shown(c)),
                      safe(due_of(dues, row.tag, visit.today)), next_of(visit, row)});
    else
      rows.push_back({tag, safe(state),
                      safe(!row.cash_profit
                               ? std::string()
                               : row.cash_profit->shown(c) + (is_negative(*row.cash_profit) ? " loss" : "")),
                      next_of(visit, row)});
  }
  return rows;
}

Html clocks_of(const Visit& visit) {
  Html lines;
  for (const book::Clock& clock : book::clocks(visit.book))
    lines += html(
        "<p class=\"clock\">{} runs on {}: {}, <time datetime=\"{}\" data-since>{}</time>. "
        "<a href=\"/hours\">Off</a></p>\n",
        whose_clock(visit, clock.worker), clock.vehicle, clock.operation, clock.since,
        counted(book::hours_of(clock, visit.now).shown(), "hour"));
  return lines;
}

Html waiting(const Visit& visit) {
  Html lines;
  const std::size_t papers = book::tray(visit.book).size();
  const std::size_t alike = book::may_be_the_same(visit.book).size();
  if (papers > 0)
    lines += html("<p><a href=\"/tray\">{}</a></p>\n",
                  counted(papers, "quick line waits for its paper", "quick lines wait for their paper"));
  if (alike > 0)
    lines += html("<p><a href=\"/tray\">{}</a></p>\n",
                  counted(alike, "entry may be there twice", "entries may be there twice"));
  const auto dues = book::dues(visit.book);
  if (!dues.empty() && dues.front().by)
    lines += html("<p><a href=\"/due\">Due next: {}, {} ({}, {})</a></p>\n", words::called(dues.front()),
                  dues.front().amount.shown(visit.book.currency()), words::shown_day(*dues.front().by),
                  words::days_left(*dues.front().by, visit.today));
  return lines;
}

}  // namespace

Answer rooms::cars(Visit& visit) {
  Html content = what_was_entered(visit) + clocks_of(visit) + waiting(visit);
  const auto open = rows_of(visit, true), closed = rows_of(visit, false);
  if (open.empty() && closed.empty())
    content += html("<p>{}</p>\n", "No car yet. Look at one before its seller, or enter what was bought.");
  if (!open.empty()) content += table("At hand", {"car", "state", "in it", "due", "next"}, open);
  if (!closed.empty())
    content += html("<details class=\"detail\"><summary>Sold, finished, left: {}</summary>\n{}</details>\n",
                    std::to_string(closed.size()),
                    table("Sold, finished, left", {"car", "state", "cash profit", "then"}, closed));
  return page(visit, "Cars", content);
}

}  // namespace nonrunner::page
