// Appraisals kept in the book as they stood. The book does not know how they are made: it keeps the job file as
// it was given, what that left to the book (settled on its day), and the figures that it came to as JSON.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

struct AppraisedJob {
  std::string job;      // the file, whole
  std::string settled;  // TOML; empty where it left nothing to the book
  std::string figures;  // JSON; empty: not appraised
};

struct KeptAppraisal {
  std::int64_t id = 0;
  Day day;
  EntryId bought_by = 0;    // the purchase that it was kept with; 0: none
  EntryId after_entry = 0;  // the last entry of the book when it was kept
  std::string job;
  std::optional<std::string> settled;  // absent: kept before it stood apart
  std::string figures;
};

class Fields;
// The key `settled` of an event with a job file; only an export writes it, the entry does not keep it.
void settled_field(Fields&, std::optional<std::string>& settled);
// The key `came_to`, the same: the file of the figures that it came to when it was kept.
void came_to_field(Fields&, std::string& file);

// `bought_by` 0: kept for its date only.
std::int64_t keep_appraisal(Recording&, const std::string& vehicle, Day, EntryId bought_by,
                            const AppraisedJob&);
std::vector<KeptAppraisal> appraisals_of(const Book&, const std::string& vehicle);  // by day, then as kept
// The last one dated on or before the purchase, that of the purchase itself among them; of a car that was not
// bought the last one. `on`: as it stood at the end of that day.
std::optional<KeptAppraisal> appraisal_in_force(const Book&, const std::string& vehicle,
                                                std::optional<Day> on = {});
// The last one dated on or before `on`, whenever the car was bought.
std::optional<KeptAppraisal> appraisal_known(const Book&, const std::string& vehicle,
                                             std::optional<Day> on = {});

}  // namespace nonrunner::book
