// A named amount beside a price: a fee on a purchase, a cost on a sale; each may come from a purse of its
// own.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/event_text.h"
#include "text/table.h"

namespace nonrunner::book {

struct NamedAmount {
  std::string name;
  Money amount;
  std::string purse;  // empty: the purse of the event
};
std::vector<NamedAmount> read_named_amounts(const Table&, std::string_view key, const Currency&);
void write_named_amounts(EventText&, std::string_view key, const std::vector<NamedAmount>&, const Currency&);

}  // namespace nonrunner::book
