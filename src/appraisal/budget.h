// Which line of the estimate a booked line falls under, by their words.
//
// The same name (letters and digits, case aside) comes first. Then, for fixes, the fault or the fix that
// shares the most words with the booked line, words of four letters and more, common ones (front, left, pair,
// new ...) and endings aside. A sublet or a fee without a match goes with the line before it on the same
// paper, where that one had a match: fitting goes with the tyre. Fees of the purchase, and a title or a tow
// on a paper of its own, fall under the fees. Nothing else is guessed: what has no match is not in the
// estimate at all, which is what a person wants to see first. Common practice, no source.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "appraisal/estimate.h"

namespace nonrunner::appraisal {

struct Booked {
  std::string what;
  std::string paper;         // lines of one paper follow one another
  bool rides_along = false;  // a sublet or a fee
  bool is_fee = false;
};

// For each booked line the place of its line in estimate.lines.
std::vector<std::optional<std::size_t>> under_lines(const Estimate&, const std::vector<Booked>&);
// The place in estimate.work of the operation that hours were booked on.
std::optional<std::size_t> under_work(const Estimate&, const std::string& operation);

}  // namespace nonrunner::appraisal
