// The car of the small job, bought: entry 1 is the owner's money, entry 2 the purchase at 900. The lines of its budget:
//   money  1 fees 100, 2 opening up 10, 3 set 118, 7 wing 55
//   hours  6 opening up 2, 4 operation 1 7, 5 operation 2 2, 8 wing 2
// Amounts that follow are worked out by hand beside each check.
#pragma once
#include <optional>
#include <string>

#include "answers/car_of_small_job.h"
#include "answers/question.h"
#include "exact/money.h"

namespace nonrunner::answers {

class Pip : public book::Shop {
 public:
  explicit Pip(const std::string& job = certain_job()) {
    keep_job(*this, job);
    post(
        "{ do = \"owner in\", date = 2025-06-01, purse = \"cash\", amount = 3000.00 }, "
        "{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 900.00, purse = \"cash\" }");
  }
  // A quick line, or a whole receipt, of one thing.
  book::EntryId bought(const std::string& what, const std::string& amount,
                       const std::string& more = "itemised = false", const std::string& of_line = "") {
    return post("{ do = \"receipt\", date = 2025-06-05, paid = \"cash\", total = " + amount + ", " + more +
                ", line = [{ what = \"" + what + "\", amount = " + amount +
                ", kind = \"part\", to = \"pip\"" + of_line + " }] }");
  }
};

inline std::string shown(Money amount) { return amount.plain(Currency()); }

// All of a question: "receipt: words? y words (option value); n ... [y]".
inline std::string told(const std::optional<Question>& question) {
  if (!question) return "nothing";
  std::string all = question->about + ": " + question->words + "?";
  for (const Choice& each : question->choices) {
    all += "\n" + each.key + ": " + each.words;
    if (!each.option.empty()) all += " (" + each.option + (each.value.empty() ? "" : " " + each.value) + ")";
  }
  if (question->usual) all += "\n[" + question->choices[*question->usual].key + "]";
  return all;
}

}  // namespace nonrunner::answers
