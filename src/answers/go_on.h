// Go on or stop, of a car in the book: the courses as the appraisal in force, what is booked and the cause
// say (appraisal/go_on.h), or courses of one's own.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "answers/known.h"
#include "answers/why_not.h"
#include "appraisal/courses.h"
#include "appraisal/go_on.h"
#include "book/ledger/book.h"
#include "book/ledger/names.h"
#include "exact/money.h"

namespace nonrunner::answers {

struct GoOnAsked {
  std::string tag;
  std::string cause;      // the one found, where the book does not know it
  std::optional<Day> on;  // as it stood at the end of that day
  // Of one's own, instead of the book's; may be looked at again when nothing is left to decide.
  std::optional<appraisal::OpenCourses> courses;
};

struct GoOnAnswer {
  std::string tag, cause;
  Currency currency;
  std::optional<Day> on;
  appraisal::GoOn result;
  Money spent;   // already, and left out, since it is the same on every course
  Hours worked;  // likewise
  bool from_book = true;
  std::optional<WhyNot> not_put_right;  // why putting right is no course; absent where it is one
  std::vector<std::string> not_needed;  // lines that can go back, since putting right has no use for them
  book::Life life;                      // as it is now
  // Troubles that nobody looked for: every course counts each by its chance.
  struct ByChance {
    std::string trouble;
    double chance = 0;
  };
  std::vector<ByChance> by_chance;
  // Where putting right is what to do and the price that was paid held the aims only by a policy that goes another way
  // with this car: that course; else absent.
  std::optional<appraisal::Course> price_rests_on;

  bool can_be_put_right() const;
};

// Whether the cause needs no word more: noted, or all but settled by the tests, or the only one that there is.
bool is_settled(const Known&);

// Throws Refusal where the car is unknown, nothing is left to decide, no appraisal is kept or no cause is
// noted.
GoOnAnswer go_on(const book::Book&, const GoOnAsked&, Day today);

}  // namespace nonrunner::answers
