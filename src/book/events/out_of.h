// What of a line that goes back comes out of which car. It stands in the event, decided when it was entered.
#pragma once
#include <string>

#include "exact/money.h"

namespace nonrunner::book {

class Fields;

struct OutOf {
  std::string vehicle;
  Money amount;
};
void fields(OutOf&, Fields&);

}  // namespace nonrunner::book
