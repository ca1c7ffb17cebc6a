// A cost or fee with its name, as the events that carry several of them write it: `fees` of a purchase,
// `costs` of a sale.
#pragma once
#include <string>

#include "exact/money.h"

namespace nonrunner::book {

class Fields;

struct NamedAmount {
  std::string name;
  Money amount;
  std::string purse;  // empty: that of the event
};
void fields(NamedAmount&, Fields&);

}  // namespace nonrunner::book
