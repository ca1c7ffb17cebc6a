// What an event is filled in with where a person leaves it out, alike on every surface: the form of a page shows it,
// the command line takes it. What cannot be is left for the event to refuse.
#pragma once
#include <optional>
#include <string>

#include "book/events/core_back.h"
#include "book/events/goods_back.h"

namespace nonrunner::book {

// Of a sale: a deposit that is held is used, up to the price; forgetting it would count the money twice.
Money deposit_to_use(const Book&, const std::string& vehicle, Money price);

// What is said of cores, or of goods, of a line that go back.
struct BackSaid {
  Day day;
  std::string line;
  std::optional<Quantity> quantity;             // else all that are out, or left
  std::optional<Money> amount;                  // of cores: else their deposit
  std::optional<Money> goods, tax, restocking;  // of goods: else in full, and nothing kept
  bool core_stays = false;                      // of goods: the deposit does not come along
  std::string from;                             // of a tool: the car that it was charged to
  std::string purse;                            // this and the next: else as money_back.h says
  std::optional<Money> on_account;
};

struct SuggestedCore {
  CoreBack back;
  Line line;
  MoneyBack money;
  Money short_by;  // of the deposit
};
SuggestedCore suggested_core(const Book&, const BackSaid&);

struct SuggestedReturn {
  GoodsBack back;
  Line line;
  MoneyBack money;
};
SuggestedReturn suggested_return(const Book&, const BackSaid&);

}  // namespace nonrunner::book
