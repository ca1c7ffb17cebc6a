#include "words/where_it_went.h"

#include <fmt/format.h>

namespace nonrunner::words {

const char* name_of(figures::MoneyKind kind) {
  using Kind = figures::MoneyKind;
  switch (kind) {
    case Kind::purchase:
      return "price paid";
    case Kind::fee:
      return "fees";
    case Kind::part:
      return "parts";
    case Kind::consumable:
      return "consumables";
    case Kind::sublet:
      return "work sent out";
    case Kind::paid_hours:
      return "paid hours";
    case Kind::other_cost:
      return "other costs";
    case Kind::recovered:
      return "recovered";
    case Kind::selling_cost:
      return "costs of selling";
    case Kind::commission:
      return "commission";
    case Kind::deposit_kept:
      return "deposit kept";
    case Kind::sale:
      return "sold for";
    case Kind::due_back:
      return "comes back";
  }
  return "";
}

std::string in_words(const std::vector<answers::OfKind>& all, const Currency& currency) {
  std::string text;
  const answers::OfKind* largest = nullptr;
  for (const answers::OfKind& each : all) {
    if (each.kind == figures::MoneyKind::sale) text = "it sold for " + each.amount.shown(currency);
    if (is_negative(each.amount) && (!largest || each.amount < largest->amount)) largest = &each;
  }
  if (largest)
    text += fmt::format("{}the largest that it went into is {}, {}", text.empty() ? "" : "; ",
                        name_of(largest->kind), (-largest->amount).shown(currency));
  return text;
}

std::string in_words(const std::vector<answers::StoodAt>& all, const Currency& currency) {
  if (all.empty()) return "";
  const answers::StoodAt* deepest = &all.front();
  for (const answers::StoodAt& each : all)
    if (each.sum < deepest->sum) deepest = &each;
  const Money end = all.back().sum;
  return fmt::format("deepest on {}: {} out of pocket; {} {} on {}", deepest->day.iso(),
                     (is_negative(deepest->sum) ? -deepest->sum : Money{}).shown(currency),
                     (is_negative(end) ? -end : end).shown(currency),
                     is_negative(end) ? "still out" : "in hand", all.back().day.iso());
}

}  // namespace nonrunner::words
