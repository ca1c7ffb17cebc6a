// What an amount about a car was for: the words of the table `purpose`, and the kind of money that each is.
#pragma once
#include <string_view>

#include "figures/money_kind.h"

namespace nonrunner::book {

// A word that no purpose has is a fault of the program.
figures::MoneyKind kind_of_purpose(std::string_view word);

}  // namespace nonrunner::book
