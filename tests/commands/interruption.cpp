#include <signal.h>

#include <catch2/catch.hpp>
#include <sstream>

#include "commands/terminal.h"

using namespace nonrunner;
using commands::Interrupted;
using commands::Progress;

namespace {
// What this process did about the two signals before a case began.
class SignalsAsBefore {
 public:
  SignalsAsBefore() {
    // Where the tests were begun in the background it is ignored, and a Progress would leave it so.
    struct sigaction usual {};
    usual.sa_handler = SIG_DFL;
    sigaction(SIGINT, &usual, &interrupt_);
    sigaction(SIGTERM, &usual, &terminate_);
  }
  ~SignalsAsBefore() {
    sigaction(SIGINT, &interrupt_, nullptr);
    sigaction(SIGTERM, &terminate_, nullptr);
  }
  SignalsAsBefore(const SignalsAsBefore&) = delete;
  SignalsAsBefore& operator=(const SignalsAsBefore&) = delete;

 private:
  struct sigaction interrupt_ {
  }, terminate_{};
};
}  // namespace

TEST_CASE("the first Ctrl-C is answered while the work is under way", "[commands]") {
  const SignalsAsBefore afterwards;
  std::ostringstream out, err;
  commands::Terminal terminal{out, err, false, false, Day(2026, 3, 1), "2026-03-01T10:00:00Z", {}};
  for (const int number : {SIGINT, SIGTERM}) {
    Progress progress(terminal, "posting");
    progress(1, 3);
    raise(number);
    try {
      progress(2, 3);
      FAIL("an interruption was not answered");
    } catch (const Interrupted& by) {
      CHECK(by.signal == number);
    }
    CHECK_NOTHROW(progress(3, 3));  // it was answered once
  }
  CHECK(out.str().empty());
  CHECK(err.str().empty());
}

// The book is closed and what was kept is told of after the last call: an end by the signal there would leave
// a person thinking that nothing was kept.
TEST_CASE("a Ctrl-C that comes when all is kept changes nothing", "[commands]") {
  const SignalsAsBefore afterwards;
  std::ostringstream out, err;
  commands::Terminal terminal{out, err, false, false, Day(2026, 3, 1), "2026-03-01T10:00:00Z", {}};
  for (const int number : {SIGINT, SIGTERM}) {
    {
      Progress progress(terminal, "posting");
      progress(3, 3);
    }
    raise(number);
  }
  // Nor is it an interruption of whatever is begun next.
  Progress progress(terminal, "posting");
  CHECK_NOTHROW(progress(1, 3));
}
