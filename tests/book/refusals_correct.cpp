// Putting an entry right refuses, in the order of its header.
#include "book/events/correct.h"
#include "book/walk.h"

using namespace nonrunner::book;
using nonrunner::Day;

namespace {

// What it says; "accepted" where it would be put right.
std::string refused(Shop& shop, EntryId entry, const std::function<void(Correction&)>& change) {
  Correction correction;
  correction.entry = entry;
  change(correction);
  return shop.refusal_of([&](Recording& recording) { correct(recording, correction); });
}

const auto nothing = [](Correction&) {};
const auto in_amount = [](const char* amount) {
  return [amount](Correction& correction) { correction.amount = amount; };
};

}  // namespace

TEST_CASE("correct refuses what is no entry that counts, then a change of nothing", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "cash" },
               { do = "receipt", date = 2025-03-02, paid = { cash = 45.00 }, total = 45.00, itemised = false,
                 line = [{ what = "radiator", amount = 45.00, kind = "part", to = "pip" }] },
               { do = "receipt", date = 2025-03-02, supplier = "Cleave Yard", number = "88", replaces = 2,
                 paid = { cash = 45.00 }, total = 45.00, line = [{ what = "radiator", unit = 45.00, kind = "part", to = "pip" }] },
               { do = "owner in", date = 2025-03-03, purse = "cash", amount = 10.00 },
               { do = "void", date = 2025-03-03, entry = 5, why = "typed twice" })");
  CHECK(refused(shop, 99, in_amount("5")) ==
        "correct: entry 99: there is no such entry; see: nonrunner entries");
  CHECK(refused(shop, 6, in_amount("5")) ==
        "correct: entry 6 takes back entry 5; what counts is put right, not that");
  CHECK(refused(shop, 2, in_amount("5")) ==
        "correct: entry 2 gave its place to its paper, entry 4; put that right");
  CHECK(refused(shop, 5, in_amount("5")) ==
        "correct: entry 5 was taken back already, by entry 6; see: nonrunner entries");
  CHECK(refused(shop, 1, nothing) ==
        "correct: nothing of entry 1 is changed, expected another car, amount, day, purse, words or line of "
        "the "
        "budget");
  CHECK(refused(shop, 1, in_amount("480")) == "accepted");
}

TEST_CASE("correct refuses a key that the event has not, several purses, and lines of which none is named",
          "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 100.00 },
               { do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = { cash = 20.00, card = 25.00 }, total = 45.00, line = [
                 { id = "R1", what = "radiator", unit = 45.00, kind = "part", to = "pip" }] },
               { do = "receipt", date = 2025-03-03, supplier = "Harrow", paid = { cash = 12.00 }, total = 12.00, line = [
                 { id = "H1", what = "hose", unit = 7.00, kind = "part", to = "pip" },
                 { id = "H2", what = "clip", unit = 5.00, kind = "part", to = "pip" }] })");
  CHECK(refused(shop, 1, [](Correction& correction) { correction.vehicle = "pip"; }) ==
        "correct: entry 1 is \"owner in\", which has no car to put right");
  shop.post(R"({ do = "move", date = 2025-03-04, from = "cash", to = "bank", amount = 10.00 })");
  CHECK(refused(shop, 4, [](Correction& correction) { correction.vehicle = "pip"; }) ==
        "correct: entry 4 is \"move\", which has no car to put right");
  CHECK(
      refused(shop, 2, in_amount("40")) ==
      "correct: entry 2 was paid from 2 purses, and another amount does not say from which; take it back and "
      "enter it anew");
  CHECK(refused(shop, 2, [](Correction& correction) { correction.purse = "bank"; }) ==
        "correct: entry 2 was paid from 2 purses, expected one to put another in its place");
  CHECK(refused(shop, 3, in_amount("8")) ==
        "correct: entry 3 has the lines H1, H2, and none is named; say which one");
  CHECK(refused(shop, 3, [](Correction& correction) {
          correction.amount = "8";
          correction.paper_line = "H3";
        }) == "correct: entry 3 has the lines H1, H2, none of which is \"H3\"; say which one");
  CHECK(refused(shop, 3, [](Correction& correction) {
          correction.amount = "8";
          correction.paper_line = "H1";
        }) == "accepted");
}

TEST_CASE("correct refuses where another paper rests on it, and more own hours than a day has", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", number = "1", paid = { cash = 45.00 }, total = 45.00, line = [
                 { id = "R1", what = "radiator", unit = 45.00, kind = "part", to = "pip" }] },
               { do = "receipt", date = 2025-03-04, supplier = "Harrow", number = "2", paid = { cash = -45.00 }, total = -45.00, line = [
                 { return_of = "R1", what = "radiator", amount = -45.00 }] },
               { do = "hours", date = 2025-03-05, vehicle = "pip", operation = "strip", own = 10 },
               { do = "hours", date = 2025-03-05, vehicle = "pip", operation = "wash", own = 8 })");
  CHECK(refused(shop, 1, in_amount("40")) ==
        "correct: on the paper of entry 2 something of entry 1 went back; take that back first");
  CHECK(refused(shop, 3, in_amount("17")) ==
        "correct: with entry 3 so, 2025-03-05 has more than 24 own hours, expected at most that on one day");
  CHECK(refused(shop, 3, in_amount("16")) == "accepted");
}
