// One thing at a time: what comes next for a car, from the first look to its report.
#include "answers/next_step.h"

#include "answers/pip.h"
#include "book/questions/board.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

std::string next(Pip& pip, const std::string& tag = "pip") {
  using What = NextStep::What;
  for (const book::BoardRow& row : book::board(pip.book(), pip.today)) {
    if (row.tag != tag) continue;
    const auto step = next_step(row.state, row.in_pieces, budget_of(pip.book(), tag));
    if (!step) return "nothing";
    const char* names[] = {"decide",     "report", "sell parts", "sell",
                           "find cause", "work",   "buy",        "advertise"};
    static_assert(static_cast<int>(What::advertise) == 7);
    return names[static_cast<int>(step->what)] + (step->name.empty() ? "" : ": " + step->name);
  }
  return "no such car";
}

}  // namespace

TEST_CASE("what comes next goes from the cause to the work, the things to buy, the advert and the sale",
          "[answers]") {
  Pip pip;
  pip.post("{ do = \"finding\", date = 2025-06-03, vehicle = \"wren\", text = \"asked 700\" }");
  CHECK(next(pip, "wren") == "decide");
  CHECK(next(pip) == "find cause");
  pip.post("{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"wet\", cause = \"gasket\" }");
  CHECK(next(pip) == "work: operation 1");
  const auto done = [&](const std::string& line) {
    pip.post("{ do = \"done\", date = 2025-06-04, vehicle = \"pip\", lines = [\"" + line + "\"] }");
  };
  for (const char* each : {"operation 1", "operation 2"}) done(each);
  CHECK(next(pip) == "work: wing");
  done("wing");
  CHECK(next(pip) == "buy: fees");
  done("fees");
  CHECK(next(pip) == "buy: set");
  done("set");
  CHECK(next(pip) == "advertise");
  pip.post("{ do = \"advertised\", date = 2025-06-05, vehicle = \"pip\", price = 2900.00 }");
  CHECK(next(pip) == "sell");
  pip.post("{ do = \"sell\", date = 2025-06-06, vehicle = \"pip\", price = 2800.00, purse = \"cash\" }");
  CHECK(next(pip) == "report");
}

TEST_CASE("of a car in pieces the parts are sold next, and of one without any plan nothing is known",
          "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"part out\", date = 2025-06-04, vehicle = \"pip\", still_brings = 500.00 }, "
      "{ do = \"buy\", date = 2025-06-04, vehicle = \"teal\", price = 100.00, purse = \"cash\" }");
  CHECK(next(pip) == "sell parts");
  CHECK(next(pip, "teal") == "nothing");
}

TEST_CASE("what is not certain is not the next step, and a car that cannot be put right has none",
          "[answers]") {
  const std::string found =
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"wet\", cause = ";
  {
    Pip pip;
    pip.post(found + "\"pump\" }");  // which has no correction
    CHECK(next(pip) == "nothing");
  }
  {
    // The engine is come to in one case of five.
    Pip pip(appraisal::with(appraisal::small_job, "works = 0.8\n",
                            "works = 0.8\notherwise = \"engine\"\n[[correction]]\nname = "
                            "\"engine\"\noperations = [{ name = \"swap\", "
                            "hours = 9 }]\nparts = [{ name = \"engine\", qty = 1, new = 500 }]\n"));
    pip.post(found + "\"gasket\" }");
    pip.post(
        "{ do = \"done\", date = 2025-06-04, vehicle = \"pip\", lines = [\"operation 1\", \"operation 2\", "
        "\"wing\", "
        "\"fees\", \"set\"] }");
    CHECK(next(pip) == "advertise");
  }
  {
    // Planned by hand and never appraised: there is no cause to find.
    Pip pip;
    pip.post(
        "{ do = \"buy\", date = 2025-06-04, vehicle = \"teal\", price = 100.00, purse = \"cash\" }, "
        "{ do = \"plan\", date = 2025-06-05, vehicle = \"teal\", name = \"battery\", amount = 45.00 }");
    CHECK(next(pip, "teal") == "buy: battery");
  }
  {
    // The likeliest cannot be put right, another one can: find which it is.
    Pip pip(appraisal::with(certain_job(), "odds = 1\n", "odds = 9\n"));
    CHECK(next(pip) == "find cause");
  }
}
