// Appraisals kept in the book as they stood. The book does not know how they are made: it keeps the job file
// whole and the figures that it came to as JSON.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

struct KeptAppraisal {
  std::int64_t id = 0;
  Day day;
  EntryId bought_by = 0;  // the purchase that it is in force for; 0: none
  std::string job;
  std::string figures;
};

// `bought_by` 0: kept for its date only.
std::int64_t keep_appraisal(Recording&, const std::string& vehicle, Day, EntryId bought_by,
                            const std::string& job, const std::string& figures);
std::vector<KeptAppraisal> appraisals_of(const Book&, const std::string& vehicle);  // oldest first
// The one kept with the purchase; where the car was bought without, the last one dated on or before the
// purchase. `on`: as it stood at the end of that day.
std::optional<KeptAppraisal> appraisal_in_force(const Book&, const std::string& vehicle,
                                                std::optional<Day> on = {});

}  // namespace nonrunner::book
