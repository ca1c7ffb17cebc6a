#include "book/events/assigned.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/limits.h"
#include "book/ledger/line.h"
#include "book/ledger/query.h"
#include "exact/hint.h"

namespace nonrunner::book {

void fields(Assign& assign, Fields& f) {
  std::optional<Day> day;  // allowed, as every event has one; it changes nothing
  f.day({"date", "the day of it", Need::may}, day);
  f.text({"vehicle", "the car"}, Text::tag, assign.vehicle);
  f.text({"line", "a receipt line of its own,", Need::may}, Text::line, assign.line);
  f.text({"operation", "or the hours of an operation,", Need::may}, Text::operation, assign.operation);
  f.entry({"entry", "or an entry", Need::may}, assign.entry);
  f.text({"heading", "where it stands in the budget"}, Text::name, assign.heading);
}

void assign(Recording& recording, const Assign& request) {
  Book& book = recording.book();
  expect_words("under", "the heading", request.heading);
  if (is_entered_now(recording)) {  // a book that is restored is taken as it was
    expect_name("under", request.heading);
    expect_shows("under", request.heading);
  }
  know_vehicle(book, "under", request.vehicle);
  const int given =
      (request.line.empty() ? 0 : 1) + (request.operation.empty() ? 0 : 1) + (request.entry == 0 ? 0 : 1);
  if (given != 1)
    throw Refusal("under: found " + std::to_string(given) +
                  " of line, entry and operation, expected one of them");
  std::string what = "operation " + request.operation;
  if (!request.line.empty()) {
    const Line line = expect_line(book, "under", request.line);
    bool mine = false;
    for (const Share& share : line.shares) mine = mine || share.vehicle == request.vehicle;
    if (!mine)
      throw Refusal(
          fmt::format("under: line {} (\"{}\") is not about {}", request.line, line.what, request.vehicle));
    what = "line " + request.line;
  }
  if (request.entry != 0) {
    const bool mine = first<int>(book, "SELECT 1 FROM mention WHERE entry = :entry AND vehicle = :tag",
                                 {{":entry", request.entry}, {":tag", request.vehicle}})
                          .has_value();
    if (!mine)
      throw hinted<Refusal>(fmt::format("under: entry {} is not about {}", request.entry, request.vehicle),
                            {Action::list_entries, {{"tag", request.vehicle}}});
    what = "entry " + std::to_string(request.entry);
  }
  change(book,
         "INSERT INTO assigned VALUES (:tag, :what, :heading) ON CONFLICT (vehicle, what) DO UPDATE SET "
         "heading = "
         "excluded.heading",
         {{":tag", request.vehicle}, {":what", what}, {":heading", request.heading}});
  note_desk(recording, "heading " + request.vehicle + " " + what);
}

std::map<std::string, std::string> assigned(const Book& book, const std::string& vehicle) {
  std::map<std::string, std::string> all;
  each<std::string, std::string>(
      book, "SELECT what, heading FROM assigned WHERE vehicle = :tag", {{":tag", vehicle}},
      [&](const std::string& what, const std::string& heading) { all[what] = heading; });
  return all;
}

}  // namespace nonrunner::book
