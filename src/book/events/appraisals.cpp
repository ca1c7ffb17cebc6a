#include "book/events/appraisals.h"

#include "book/events/fields.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/names.h"
#include "book/ledger/query.h"

namespace nonrunner::book {

void settled_field(Fields& f, std::optional<std::string>& settled) {
  f.other(
      {"settled", "what the file left to the book, as an export found it settled", Need::may}, Holds::text,
      "a text",
      [&](const Table& table, const Currency&) {
        if (table.has("settled")) settled = table.text_or("settled", "");
      },
      [](EventText&) {});
}

void came_to_field(Fields& f, std::string& file) {
  f.other(
      {"came_to", "the file of what it came to, as an export found it kept", Need::may}, Holds::text,
      "a text", [&](const Table& table, const Currency&) { file = table.text_or("came_to", ""); },
      [](EventText&) {});
}

std::int64_t keep_appraisal(Recording& recording, const std::string& vehicle, Day day, EntryId bought_by,
                            const AppraisedJob& appraised) {
  meet_vehicle(recording, "appraise", vehicle);
  change(recording.book(),
         "INSERT INTO appraisal (vehicle, day, entry, job, figures, settled, after_entry) VALUES (:tag, "
         ":day, nullif(:entry, 0), "
         ":job, :figures, :settled, :after)",
         {{":tag", vehicle},
          {":day", day},
          {":entry", bought_by},
          {":job", appraised.job},
          {":figures", appraised.figures},
          {":settled", appraised.settled},
          {":after", last_entry(recording.book())}});
  const std::int64_t number = recording.book().database().getLastInsertRowid();
  note_desk(recording, "appraisal " + std::to_string(number));
  return number;
}

std::vector<KeptAppraisal> appraisals_of(const Book& book, const std::string& vehicle) {
  std::vector<KeptAppraisal> all;
  rows(book,
       "SELECT appraisal, day, coalesce(entry, 0), after_entry, job, settled, figures FROM appraisal WHERE "
       "vehicle = :tag "
       "ORDER BY day, appraisal",
       {{":tag", vehicle}}, [&](const Row& row) {
         KeptAppraisal& kept = all.emplace_back();
         row.into(kept.id, kept.day, kept.bought_by, kept.after_entry, kept.job, kept.settled, kept.figures);
       });
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
  return last_by(book, vehicle, life, life.bought != 0 ? std::optional(life.bought_said) : on);
}

std::optional<KeptAppraisal> appraisal_known(const Book& book, const std::string& vehicle,
                                             std::optional<Day> on) {
  return last_by(book, vehicle, life_of(book, vehicle, on), on);
}

}  // namespace nonrunner::book
