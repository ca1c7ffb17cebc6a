// What an appraisal expects to be bought and worked once the cause is known and the car is put right: the
// budget that the job is measured against. All expected values; hours are those really taken (the estimate
// times the expected pace).
//
// A correction that follows only where an earlier one did not work counts with the chance that it is reached.
// Sources are those of appraisal/source.h; a salvage part's price holds the chance that it is bad.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "appraisal/courses.h"
#include "appraisal/job.h"

namespace nonrunner::appraisal {

struct EstimatedLine {
  enum class Kind {
    part,
    consumable,
    sublet,
    fix,
    fees,
    opening_up,
    trouble,
    planned,
    parting_out,
    own_heading
  };
  Kind kind = Kind::part;
  std::string group;  // the correction, the fault or the trouble that it is for
  std::string what;
  std::string source;  // new, salvage, reman, repair or empty
  std::string fix;     // of a fault: how it is put right
  double qty = 1;
  double price = 0;    // of one, expected: what is stated x reached, and what a bad one costs again
  double stated = 0;   // of one, as the job file states it, of three points their mean
  double reached = 1;  // the chance that its correction is come to, where `after` did not hold
  std::string after;
  double bad = 0;  // the chance that one from a yard is, and what is paid for one then
  double again = 0;
  bool again_is_new = false;
  double core = 0;  // deposit on one, which comes back
  double cash() const { return qty * price; }
};

struct EstimatedWork {
  std::string group, operation;
  double hours = 0;  // really taken
};

struct Estimate {
  std::string cause;
  std::vector<EstimatedLine> lines;
  std::vector<EstimatedWork> work;
  double sale_price = 0;  // expected, put right with the fixes
  double selling = 0;     // costs of the sale and commission
  double commission_rate = 0;
  double fees = 0;
  double hour = 0, holding_per_day = 0;
  double days = 0;  // from the purchase
};

// What one correction takes, made for certain; parts from a yard are pulled as one piece of work.
struct Needs {
  std::vector<EstimatedLine> lines;
  std::vector<EstimatedWork> work;
};
Needs needs_of(const Job&, const Correction&);

}  // namespace nonrunner::appraisal
