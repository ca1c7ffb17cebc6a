#include "words/due.h"

namespace nonrunner::words {

std::string called(figures::DueKind kind, const std::string& what) {
  switch (kind) {
    case figures::DueKind::named:
      return what;
    case figures::DueKind::core:
      return "core of " + what;
    case figures::DueKind::tool_deposit:
      return "deposit on " + what;
    case figures::DueKind::credit:
      return "credit in the purse " + what;
  }
  return what;
}

}  // namespace nonrunner::words
