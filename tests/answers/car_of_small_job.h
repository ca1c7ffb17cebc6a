// A car bought by the small job of the tests of the appraisal, in the two ways that answers are asked of: what it
// needs is certain, so that every figure can be worked out by hand.
#pragma once
#include "appraisal/jobs.h"
#include "book/events/appraisals.h"
#include "book/fixture.h"

namespace nonrunner::answers {

// Its correction cures for certain and there is no trouble: 9 hours, 118 for parts, a lasting mark of 50; the fix of
// its wing 55 and 2 hours, 10 stay off. A sound one sells at 3,000 in 10 days for 40.
inline std::string certain_job() {
  using appraisal::small_job;
  std::string text = appraisal::with(small_job, "works = 0.8\n", "");
  const auto begins = text.find("[[trouble]]"), ends = text.find("[[fault]]");
  return text.erase(begins, ends - begins);
}

// Kept on the first of June, with figures as the book keeps them.
inline void keep_job(book::Shop& shop, const std::string& text, const std::string& figures = {}) {
  shop.record([&](book::Recording& recording) {
    book::keep_appraisal(recording, "pip", Day(2025, 6, 1), 0, {text, "", figures});
  });
}

}  // namespace nonrunner::answers
