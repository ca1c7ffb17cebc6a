#include "answers/made_ready.h"

#include <catch2/catch.hpp>

#include "answers/pip.h"
#include "book/events/advertised.h"
#include "page/yard_shop.h"
#include "words/paper_places.h"

using namespace nonrunner;

TEST_CASE("what an advert closes is what was open before it and is not after it", "[answers]") {
  page::YardShop shop;
  shop.book_job("sprat", "date = 2025-03-13");
  shop.today = Day(2025, 3, 12);
  const auto before = answers::open_in_budget(shop.book(), "sprat");
  REQUIRE(before.size() > 10);
  CHECK(words::in_words({before.front()}, shop.book().currency()) == "5 coolant concentrate, gal (31.50)");
  CHECK(answers::made_ready(shop.book(), "sprat", before).closed.empty());
  shop.record([&](book::Recording& recording) {
    record(recording, book::Advertised{shop.today, "sprat", Money::parse("3490", recording.currency())});
  });
  CHECK(answers::open_in_budget(shop.book(), "sprat").empty());
  const answers::MadeReady ready = answers::made_ready(shop.book(), "sprat", before);
  CHECK(words::in_words(ready.closed, Currency{}) == words::in_words(before, Currency{}));
  CHECK(ready.nothing_booked == std::vector<std::string>{"windscreen cracked across",
                                                         "front tyres at the wear bars",
                                                         "front brakes worn, discs lipped"});
  const answers::MadeReady made{
      {{4, "starter", false, Money::of_minor(4500), 0}, {9, "strip", true, {}, 1.5}}, {"tyres"}};
  CHECK(
      words::in_words(made, Currency{}, "; reopen") ==
      std::vector<std::string>{
          "it is ready with that, and nothing more of these is to come: 4 starter (45.00); 9 strip (1.5 h); "
          "reopen",
          "it has to be put right before it is sold, and nothing is booked on it: tyres"});
  // The second one closes nothing, so that nothing is said again.
  shop.record([&](book::Recording& recording) {
    record(recording, book::Advertised{shop.today, "sprat", Money::parse("3390", recording.currency())});
  });
  const answers::MadeReady again = answers::made_ready(shop.book(), "sprat", {});
  CHECK(again.closed.empty());
  CHECK(again.nothing_booked.empty());
}

TEST_CASE("a car without a budget has no line that an advert would close", "[answers]") {
  book::Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-06-01, purse = "cash", amount = 2000.00 },
               { do = "buy", date = 2025-06-02, vehicle = "pip", price = 900.00, purse = "cash" })");
  CHECK(answers::open_in_budget(shop.book(), "pip").empty());
  CHECK(words::in_words(answers::made_ready(shop.book(), "pip", {}), Currency{}).empty());
}

namespace {

// "1 fees (100.00)", of work "4 operation 1 (7.0 h)".
std::vector<std::string> told(const std::vector<answers::StillOpen>& lines) {
  std::vector<std::string> all;
  for (const answers::StillOpen& each : lines)
    all.push_back(
        fmt::format("{} {} ({})", each.number, each.name,
                    each.is_work ? fmt::format("{:.1f} h", each.to_come) : each.if_needed.plain(Currency{})));
  return all;
}

}  // namespace

TEST_CASE(
    "open is what is needed and not done, and what was put right for nothing is told where it had to be",
    "[answers]") {
  answers::Pip pip(
      appraisal::with(answers::certain_job(), "name = \"wing\"\n", "name = \"wing\"\nmust = true\n"));
  const std::vector<answers::StillOpen> open = answers::open_in_budget(pip.book(), "pip");
  CHECK(told(open) == std::vector<std::string>{"1 fees (100.00)", "2 opening up (10.00)", "3 set (118.00)",
                                               "7 wing (55.00)", "6 opening up (2.0 h)",
                                               "4 operation 1 (7.0 h)", "5 operation 2 (2.0 h)",
                                               "8 wing (2.0 h)"});
  pip.bought("mats", "20.00", "itemised = false", ", for = \"readying\"");
  pip.post(
      "{ do = \"hours\", date = 2025-06-05, vehicle = \"pip\", operation = \"operation 1\", own = 6.98 }, "
      "{ do = \"done\", date = 2025-06-06, vehicle = \"pip\", lines = [\"fees\"] }");
  const auto after = told(answers::open_in_budget(pip.book(), "pip"));
  CHECK(std::find(after.begin(), after.end(), "1 fees (100.00)") == after.end());
  for (const std::string& each : after) {
    CHECK(each.find("readying") == std::string::npos);
    CHECK(each.find("operation 1") == std::string::npos);  // a minute is left
  }
  CHECK(told(answers::made_ready(pip.book(), "pip", open).closed) ==
        std::vector<std::string>{"1 fees (100.00)", "4 operation 1 (7.0 h)"});
  CHECK(answers::made_ready(pip.book(), "pip", open).nothing_booked.empty());  // the wing is open
  pip.post("{ do = \"done\", date = 2025-06-07, vehicle = \"pip\", lines = [\"wing\"] }");
  CHECK(answers::made_ready(pip.book(), "pip", open).nothing_booked == std::vector<std::string>{"wing"});
  pip.bought("wing", "55.00");
  CHECK(answers::made_ready(pip.book(), "pip", open).nothing_booked.empty());
}
