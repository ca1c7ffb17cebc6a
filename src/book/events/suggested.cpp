#include "book/events/suggested.h"

#include <algorithm>

#include "book/ledger/entry.h"

namespace nonrunner::book {

Money deposit_to_use(const Book& book, const std::string& vehicle, Money price) {
  return std::min(-balance_of(book, account::buyer_deposit, vehicle).amount, price);
}

SuggestedCore suggested_core(const Book& book, const BackSaid& said) {
  SuggestedCore out;
  out.line = expect_line(book, "core back", said.line);
  const Quantity left = out.line.quantity - out.line.core_back;
  out.back.day = said.day;
  out.back.line = said.line;
  out.back.quantity = said.quantity.value_or(left);
  // More than are out have no deposit.
  const bool can_be = out.back.quantity > Quantity{} && out.back.quantity <= left;
  const Money deposit = can_be ? core_deposit_of(out.line, out.back.quantity) : Money{};
  out.back.amount = said.amount.value_or(deposit);
  out.short_by = deposit - out.back.amount;
  out.money = money_back(book, "core back", out.line, out.back.amount, said.purse, said.on_account);
  out.back.purse = out.money.purse;
  out.back.on_account = out.money.on_account;
  return out;
}

SuggestedReturn suggested_return(const Book& book, const BackSaid& said) {
  SuggestedReturn out;
  out.line = expect_line(book, "return", said.line);
  out.back.day = said.day;
  out.back.line = said.line;
  out.back.quantity = said.quantity.value_or(out.line.left());
  const Refund full = full_refund(out.line, out.back.quantity);
  out.back.goods = said.goods.value_or(full.goods);
  out.back.tax = said.tax.value_or(full.tax);
  out.back.restocking = said.restocking.value_or(Money{});
  // Pieces whose core is still out take their deposit with them.
  if (full.cores > Quantity{} && !said.core_stays) out.back.core = core_deposit_of(out.line, full.cores);
  out.back.from = said.from;
  out.money =
      money_back(book, "return", out.line,
                 out.back.goods + out.back.tax - out.back.restocking + out.back.core.value_or(Money{}),
                 said.purse, said.on_account);
  out.back.purse = out.money.purse;
  out.back.on_account = out.money.on_account;
  return out;
}

}  // namespace nonrunner::book
