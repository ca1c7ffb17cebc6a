#include "answers/made_ready.h"

#include <catch2/catch.hpp>

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
  CHECK(before.front() == "5 coolant concentrate, gal (31.50)");
  CHECK(answers::made_ready(shop.book(), "sprat", before).closed.empty());
  shop.record([&](book::Recording& recording) {
    record(recording, book::Advertised{shop.today, "sprat", Money::parse("3490", recording.currency())});
  });
  CHECK(answers::open_in_budget(shop.book(), "sprat").empty());
  const answers::MadeReady ready = answers::made_ready(shop.book(), "sprat", before);
  CHECK(ready.closed == before);
  CHECK(ready.nothing_booked == std::vector<std::string>{"windscreen cracked across",
                                                         "front tyres at the wear bars",
                                                         "front brakes worn, discs lipped"});
  CHECK(
      words::in_words(answers::MadeReady{{"4 starter (45.00)", "9 strip (1.5 h)"}, {"tyres"}}, "; reopen") ==
      std::vector<std::string>{
          "it is ready with that, and nothing more of these is to come: 4 starter (45.00); 9 strip (1.5 h); "
          "reopen",
          "it has to be put right before it is sold, and nothing is booked on it: tyres"});
}

TEST_CASE("a car without a budget has no line that an advert would close", "[answers]") {
  book::Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-06-01, purse = "cash", amount = 2000.00 },
               { do = "buy", date = 2025-06-02, vehicle = "pip", price = 900.00, purse = "cash" })");
  CHECK(answers::open_in_budget(shop.book(), "pip").empty());
  CHECK(words::in_words(answers::made_ready(shop.book(), "pip", {})).empty());
}
