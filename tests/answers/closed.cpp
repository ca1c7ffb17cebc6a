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

TEST_CASE("a word on a name that money and hours have is of the sort that it was said with", "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"hours\", date = 2025-06-05, vehicle = \"pip\", operation = \"Wing\", own = 1, done = true }, "
      "{ do = \"done\", date = 2025-06-06, vehicle = \"pip\", lines = [\"from the yard\"], says = \"not "
      "needed\" }");
  CHECK(of(pip, "wing") == "not needed");
  CHECK(of(pip, "wing", true) == "not needed");
}

TEST_CASE("a word goes with its line where that has another name in a later appraisal", "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"done\", date = 2025-06-05, vehicle = \"pip\", lines = [\"set\"], says = \"done\" }, "
      "{ do = \"finding\", date = 2025-06-09, vehicle = \"pip\", text = \"renamed\", same = [\"set=kit\"] }");
  CHECK(of(pip, "kit") == "done");
  CHECK(of(pip, "set") == "none");
}

TEST_CASE("a car is ready by the last word on it, and what that very word keeps open stays so", "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"done\", date = 2025-06-05, vehicle = \"pip\", lines = [\"set\"], says = \"not needed\" }, "
      "{ do = \"done\", date = 2025-06-06, vehicle = \"pip\", lines = [\"fees\"], says = \"open\" }, "
      "{ do = \"advertised\", date = 2025-06-10, vehicle = \"pip\", price = 2900.00, still_to_do = "
      "[\"wing\"] }");
  CHECK(of(pip, "set") == "not needed");  // said before: a word of its own outlives it
  CHECK(of(pip, "fees") == "done");
  CHECK(of(pip, "wing") == "open");
  pip.post("{ do = \"done\", date = 2025-06-12, vehicle = \"pip\" }");
  CHECK(of(pip, "set") == "not needed");
  CHECK(of(pip, "wing") == "done");
  const Closed closed(pip.book(), "pip", line_names(pip.book(), "pip"), {});
  CHECK(closed.of("mirror", Day(2025, 6, 11), false) == Word::done);  // came up after the advert
}
