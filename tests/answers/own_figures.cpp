// What the shop's own cars say, car by car: worked out by hand beside each check.
#include "answers/own_figures.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;
using Catch::Matchers::WithinAbs;

namespace {

const std::string gasket =
    "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", cause = \"gasket\" }";
std::string hours(const char* day, const char* operation, const char* own) {
  return std::string(", { do = \"hours\", date = 2025-06-") + day + ", vehicle = \"pip\", operation = \"" +
         operation + "\", own = " + own + " }";
}
const std::string sold =
    ", { do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1800.00, purse = \"cash\" }";

std::string told(const std::vector<KindOfWork>& work) {
  std::string all;
  for (const KindOfWork& each : work)
    all += fmt::format("{} {} of {}; ", each.kind, each.booked, each.estimated);
  return all;
}
std::string told(const std::set<OwnCar::LeftOut>& left) {
  std::string all;
  for (const OwnCar::LeftOut& each : left)
    all += each.operation + (each.is_estimated ? " (no hours); " : " (no estimate); ");
  return all;
}

}  // namespace

TEST_CASE("the pace is hours booked against hours estimated at pace one, of what has both", "[answers]") {
  Pip pip(appraisal::small_job_with("pace = 1\n", "pace = 2\n"));
  pip.post(gasket + hours("05", "operation 1", "14") + hours("05", "opening up", "3") +
           hours("06", "wing", "4") + hours("06", "rot", "6") + hours("06", "wash", "1") + sold +
           hours("25", "operation 1", "9"));
  const OwnFigures figures = own_figures(pip.book(), Day(2025, 6, 30));
  REQUIRE(figures.cars.size() == 1);
  const OwnCar& car = figures.cars[0];
  // Estimated: 7 for the first operation, 2 for opening up, 2 for the wing, 7 for the rot.
  CHECK(car.booked_hours == 27);
  CHECK(car.operations == 4);
  CHECK_THAT(*car.pace, WithinAbs(27.0 / 18, 1e-12));
  CHECK(car.no_pace == OwnCar::NoPace::none);
  CHECK(told(car.left_out) == "operation 2 (no hours); wash (no estimate); ");
  CHECK(told(figures.work) == "corrections 14 of 7; fixes 4 of 2; opening up 3 of 2; troubles 6 of 7; ");
  CHECK(figures.causes.at("gasket").found == 1);
  CHECK_THAT(figures.causes.at("gasket").stated, WithinAbs(0.75, 1e-12));
  CHECK(figures.causes.at("pump").found == 0);
  CHECK(figures.causes.at("pump").thought == 1);
}

TEST_CASE("a car that was not sold running says nothing of the pace, and one of a day was held a day",
          "[answers]") {
  Pip pip;
  pip.post(gasket + hours("05", "operation 1", "3") +
           ", { do = \"part out\", date = 2025-06-12, vehicle = \"pip\", still_brings = 100.00 }, "
           "{ do = \"write off\", date = 2025-06-13, vehicle = \"pip\" }, "
           "{ do = \"buy\", date = 2025-06-04, vehicle = \"teal\", price = 100.00, purse = \"cash\" }, "
           "{ do = \"sell\", date = 2025-06-04, vehicle = \"teal\", price = 150.00, purse = \"cash\" }, "
           "{ do = \"receipt\", date = 2025-06-14, paid = \"cash\", total = 15.00, itemised = false, line = "
           "[{ what = \"train\", amount = 15.00, kind = \"fee\", to = \"tern\" }] }, "
           "{ do = \"pass\", date = 2025-06-15, vehicle = \"tern\" }");
  const OwnFigures figures = own_figures(pip.book(), Day(2025, 6, 15));
  REQUIRE(figures.cars.size() == 2);
  CHECK(figures.cars[0].tag == "teal");  // by the day of their end
  CHECK(figures.cars[0].held == 1);
  CHECK(figures.cars[0].no_pace == OwnCar::NoPace::no_appraisal);
  CHECK(figures.cars[1].tag == "pip");
  CHECK_FALSE(figures.cars[1].pace);
  CHECK(figures.cars[1].no_pace == OwnCar::NoPace::none);  // asked of a sold car alone
  CHECK(figures.looking.empty());                          // it counts from the day after
  CHECK(own_figures(pip.book(), Day(2025, 6, 16)).looking == std::vector<double>{15});
  CHECK(own_figures(pip.book(), Day(2025, 6, 13)).cars.size() == 1);
}

TEST_CASE("a quick pace is believed from ten operations on", "[answers]") {
  OwnFigures figures;
  figures.cars.resize(2);
  figures.cars[0].operations = 4, figures.cars[1].operations = 5;
  CHECK(figures.least_pace() == 0.25);
  figures.cars[1].operations = 6;
  CHECK(figures.least_pace() == 0.01);
}
