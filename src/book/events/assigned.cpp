#include "book/events/assigned.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/line.h"
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
    auto& about = book.query("SELECT 1 FROM mention WHERE entry = ? AND vehicle = ?");
    about.bind(1, request.entry);
    about.bind(2, request.vehicle);
    const bool mine = about.executeStep();
    about.tryReset();
    if (!mine)
      throw hinted<Refusal>(fmt::format("under: entry {} is not about {}", request.entry, request.vehicle),
                            {Action::list_entries, {{"tag", request.vehicle}}});
    what = "entry " + std::to_string(request.entry);
  }
  auto& put = book.query(
      "INSERT INTO assigned VALUES (?, ?, ?) ON CONFLICT (vehicle, what) DO UPDATE SET heading = "
      "excluded.heading");
  put.bind(1, request.vehicle);
  put.bind(2, what);
  put.bind(3, request.heading);
  put.exec();
  note_desk(recording, "heading " + request.vehicle + " " + what);
}

std::map<std::string, std::string> assigned(const Book& book, const std::string& vehicle) {
  std::map<std::string, std::string> all;
  auto& rows = book.query("SELECT what, heading FROM assigned WHERE vehicle = ?");
  rows.bind(1, vehicle);
  while (rows.executeStep()) all[rows.getColumn(0).getString()] = rows.getColumn(1).getString();
  return all;
}

}  // namespace nonrunner::book
