#include "words/next_step.h"

namespace nonrunner::words {

std::string in_words(const answers::NextStep& step) {
  using What = answers::NextStep::What;
  switch (step.what) {
    case What::decide:
      return "decide";
    case What::report:
      return "report";
    case What::sell_parts:
      return "sell its parts";
    case What::sell:
      return "sell it";
    case What::find_cause:
      return "find the cause";
    case What::work:
    case What::buy:
      return step.name;
    case What::advertise:
      break;
  }
  return "advertise it";
}

}  // namespace nonrunner::words
