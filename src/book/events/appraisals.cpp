#include "book/events/appraisals.h"

#include "book/events/fields.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/names.h"

namespace nonrunner::book {

void settled_field(Fields& f, std::optional<std::string>& settled) {
  f.other(
      {"settled", "what the file left to the book, as an export found it settled", Need::may}, "a text",
      [&](const Table& table, const Currency&) {
        if (table.has("settled")) settled = table.text_or("settled", "");
      },
      [](EventText&) {});
}

std::int64_t keep_appraisal(Recording& recording, const std::string& vehicle, Day day, EntryId bought_by,
                            const AppraisedJob& appraised) {
  meet_vehicle(recording, "appraise", vehicle);
  auto& insert = recording.book().query(
      "INSERT INTO appraisal (vehicle, day, entry, job, figures, settled, after_entry) VALUES (?, ?, ?, ?, "
      "?, "
      "?, ?)");
  insert.bind(1, vehicle);
  insert.bind(2, day.iso());
  if (bought_by != 0)
    insert.bind(3, bought_by);
  else
    insert.bind(3);
  insert.bind(4, appraised.job);
  insert.bind(5, appraised.figures);
  insert.bind(6, appraised.settled);
  insert.bind(7, last_entry(recording.book()));
  insert.exec();
  const std::int64_t number = recording.book().database().getLastInsertRowid();
  note_desk(recording, "appraisal " + std::to_string(number));
  return number;
}

std::vector<KeptAppraisal> appraisals_of(const Book& book, const std::string& vehicle) {
  std::vector<KeptAppraisal> all;
  auto& find = book.query(
      "SELECT appraisal, day, coalesce(entry, 0), after_entry, job, settled, figures FROM appraisal WHERE "
      "vehicle = ? ORDER BY day, appraisal");
  find.bind(1, vehicle);
  while (find.executeStep()) {
    KeptAppraisal& kept = all.emplace_back();
    kept.id = find.getColumn(0).getInt64();
    kept.day = Day::parse(find.getColumn(1).getString());
    kept.bought_by = find.getColumn(2).getInt64();
    kept.after_entry = find.getColumn(3).getInt64();
    kept.job = find.getColumn(4).getString();
    if (!find.getColumn(5).isNull()) kept.settled = find.getColumn(5).getString();
    kept.figures = find.getColumn(6).getString();
  }
  return all;
}

namespace {
// One that was kept with a purchase goes where the purchase goes: taken back, it is no appraisal any more.
std::optional<KeptAppraisal> last_by(const Book& book, const std::string& vehicle, const Life& life,
                                     std::optional<Day> until) {
  std::optional<KeptAppraisal> last;
  for (KeptAppraisal& each : appraisals_of(book, vehicle)) {
    if (until && each.day > *until) continue;
    if (each.bought_by != 0 && each.bought_by != life.bought) continue;
    last = std::move(each);
  }
  return last;
}
}  // namespace

std::optional<KeptAppraisal> appraisal_in_force(const Book& book, const std::string& vehicle,
                                                std::optional<Day> on) {
  const Life life = life_of(book, vehicle, on);
  return last_by(book, vehicle, life, life.bought != 0 ? std::optional(life.bought_day) : on);
}

std::optional<KeptAppraisal> appraisal_known(const Book& book, const std::string& vehicle,
                                             std::optional<Day> on) {
  return last_by(book, vehicle, life_of(book, vehicle, on), on);
}

}  // namespace nonrunner::book
