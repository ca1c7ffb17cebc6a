// What was said to be done: the last word counts, and a car made ready closes what was known by then.
#include "answers/closed.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

const char* said(Word word) {
  return word == Word::done         ? "done"
         : word == Word::not_needed ? "not needed"
         : word == Word::open       ? "open"
                                    : "none";
}
std::string of(Pip& pip, const std::string& line, bool is_hours = false, std::optional<Day> on = {}) {
  const auto names = line_names(pip.book(), "pip");
  return said(Closed(pip.book(), "pip", names, on).of(line, Day(2025, 6, 1), is_hours));
}

}  // namespace

TEST_CASE("the last word on a line counts, by day, and what is said with hours is of hours alone",
          "[answers]") {
  Pip pip;
  CHECK(of(pip, "set") == "none");
  pip.post(
      "{ do = \"done\", date = 2025-06-05, vehicle = \"pip\", lines = [\"SET\"], says = \"done\" }, "
      "{ do = \"done\", date = 2025-06-07, vehicle = \"pip\", lines = [\"set\"], says = \"open\" }, "
      "{ do = \"done\", date = 2025-06-08, vehicle = \"pip\", lines = [\"set\"], says = \"not needed\" }");
  CHECK(of(pip, "set", false, Day(2025, 6, 4)) == "none");
  CHECK(of(pip, "set", false, Day(2025, 6, 6)) == "done");
  CHECK(of(pip, "set", false, Day(2025, 6, 7)) == "open");
  CHECK(of(pip, "set") == "not needed");
  CHECK(of(pip, "set", true) == "not needed");
  pip.post(
      "{ do = \"hours\", date = 2025-06-09, vehicle = \"pip\", operation = \"wing\", own = 2, done = true }");
  CHECK(of(pip, "wing", true) == "done");
  CHECK(of(pip, "wing") == "none");
}

TEST_CASE("a ready car's lines are done but for those that came up later", "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"done\", date = 2025-06-05, vehicle = \"pip\", lines = [\"fees\"], says = \"open\" }, "
      "{ do = \"advertised\", date = 2025-06-10, vehicle = \"pip\", price = 2900.00 }");
  const auto names = line_names(pip.book(), "pip");
  const Closed closed(pip.book(), "pip", names, {});
  CHECK(closed.is_ready());
  CHECK(closed.of("set", Day(2025, 6, 1), false) == Word::done);
  CHECK(closed.of("fees", Day(2025, 6, 1), false) == Word::done);     // "still to do" of before
  CHECK(closed.of("mirror", Day(2025, 6, 10), false) == Word::done);  // known on that day
  CHECK(closed.of("mirror", Day(2025, 6, 11), false) == Word::none);
  CHECK_FALSE(Closed(pip.book(), "pip", names, Day(2025, 6, 9)).is_ready());
}

TEST_CASE("more is to come under the line of which it was said", "[answers]") {
  Pip pip;
  pip.bought("set", "40.00", "itemised = false", ", more = true");
  const auto names = line_names(pip.book(), "pip");
  const Closed closed(pip.book(), "pip", names, {});
  CHECK(closed.more_to_come("set"));
  CHECK_FALSE(closed.more_to_come("wing"));
}
