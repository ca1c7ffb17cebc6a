// What an appraisal said when it was kept, read from the figures that were kept.
#include "answers/looked_at.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

TEST_CASE("a kept verdict is what was said on its day, with what was asked and the price that was the most",
          "[answers]") {
  book::Shop shop;
  keep_job(shop, certain_job(), R"({"verdict":"buy","asking":"900.00","walk_away":{"price":"1096.20"}})");
  const auto verdict = kept_verdict(shop.book(), "pip");
  REQUIRE(verdict);
  CHECK(verdict->day == Day(2025, 6, 1));
  CHECK(verdict->verdict == "buy");
  CHECK(verdict->asked == "900.00");
  CHECK(verdict->at_most == "1096.20");
  CHECK_FALSE(kept_verdict(shop.book(), "pip", Day(2025, 5, 31)));
  CHECK_FALSE(kept_verdict(shop.book(), "wren"));
}

TEST_CASE("nothing is told where no figures were kept, and no more than they hold", "[answers]") {
  for (const char* none : {"", "[1]", "{"}) {
    INFO(none);
    book::Shop shop;
    keep_job(shop, certain_job(), none);
    CHECK_FALSE(kept_verdict(shop.book(), "pip"));
  }
  book::Shop shop;
  keep_job(shop, certain_job(), R"({"verdict":"test first","walk_away":{"price":null}})");
  const auto verdict = kept_verdict(shop.book(), "pip");
  REQUIRE(verdict);
  CHECK(verdict->verdict == "test first");
  CHECK(verdict->asked.empty());
  CHECK(verdict->at_most.empty());
}
