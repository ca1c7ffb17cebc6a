// What a device takes along, so that hours, the clock and what is brought back go in away from home as they do at home.
#include <catch2/catch.hpp>

#include "book/events/clock.h"
#include "page/page_shop.h"

using namespace nonrunner;
using namespace nonrunner::page;

namespace {

struct Yard : PageShop {
  Yard() {
    Shop::post(
        R"({ do = "owner in", date = 2025-06-01, purse = "cash", amount = 3000.00 },
           { do = "owner in", date = 2025-06-01, purse = "card", amount = 3000.00 },
           { do = "buy", date = 2025-06-02, vehicle = "pip", price = 900.00, purse = "cash" },
           { do = "plan", date = 2025-06-04, vehicle = "pip", name = "strip and fill", amount = 0.00, hours = 3 },
           { do = "receipt", date = 2025-06-10, supplier = "Millgate Parts", number = "77", paid = { card = 184.00 }, total = 184.00, back_by = 2025-07-10, line = [
             { what = "coolant pump", unit = 46.00, core = 18.00, core_by = 2025-07-03, kind = "part", source = "new", to = "pip" },
             { what = "caliper", qty = 2, unit = 40.00, core = 20.00, core_by = 2025-07-04, kind = "part", source = "new", to = "pip" }] },
           { do = "tool deposit", date = 2025-06-12, supplier = "Millgate Parts", what = "puller", amount = 20.00, purse = "cash", back_by = 2025-06-28 })");
  }
  bool takes_along(const std::string& json) {
    const std::string lists = get("/away.json").body;
    INFO(lists);
    CHECK(lists.find(json) != std::string::npos);
    return lists.find(json) != std::string::npos;
  }
};

}  // namespace

TEST_CASE("a device takes along the form of each thing that comes back, with its day but no number of days",
          "[page]") {
  Yard shop;
  CHECK(shop.takes_along(R"(    {
      "says": "2025-07-03 Thu: core of coolant pump, 18.00, at Millgate Parts, pip",
      "cannot": "",
      "fields": {
        "do": "core back",
        "line": "5.1",
        "qty": "1"
      },
      "asked": [
        {
          "name": "amount",
          "label": "came back",
          "value": "18.00"
        }
      ],
      "purse": "card",
      "button": "Brought back"
    })"));
  CHECK(shop.takes_along(R"("says": "2025-06-28 Sat: deposit on puller, 20.00, at Millgate Parts")"));
  CHECK(shop.takes_along(R"(        "do": "return",
        "line": "5.2"
      },
      "asked": [
        {
          "name": "qty",
          "label": "pieces",
          "value": "2"
        },
        {
          "name": "goods",
          "label": "for the goods",
          "value": "80.00"
        })"));
  // As that form is sent.
  const book::EntryId before = shop.last();
  shop.put("/entry/00000000000000000000000000000001", {{"do", "core back"},
                                                       {"line", "5.1"},
                                                       {"qty", "1"},
                                                       {"amount", "18.00"},
                                                       {"purse", "card"},
                                                       {"day", "2025-06-29"}});
  CHECK(
      shop.event_of(before + 1)
          .starts_with(
              R"({ do = "core back", date = 2025-06-29, line = "5.1", qty = 1, amount = 18.00, purse = "card")"));
}

TEST_CASE(
    "a device takes along what is to be done on each car, and whether its person's clock runs in the house",
    "[page]") {
  Yard shop;
  CHECK(shop.takes_along(R"("clock": null)"));
  CHECK(shop.takes_along(R"(    {
      "vehicle": "pip",
      "operation": "strip and fill",
      "says": "2 strip and fill"
    })"));
  shop.record([](book::Recording& recording) { start_clock(recording, "ann", "pip", "work"); });
  CHECK(shop.takes_along(R"("clock": null)"));
  shop.person = "ann";
  CHECK(shop.takes_along(R"("clock": {
    "vehicle": "pip",
    "since": "2025-06-30T12:00:00Z"
  })"));
  const std::string page = read_aloud(shop.get("/away"));
  INFO(page);
  CHECK(page.find("Hours after work\ncar\nown hours, such as 2.5 or 1:30 []\nwhat was done [] ") !=
        std::string::npos);
}
