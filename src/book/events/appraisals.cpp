#include "book/events/appraisals.h"

#include "book/ledger/names.h"

namespace nonrunner::book {

std::int64_t keep_appraisal(Recording& recording, const std::string& vehicle, Day day, EntryId bought_by,
                            const std::string& job, const std::string& figures) {
  meet_vehicle(recording, "appraise", vehicle);
  auto& insert = recording.book().query(
      "INSERT INTO appraisal (vehicle, day, entry, job, figures) VALUES (?, ?, ?, ?, ?)");
  insert.bind(1, vehicle);
  insert.bind(2, day.iso());
  if (bought_by != 0)
    insert.bind(3, bought_by);
  else
    insert.bind(3);
  insert.bind(4, job);
  insert.bind(5, figures);
  insert.exec();
  return recording.book().database().getLastInsertRowid();
}

std::vector<KeptAppraisal> appraisals_of(const Book& book, const std::string& vehicle) {
  std::vector<KeptAppraisal> all;
  auto& find = book.query(
      "SELECT appraisal, day, coalesce(entry, 0), job, figures FROM appraisal WHERE vehicle = ? ORDER BY "
      "appraisal");
  find.bind(1, vehicle);
  while (find.executeStep())
    all.push_back({find.getColumn(0).getInt64(), Day::parse(find.getColumn(1).getString()),
                   find.getColumn(2).getInt64(), find.getColumn(3).getString(),
                   find.getColumn(4).getString()});
  return all;
}

std::optional<KeptAppraisal> appraisal_in_force(const Book& book, const std::string& vehicle,
                                                std::optional<Day> on) {
  const Life life = life_of(book, vehicle, on);
  std::optional<KeptAppraisal> in_force;
  for (KeptAppraisal& each : appraisals_of(book, vehicle)) {
    if (life.bought != 0 && each.bought_by == life.bought) return each;
    if (on && each.day > *on) continue;
    if (each.bought_by == 0 && (life.bought == 0 || each.day <= life.bought_day)) in_force = std::move(each);
  }
  return in_force;
}

}  // namespace nonrunner::book
