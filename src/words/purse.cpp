#include "words/purse.h"

#include <fmt/format.h>

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

std::string amounts_in_words(answers::MovedThrough through, const Currency& currency) {
  through.in_several = true;
  return in_words(through, currency);
}

std::vector<std::string> below_nothing(const std::vector<answers::Moved>& purses, const Currency& currency) {
  std::vector<std::string> said;
  for (const answers::Moved& each : purses)
    said.push_back(fmt::format("{} is at {} with that", each.purse, each.amount.shown(currency)));
  return said;
}

}  // namespace nonrunner::words
