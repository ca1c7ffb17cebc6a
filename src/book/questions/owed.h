// What is owed to others, by balance: buyers' deposits, papers on account, sales tax collected. `on`: at the
// end of that day. Negative where too much was paid.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/book.h"

namespace nonrunner::book {

struct Owed {
  enum class Kind { buyer_deposit, on_account, sales_tax } kind = Kind::on_account;
  std::string name;  // the car, the supplier; empty for the tax
  Money amount;
};
std::vector<Owed> owed(const Book&, std::optional<Day> on = {});

}  // namespace nonrunner::book
