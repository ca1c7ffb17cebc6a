#include "book/events/quick_line.h"

#include <map>

namespace nonrunner::book {

Receipt quick_line(Receipt head, ReceiptLine line, const std::string& to) {
  static const std::map<std::string, std::string> said_by = {
      {"tools", "tool"}, {"owner", "private"}, {"overhead", "overhead"}};
  const auto said = said_by.find(to);
  if (line.kind == "stock")
    line.stock = to;
  else if (said == said_by.end())
    line.shares.push_back({to, 1000});
  else if (line.kind == "part")
    line.kind = said->second;
  head.total = line.amount.value_or(Money{}) + line.core;
  head.lines = {std::move(line)};
  return head;
}

}  // namespace nonrunner::book
