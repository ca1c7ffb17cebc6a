#include "words/finding.h"

#include <fmt/format.h>

#include "text/counted.h"

namespace nonrunner::words {

std::string in_words(const book::Fact& fact) {
  const std::string between = fact.what == book::fact::not_there ? ", at " : " = ";
  return fact.what + ": " + fact.name + (fact.value.empty() ? "" : between + fact.value);
}

std::string in_words(const answers::OtherCause& other, const Currency& c) {
  std::string text = other.before_holds ? fmt::format("\"{}\" was found on {}, a later day, and still counts",
                                                      other.counts, other.found_on.iso())
                                        : fmt::format("\"{}\", found on {}, counts no more",
                                                      other.counts_no_more, other.found_on.iso());
  if (other.lines.empty()) return text;
  std::string sum = is_zero(other.to_come) ? "" : other.to_come.shown(c);
  if (other.hours_to_come > 0)
    sum += (sum.empty() ? "" : " and ") + counted(fmt::format("{:.4g}", other.hours_to_come), "own hour");
  return text + fmt::format(
                    "; what only \"{}\" needs is not to come: {} ({}); if it is there as well, plan "
                    "that by hand",
                    other.counts_no_more, fmt::join(other.lines, ", "), sum);
}

}  // namespace nonrunner::words
