// A quick line that is kept without a word: that its name is to come is a fact of its own, whatever it is called till
// then.
#include "book/events/correct.h"
#include "book/fixture.h"
#include "book/questions/entry_now.h"
#include "book/questions/lately.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

std::string quick(const std::string& what, const std::string& more = "") {
  return "{ do = \"receipt\", date = 2025-06-05, paid = \"cash\", total = 12.00, itemised = false, line = [{ "
         "what = "
         "\"" +
         what + "\", amount = 12.00, kind = \"part\", to = \"pip\"" + more + " }] }";
}

}  // namespace

TEST_CASE("a line without a name is offered to nobody, and has a name once it is put right", "[book]") {
  Shop shop;
  shop.post("{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 900.00, purse = \"cash\" }");
  shop.post(quick("hose"));
  const EntryId entry = shop.post(quick("not named yet", ", unnamed = true"));
  CHECK(quick_line_of(shop.book(), entry)->unnamed);
  CHECK(bought_lately(shop.book()) == std::vector<std::string>{"hose"});
  EntryId named = 0;
  shop.record([&](Recording& recording) {
    Correction correction;
    correction.entry = entry;
    correction.what = "clip";
    named = correct(recording, correction).entry;
  });
  CHECK_FALSE(quick_line_of(shop.book(), named)->unnamed);
  CHECK(quick_line_of(shop.book(), named)->what == "clip");
  CHECK(load_entry(shop.book(), named).event.find("unnamed") == std::string::npos);
  CHECK(bought_lately(shop.book()) == std::vector<std::string>{"clip", "hose"});
}

TEST_CASE("what somebody chose to call so is a name like any other", "[book]") {
  Shop shop;
  shop.post("{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 900.00, purse = \"cash\" }");
  const EntryId entry = shop.post(quick("not named yet"));
  CHECK_FALSE(quick_line_of(shop.book(), entry)->unnamed);
  CHECK(bought_lately(shop.book()) == std::vector<std::string>{"not named yet"});
}

TEST_CASE("a line that the page kept before it was a fact that it has no name has none", "[book]") {
  Shop shop;
  shop.post("{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 900.00, purse = \"cash\" }");
  std::string kept = quick("not named yet");
  kept.replace(kept.rfind(" }"), 2, ", kept_as = \"0123456789abcdef0123456789abcdef\" }");
  const EntryId entry = shop.post(kept);
  CHECK(quick_line_of(shop.book(), entry)->unnamed);
  CHECK(bought_lately(shop.book()).empty());
  EntryId moved = 0;
  shop.record([&](Recording& recording) {
    Correction correction;
    correction.entry = entry;
    correction.day = on("2025-06-04");
    moved = correct(recording, correction).entry;
  });
  CHECK(quick_line_of(shop.book(), moved)->unnamed);
}

TEST_CASE("no more than eight names are offered, those without one not counted", "[book]") {
  Shop shop;
  shop.post("{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 900.00, purse = \"cash\" }");
  for (const char* what : {"a1", "b2", "c3", "d4", "e5", "f6", "g7", "h8", "i9"}) shop.post(quick(what));
  shop.post(quick("not named yet", ", unnamed = true"));
  CHECK(bought_lately(shop.book()) ==
        std::vector<std::string>{"i9", "h8", "g7", "f6", "e5", "d4", "c3", "b2"});
}
