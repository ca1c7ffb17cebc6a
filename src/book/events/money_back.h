// Where money goes that a supplier gives back for a line (a return, a core): off what is still owed to that
// supplier where the line's paper was on account, as far as that reaches; the rest into a purse.
//
//   payable of the supplier + on_account   purse + into_purse
#pragma once
#include <optional>
#include <string>

#include "book/ledger/line.h"

namespace nonrunner::book {

struct MoneyBack {
  Money on_account, into_purse;
  std::string purse;  // empty where nothing goes into one and none was said
};
// As the person says it (a purse alone takes all of it; `on_account` as much as it says), else the rule
// above and the purse that paid the line's paper, or that last paid its supplier. Refused: more off the
// account than comes back or is owed, below 0, or money for which no purse can be told.
MoneyBack money_back(const Book&, const std::string& event, const Line&, Money amount,
                     const std::string& purse, std::optional<Money> on_account);
void post(Draft&, Recording&, const std::string& event, const Line&, const MoneyBack&);
// As the entry keeps it: decided once, so that it is the same whenever its text is read again.
void keep(const MoneyBack&, std::optional<Money>& on_account, std::string& purse);
// "20.00 USD off what is owed to Harrow, 40.00 USD into cash"
std::string in_words(const MoneyBack&, const Line&, const Currency&);

}  // namespace nonrunner::book
