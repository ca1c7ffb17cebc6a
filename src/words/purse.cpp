#include "words/purse.h"

namespace nonrunner::words {

std::string in_words(const answers::MovedThrough& through, const Currency& currency) {
  std::string text;
  for (const answers::Moved& each : through.moved) {
    const bool out = is_negative(each.amount);
    const std::string much =
        through.in_several ? (out ? -each.amount : each.amount).shown(currency) + " " : "";
    text += (text.empty() ? "" : ", ") + much + (out ? "from " : "into ") + each.purse;
  }
  return text;
}

}  // namespace nonrunner::words
