// What goes with an entry that is taken back, and whether it ever stood.
#include "answers/taken_back.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

using Lines = std::vector<std::string>;

TEST_CASE("with an entry goes what it said of lines and what it found", "[answers]") {
  Pip pip;
  const book::EntryId plain = pip.bought("set", "118.00");
  CHECK(taken_back_with(pip.book(), plain, false).empty());
  CHECK(told(question_of_void(pip.book(), plain, false)) == "nothing");
  const book::EntryId hours = pip.post(
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"wing\", own = 2, done = true }");
  CHECK(taken_back_with(pip.book(), hours, false) == Lines{"the line \"wing\" of pip, done"});
  CHECK(told(question_of_void(pip.book(), hours, false)) ==
        "void: entry 4 takes back with it the line \"wing\" of pip, done; shall all of it go?\n"
        "y: all of it\nn: leave it as it is");
  const book::EntryId found = pip.post(
      "{ do = \"finding\", date = 2025-06-07, vehicle = \"pip\", text = \"oil\", cause = \"gasket\" }");
  CHECK(taken_back_with(pip.book(), found, false) == Lines{"what was found, cause: gasket"});
  CHECK(told(question_of_void(pip.book(), found, false)) == "nothing");  // that and nothing else
  const book::EntryId advert =
      pip.post("{ do = \"advertised\", date = 2025-06-08, vehicle = \"pip\", price = 2000.00 }");
  CHECK(taken_back_with(pip.book(), advert, false) ==
        Lines{"that the car is ready, so that the lines that it closed are open again"});
  CHECK(taken_back_with(pip.book(), 99, false).empty());
}

TEST_CASE("with a sale that never was goes what others got of it", "[answers]") {
  Pip pip;
  const book::EntryId sale = pip.post(
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1450.00, purse = \"cash\", costs = [{ "
      "name = "
      "\"advert\", amount = 20.00, purse = \"cash\" }] }");
  CHECK(taken_back_with(pip.book(), sale, false) == Lines{"20.00 for advert from cash"});
  CHECK(taken_back_with(pip.book(), sale, true).empty());
  CHECK(told(question_of_standing(pip.book(), sale, pip.today)) ==
        "void: entry 3 is a sale: did it stand until it was taken back, or was it typed wrong?\n"
        "s: it stood until today (later 2025-06-30)\nw: typed wrong: it counts on no day (never_was)");
}

TEST_CASE("whether an entry stood is asked of an earlier year, and not of this one", "[answers]") {
  Pip pip;
  const book::EntryId entry = pip.bought("set", "118.00");
  CHECK(told(question_of_standing(pip.book(), entry, pip.today)) == "nothing");
  CHECK(told(question_of_standing(pip.book(), entry, Day(2026, 1, 2))) ==
        "void: entry 3 is of 2025: did it stand until it was taken back, or was it typed wrong?\n"
        "s: it stood until today (later 2026-01-02)\nw: typed wrong: it counts on no day (never_was)");
  CHECK(told(question_of_standing(pip.book(), 99, pip.today)) == "nothing");
  // In a closed period both are one: it counts until the first open day.
  pip.today = Day(2026, 1, 2);
  pip.post("{ do = \"close\", date = 2025-12-31 }");
  CHECK(told(question_of_standing(pip.book(), entry, Day(2026, 1, 2))) == "nothing");
}

TEST_CASE("each word on a car and its lines goes by what it says, and only the first advert makes it ready",
          "[answers]") {
  Pip pip;
  const book::EntryId more = pip.bought("set", "40.00", "itemised = false", ", more = true");
  CHECK(taken_back_with(pip.book(), more, false) ==
        Lines{"the line \"set\" of pip, of which more was to come"});
  const book::EntryId ready = pip.post("{ do = \"done\", date = 2025-06-07, vehicle = \"pip\" }");
  CHECK(taken_back_with(pip.book(), ready, false) ==
        Lines{"that pip is ready, so that the lines that it closed are open again"});
  CHECK(told(question_of_void(pip.book(), ready, false)) == "nothing");  // that and nothing else
  pip.post("{ do = \"advertised\", date = 2025-06-08, vehicle = \"pip\", price = 2000.00 }");
  const book::EntryId second =
      pip.post("{ do = \"advertised\", date = 2025-06-09, vehicle = \"pip\", price = 1900.00 }");
  CHECK(taken_back_with(pip.book(), second, false).empty());
  pip.post("{ do = \"part out\", date = 2025-06-10, vehicle = \"pip\", still_brings = 100.00 }");
  const book::EntryId off = pip.post("{ do = \"write off\", date = 2025-06-11, vehicle = \"pip\" }");
  CHECK(told(question_of_standing(pip.book(), off, pip.today))
            .starts_with("void: entry 8 is a write-off: did it"));
}
