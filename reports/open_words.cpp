#include "reports/open_words.h"

#include <fmt/format.h>

namespace nonrunner::reports {

namespace {

std::string in_words(const figures::Open& open, const Currency& currency) {
  switch (open.kind) {
    case figures::Open::Kind::due:
      return fmt::format("{}: {}{}", open.what, open.amount.shown(currency),
                         open.from.empty() ? "" : " from " + open.from);
    case figures::Open::Kind::paper:
      return fmt::format("entry {} waits for its paper", open.entry);
    case figures::Open::Kind::deposit:
      return "a buyer's deposit is held: " + open.amount.shown(currency);
  }
  return "";
}

}  // namespace

std::vector<std::string> in_words(const std::vector<figures::Open>& all, const Currency& currency) {
  std::vector<std::string> words;
  for (const figures::Open& each : all) words.push_back(in_words(each, currency));
  return words;
}

std::string in_words(const std::vector<figures::WaitingPaper>& all, const Currency& currency) {
  std::string words;
  for (const figures::WaitingPaper& each : all)
    words += fmt::format("{}entry {}{} waits for its paper{}", words.empty() ? "" : "; ", each.entry,
                         is_zero(each.amount) ? "" : ", " + each.amount.shown(currency) + ",",
                         each.may_be ? " and may be this" : "");
  return words;
}

}  // namespace nonrunner::reports
