// What a device takes along so that its page is of use with the house out of reach: lists to choose from, what is due,
// what is to be bought; as JSON for its script. Keys stay, others may come beside them; money is a decimal string.
#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "exact/currency.h"
#include "figures/shopping.h"

namespace nonrunner::words {

// The form that brings something back: a core, goods, the deposit on a tool. The room at home and the device show the same.
struct BackForm {
  struct Asked {
    std::string name, label, value;
  };
  std::string by, left, what;  // until when, how long that is from now, what and from where
  std::string says() const { return by + ": " + what; }  // right on any later day too
  std::string cannot;                                    // why there is no form for it; empty: there is one
  std::vector<std::pair<std::string, std::string>> fields;  // that nobody has to see
  std::vector<Asked> asked;                                 // numbers, as they stand in it
  std::optional<std::string> purse;                         // asked for where it is there: the likeliest
  std::string button;
};

struct AwayWork {
  std::string vehicle, operation, says;
};

struct AwayLists {
  std::string as_of;  // ISO 8601, UTC
  Currency currency;
  std::vector<std::string> cars, purses, words, suppliers;
  std::string car, purse;                  // the likeliest
  std::vector<BackForm> due, may_go_back;  // by last day
  std::vector<AwayWork> work;              // open lines of own hours
  std::string clock_on, clock_since;       // where this person's clock runs in the house, and since when
  std::vector<figures::ShoppingLine> shopping;
  std::vector<std::string> looked_at;  // cars before their sellers, which can be taken along
};
std::string to_json(const AwayLists&);

}  // namespace nonrunner::words
