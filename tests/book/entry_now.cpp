// Which entry stands in the place of one that was put right.
#include "book/questions/entry_now.h"

#include "book/events/correct.h"
#include "book/fixture.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

std::string lamp(const std::string& amount, const std::string& more = "") {
  return "{ do = \"receipt\", date = 2025-06-05, supplier = \"Harrow\", number = \"7\", paid = \"cash\", "
         "total = " +
         amount + ", line = [{ id = \"lamp\", what = \"lamp\", amount = " + amount +
         ", kind = \"part\", to = \"pip\" }]" + more + " }";
}
std::string takes_back(EntryId entry) {
  return "{ do = \"void\", date = 2025-06-05, entry = " + std::to_string(entry) +
         ", why = \"put right\", makes_way = true }, ";
}

}  // namespace

TEST_CASE("what was put right twice is found by what stands in its place now", "[book]") {
  Shop shop;
  const EntryId first = shop.post(lamp("10.00"));
  EntryId now = first;
  for (const char* amount : {"12", "14"})
    shop.record([&](Recording& recording) {
      Correction correction;
      correction.entry = now;
      correction.amount = amount;
      now = correct(recording, correction).entry;
    });
  CHECK(as_it_counts_now(shop.book(), first) == now);
  CHECK(as_it_counts_now(shop.book(), now) == now);
}

TEST_CASE("in a book in which it was not said what was put right, it is what was recorded with it",
          "[book]") {
  Shop shop;
  const EntryId first = shop.post(lamp("10.00"));
  // Two corrections within one second, which a script may make; what is bought after them is another thing.
  shop.post(takes_back(first) + lamp("12.00"));
  const EntryId once = last_entry(shop.book());
  shop.post(takes_back(once) + lamp("14.00"));
  const EntryId twice = last_entry(shop.book());
  shop.post(
      R"({ do = "receipt", date = 2025-06-05, supplier = "Cleave", number = "1", paid = "cash", total = 5.00, line = [
        { what = "clip", amount = 5.00, kind = "part", to = "pip" }] })");
  CHECK(as_it_counts_now(shop.book(), once) == twice);
  CHECK(as_it_counts_now(shop.book(), first) == twice);
}

TEST_CASE("what went back of a paper that was put right is found too, each in its order", "[book]") {
  Shop shop;
  const auto back = [](const char* day, const char* amount) {
    return std::string("{ do = \"return\", date = ") + day + ", line = \"lamp\", goods = " + amount +
           ", purse = \"cash\" }";
  };
  const auto lamps =
      R"({ do = "receipt", date = 2025-06-05, supplier = "Harrow", number = "7", paid = "cash", total = 20.00, line = [
        { id = "lamp", what = "lamp", qty = 2, amount = 20.00, kind = "part", to = "pip" }] })";
  const EntryId paper = shop.post(lamps);
  const EntryId one = shop.post(back("2025-06-06", "4.00")), other = shop.post(back("2025-06-07", "5.00"));
  const EntryId last = shop.post(takes_back(other) + takes_back(one) + takes_back(paper) + lamps + ", " +
                                 back("2025-06-06", "4.00") + ", " + back("2025-06-07", "5.00"));
  CHECK(as_it_counts_now(shop.book(), paper) == last - 2);
  CHECK(as_it_counts_now(shop.book(), one) == last - 1);
  CHECK(as_it_counts_now(shop.book(), other) == last);
}

TEST_CASE("what was taken back and stands in nobody's place is itself", "[book]") {
  Shop shop;
  const EntryId first = shop.post(lamp("10.00"));
  shop.post("{ do = \"void\", date = 2025-06-05, entry = " + std::to_string(first) +
            ", why = \"typed twice\" }, " + lamp("12.00"));
  CHECK(as_it_counts_now(shop.book(), first) == first);
}
