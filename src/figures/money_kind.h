// What a line of money about a car is: one list for the book, its answers and the workbooks.
#pragma once

namespace nonrunner::figures {

enum class MoneyKind {
  purchase,  // the price paid
  fee,       // title, tow, yard entrance, inspection
  part,
  consumable,  // bought for it or drawn from the shelf
  sublet,
  paid_hours,
  other_cost,    // transfers between cars, parts put on the shelf, cores that came back short
  recovered,     // parts sold off, scrap
  selling_cost,  // advert, forms
  commission,
  deposit_kept,
  sale,     // the sale price, once
  due_back  // cores, tool deposits, a buyer's deposit: money that goes and comes back, no part of the profit
};

// What is put into a car beside its price: what a budget is compared with.
constexpr bool is_cost(MoneyKind kind) {
  switch (kind) {
    case MoneyKind::fee:
    case MoneyKind::part:
    case MoneyKind::consumable:
    case MoneyKind::sublet:
    case MoneyKind::paid_hours:
    case MoneyKind::other_cost:
      return true;
    case MoneyKind::purchase:
    case MoneyKind::recovered:
    case MoneyKind::selling_cost:
    case MoneyKind::commission:
    case MoneyKind::deposit_kept:
    case MoneyKind::sale:
    case MoneyKind::due_back:
      return false;
  }
  return false;
}
// What stands on its account of costs: the price as well.
constexpr bool is_put_into_a_car(MoneyKind kind) { return kind == MoneyKind::purchase || is_cost(kind); }

}  // namespace nonrunner::figures
