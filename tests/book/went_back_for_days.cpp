// A paper of which something went back, and then did not after all: for some days it had gone. Such a paper can be put right,
// but not the line that went, which is what it was on these days.
#include <fmt/format.h>

#include "book/care/export.h"
#include "book/events/correct.h"
#include "book/fixture.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

// Entry 2 is a paper of a lamp and a belt; the lamp had gone back from the fifth until the ninth.
struct WentBack : Shop {
  WentBack() {
    post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 300.00, purse = "cash" },
            { do = "receipt", date = 2025-03-03, supplier = "Harrow", number = "7", paid = "cash", total = 70.00, line = [
              { id = "lamp", what = "lamp", amount = 50.00, kind = "part", to = "pip" },
              { id = "belt", what = "belt", amount = 20.00, kind = "part", to = "pip" }] },
            { do = "return", date = 2025-03-05, line = "lamp", goods = 50.00, purse = "cash" },
            { do = "void", date = 2025-03-09, entry = 3, why = "the shop did not take it", later = true })");
  }
  static Correction of(EntryId entry, const std::string& line) {
    Correction correction;
    correction.entry = entry;
    correction.paper_line = line;
    return correction;
  }
  EntryId right(const Correction& correction) {
    EntryId made = 0;
    record([&](Recording& recording) { made = correct(recording, correction).entry; });
    return made;
  }
  std::string refused(const Correction& correction) {
    return refusal_of([&](Recording& recording) { correct(recording, correction); });
  }
  std::string costs() {
    std::string all;
    for (const char* day : {"2025-03-04", "2025-03-06", "2025-03-10"})
      all += show("pip", on(day)).cost.plain(book().currency()) + " ";
    return all;
  }
};

const std::string lamp_had_gone =
    ": of line lamp something went back from 2025-03-05 until 2025-03-09 (entry 3), expected that line as it "
    "was on "
    "these days; enter what differs as a paper of its own";

}  // namespace

TEST_CASE("of a paper of which a line had gone back for some days another line is put right",
          "[book][days]") {
  WentBack shop;
  CHECK(shop.costs() == "370.00 320.00 370.00 ");
  Correction belt = WentBack::of(2, "belt");
  belt.amount = "25";
  const EntryId once = shop.right(belt);
  CHECK(shop.costs() == "375.00 325.00 375.00 ");
  belt.entry = once;
  belt.day = on("2025-03-05");
  shop.right(belt);
  CHECK(shop.costs() == "300.00 325.00 375.00 ");
  CHECK(shop.purse("cash") == usd("-375"));
  CHECK(shop.health().findings.empty());

  std::string events;
  each_event(shop.book(),
             [&](EntryId, const std::string& event) { events += (events.empty() ? "" : ", ") + event; });
  Shop again;
  again.post(events);
  CHECK(again.show("pip", on("2025-03-06")).cost == usd("325"));
  CHECK(again.show("pip").cost == usd("375"));
  CHECK(again.health().findings.empty());
}

TEST_CASE("the line that had gone back for some days stays as it was on them", "[book][days]") {
  WentBack shop;
  Correction lamp = WentBack::of(2, "lamp");
  lamp.amount = "55";
  CHECK(shop.refused(lamp) == "correct" + lamp_had_gone);
  lamp.amount.reset();
  lamp.vehicle = "wren";
  CHECK(shop.refused(lamp) == "correct" + lamp_had_gone);
  Correction day;
  day.entry = 2;
  day.day = on("2025-03-06");
  CHECK(shop.refused(day) == "correct" + lamp_had_gone);
  // And so when it was put right before.
  Correction belt = WentBack::of(2, "belt");
  belt.amount = "25";
  lamp.entry = shop.right(belt);
  CHECK(shop.refused(lamp) == "correct" + lamp_had_gone);
  const std::string taken =
      fmt::format(R"({{ do = "void", date = 2025-03-10, entry = {}, why = "typed twice" }})", lamp.entry);
  CHECK(shop.refusal(taken) == "void" + lamp_had_gone);
  CHECK(shop.costs() == "375.00 325.00 375.00 ");
}
