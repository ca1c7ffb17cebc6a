// Parts from a yard: how many pieces were bought, and how many of them went back. A yard takes back what is
// bad; what went back for another reason is counted with it, since papers do not say.
#pragma once
#include <optional>

#include "book/ledger/book.h"
#include "exact/thousandths.h"

namespace nonrunner::book {

struct SalvageParts {
  Quantity bought, went_back;
};
// Of lines of kind part and source salvage, of entries that count, bought before that day where one is given.
SalvageParts salvage_parts(const Book&, std::optional<Day> before = {});

}  // namespace nonrunner::book
