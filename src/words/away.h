// What a device takes along so that its page is of use with the house out of reach: lists to choose from, what is due,
// what is to be bought; as JSON for its script. Keys stay, others may come beside them; money is a decimal string.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "exact/currency.h"
#include "figures/shopping.h"

namespace nonrunner::words {

struct AwayLists {
  std::string as_of;  // ISO 8601, UTC
  Currency currency;
  std::vector<std::string> cars, purses, words, suppliers;
  std::string car, purse;        // the likeliest
  std::vector<std::string> due;  // in words, by last day
  std::vector<figures::ShoppingLine> shopping;
  std::vector<std::string> looked_at;  // cars before their sellers, which can be taken along
};
std::string to_json(const AwayLists&);

}  // namespace nonrunner::words
