#include "book/questions/owed.h"

#include "book/questions/figures.h"

namespace nonrunner::book {

std::vector<Owed> owed(const Book& book, std::optional<Day> on) {
  using Kind = Owed::Kind;
  std::vector<Owed> all;
  const auto add = [&](const char* account_kind, Kind kind) {
    for (const NamedBalance& each : balances(book, account_kind, on))
      if (!is_zero(each.amount))
        all.push_back({kind, kind == Kind::sales_tax ? std::string() : each.name, -each.amount});
  };
  add(account::buyer_deposit, Kind::buyer_deposit);
  add(account::payable, Kind::on_account);
  add(account::sales_tax, Kind::sales_tax);
  return all;
}

}  // namespace nonrunner::book
