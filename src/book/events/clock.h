// A running clock: one word to start, one to stop. It stands in the book, so it survives restarts.
//
// Refused:  start: 1 the worker's clock runs already   2 the tag is not well formed   3 the car was left
//                  4 the operation is empty
//           stop:  1 no clock runs for the worker      2 it ran more than 12 hours and nobody says how long it really was
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/events/hours.h"

namespace nonrunner::book {

struct Clock {
  std::string worker, vehicle, operation, since;  // ISO 8601, UTC
};
std::vector<Clock> clocks(const Book&);
void start_clock(Recording&, const std::string& worker, const std::string& vehicle,
                 const std::string& operation);
// Hours from the clock to `now` (ISO 8601, UTC), rounded half up to a hundredth, at least a hundredth.
Hours hours_of(const Clock&, const std::string& now);
// Stops the clock and records the hours; `hours` overrides what the clock says.
// `operation`: what it was after all; empty: as the clock was started with.
EntryId stop_clock(Recording&, const std::string& worker, Day day, std::optional<Hours> hours,
                   const std::string& operation = {});

// Hours that this worker's devices entered while the clock runs: one person in two places, or the clock was forgotten.
std::vector<EntryId> hours_beside(const Book&, const Clock&);

}  // namespace nonrunner::book
