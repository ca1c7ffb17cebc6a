#include "book/events/named_amount.h"

#include "book/events/fields.h"

namespace nonrunner::book {

void fields(NamedAmount& amount, Fields& f) {
  f.text({"name", "what it is"}, Text::name, amount.name);
  f.money({"amount", "how much"}, amount.amount);
  f.text({"purse", "the purse that paid (else that of the event)", Need::may}, Text::purse, amount.purse);
}

}  // namespace nonrunner::book
