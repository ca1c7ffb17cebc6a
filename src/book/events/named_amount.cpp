#include "book/events/named_amount.h"

namespace nonrunner::book {

std::vector<NamedAmount> read_named_amounts(const Table& table, std::string_view key,
                                            const Currency& currency) {
  std::vector<NamedAmount> all;
  for (const Table& each : table.tables(key, "{ name, amount, purse } in " + std::string(key))) {
    each.only({"name", "amount", "purse"});
    all.push_back({each.text("name"), each.money("amount", currency), each.text_or("purse", "")});
  }
  return all;
}

void write_named_amounts(EventText& event, std::string_view key, const std::vector<NamedAmount>& amounts,
                         const Currency& currency) {
  if (amounts.empty()) return;
  std::vector<EventText> all;
  for (const NamedAmount& each : amounts)
    all.push_back(
        EventText(currency).text("name", each.name).money("amount", each.amount).text("purse", each.purse));
  event.list(key, all);
}

}  // namespace nonrunner::book
