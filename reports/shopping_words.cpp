#include "reports/shopping_words.h"

#include <fmt/format.h>

namespace nonrunner::reports {

namespace {
std::string in_percent(double chance) { return fmt::format("{:.3g} %", chance * 100); }
}  // namespace

std::string when_needed(const figures::ShoppingLine& line, const Currency& currency) {
  if (line.other_cause) return "only if it is another cause, " + in_percent(*line.other_cause);
  std::string text;
  if (line.reached < 1)
    text = fmt::format("only if \"{}\" does not hold, {}", line.after, in_percent(line.reached));
  if (line.bad > 0)
    text += fmt::format("{}if it is bad ({}): {} at {}", text.empty() ? "" : "; ", in_percent(line.bad),
                        line.again_is_new ? "new" : "another", line.again.shown(currency));
  return text;
}

std::string in_words(const figures::WaitingReceipt& receipt, const Currency& currency) {
  return fmt::format("{}: entry {}, {} {}", receipt.vehicle, receipt.entry, receipt.total.shown(currency),
                     receipt.what);
}

}  // namespace nonrunner::reports
