#include "words/in_words.h"

namespace nonrunner::words {

std::string in_words(const book::Owed& owed) {
  switch (owed.kind) {
    case book::Owed::Kind::buyer_deposit:
      return "buyer's deposit on " + owed.name;
    case book::Owed::Kind::on_account:
      return "on account at " + owed.name;
    case book::Owed::Kind::sales_tax:
      return "sales tax collected";
  }
  return "";
}

}  // namespace nonrunner::words
