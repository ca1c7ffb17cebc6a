// The parts of a job file that say what a sound car sells for by comparables:
//
//   [value]
//   grade = 3                   # of the subject when sound, 1 rough .. 5 spotless; 3 if absent
//   from  = "book"              # also those of the book that fit; "rows": the file's alone, as if absent
//   [value.slopes]              # or: slopes = "flat", for nothing believed at all (least squares)
//   odometer = [-0.04, 0.04]    # share of the median price for each 10,000 more, give or take; or "flat"
//   year     = [0.05, 0.05]     # for each year younger
//   grade    = [0.06, 0.06]     # for each grade better
//   spread   = [0.07, 3]        # of single cars about the line: share, counting as so many cars; or "flat"
//   [[comparable]]
//   price = 3900
//   kind = "asking"             # asking | sold
//   odometer = 88000
//   year = 2012
//   grade = 3
//   date, note                  # may stand beside; they change nothing, and neither does
//   book = 3                    # its number among those of the book, where it comes from there
//
// Every mistake throws Refusal with file, line, key, what was found and what was expected.
#pragma once
#include <optional>
#include <vector>

#include "exact/currency.h"
#include "resale/comparables.h"
#include "text/table.h"

namespace nonrunner::resale {

struct Basis {
  Subject subject;
  SlopePriors priors;
  std::vector<Comparable> comparables;
  bool from_book = false;
};

// How a comparable is called where it is pointed out: `place` is "of the book" with its number, or the line
// of a file.
std::string called(const std::string& place, Money price, const Currency&, Distance odometer,
                   std::optional<Day> seen);

// `root` is the whole file. Absent where [value] says `sound`; refused where it says so and there are
// comparables too, or `slopes` or `from`; refused where it says nothing and there is no comparable. With
// comparables, [vehicle] needs year and odometer. Keys of [value] that are not named above are the caller's.
std::optional<Basis> read_basis(const Table& root, const Currency&);

}  // namespace nonrunner::resale
