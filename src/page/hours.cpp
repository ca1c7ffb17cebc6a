// The clock of this person, on and off; and hours after work. All of them are typed as text: a field for numbers
// drops a decimal comma, and 0,5 would be 5.
#include <fmt/format.h>

#include "book/events/clock.h"
#include "page/entry.h"
#include "page/lists.h"
#include "page/rooms.h"
#include "text/counted.h"
#include "words/days.h"

namespace nonrunner::page {

namespace {

Choices work_of(const Visit& visit, const std::string& car) {
  if (car.empty()) return {};
  const auto budget = answers::budget_of(visit.book, car);
  return budget ? open_work(*budget) : Choices{};
}

// Longer than this nobody works on in one go: the clock was forgotten.
const Hours forgotten = Hours::of(12'000);

Html off(const Visit& visit, const book::Clock& clock) {
  const Hours ran = book::hours_of(clock, visit.now);
  const bool ask = ran > forgotten || ran == Hours{};
  Choices work = work_of(visit, clock.vehicle);
  Html operation;
  if (work.empty()) {
    operation = field("operation", "what was done", clock.operation);
  } else {
    work.insert(work.begin(), {clock.operation, clock.operation});
    operation = one_of("operation", "what was done", work, clock.operation);
  }
  const Html hours =
      ask ? html("<p class=\"reason\">{}</p>\n",
                 fmt::format("The clock was forgotten, it seems: it began {}. How long was it really?",
                             words::shown_time(clock.since))) +
                one_of("hours", "hours", {{"1", "1"}, {"2", "2"}, {"3", "3"}, {"4", "4"}}) +
                money_field("other_hours", "or another number, such as 2.5 or 1:30")
          : html("<details class=\"detail\"><summary>It was another time</summary>\n{}</details>\n",
                 money_field("hours", "hours, such as 2.5 or 1:30"));
  return html(
             "<p class=\"figure\"><time datetime=\"{}\" data-since>{}</time></p>\n<p>on {}, the "
             "clock runs.</p>\n",
             clock.since, counted(ran.shown(), "hour"), clock.vehicle) +
         form_with("/entry",
                   hidden("do", "clock off") + hidden("vehicle", clock.vehicle) + hidden("next", "/hours") +
                       operation + hours,
                   two_buttons("Keep"));
}

Html beside(const Visit& visit, const book::Clock& clock) {
  Html lines;
  for (const book::EntryId entry : book::hours_beside(visit.book, clock))
    lines += html("<p class=\"reason\">Since the clock began, {} came in as well.</p>\n",
                  said_of(visit.book, entry));
  return lines;
}

Html on(const Visit& visit, const std::string& car) {
  return form_with("/entry",
                   hidden("do", "clock on") + hidden("next", "/hours") + car_field(cars_at_hand(visit), car),
                   html("<button>Clock on</button>\n"));
}

Html after_work(const Visit& visit, const std::string& car) {
  const Html fields = hidden("do", "hours") + hidden("next", "/hours") + car_field(cars_at_hand(visit), car) +
                      money_field("own", "own hours, such as 2.5 or 1:30", "", Need::must) +
                      suggested_field("operation", "what was done", "work", "",
                                      "words, or the number of a line of the budget", Need::must) +
                      suggestions("work", offered_work(visit)) +
                      field("date", "another day than today", "", "date");
  return html("<h2>Hours after work</h2>\n") + form_with("/entry", fields, two_buttons("Keep"));
}

}  // namespace

Answer rooms::hours(Visit& visit) {
  const std::string person = visit.request.person.empty() ? "me" : visit.request.person;
  const std::string car = likely_car(visit);
  Html clock = on(visit, car);
  for (const book::Clock& running : book::clocks(visit.book))
    if (running.worker == person) clock = beside(visit, running) + off(visit, running);
  return page(visit, "Hours", what_was_entered(visit) + clock + after_work(visit, car));
}

}  // namespace nonrunner::page
