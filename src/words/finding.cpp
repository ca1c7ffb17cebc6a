#include "words/finding.h"

namespace nonrunner::words {

std::string in_words(const book::Fact& fact) {
  const std::string between = fact.what == book::fact::not_there ? ", at " : " = ";
  return fact.what + ": " + fact.name + (fact.value.empty() ? "" : between + fact.value);
}

}  // namespace nonrunner::words
