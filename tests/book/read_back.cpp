// An export is entered again and compared with its book: what differs is named, and what cannot be entered is said.
#include "book/care/read_back.h"

#include <fstream>
#include <iterator>

#include "book/care/export.h"
#include "book/events/comparables.h"
#include "book/events/finding.h"
#include "book/full_shop.h"
#include "book/ledger/settings.h"

using namespace nonrunner;
using namespace nonrunner::book;
namespace fs = std::filesystem;
using Differences = std::vector<std::string>;

namespace {

struct Exporting : FullShop {
  Exporting() {
    record([](Recording& recording) {
      set(recording, "hour", "20");
      keep_comparable(recording, {0, "teal", usd("900"), true, Distance::parse("90000"), 2012,
                                  Quantity::of(3000), on("2025-02-01"), "by the church"});
    });
    export_to(book(), out, true, today);
  }
  Differences differences() {
    const RestoreWith with{now, today, [](const Book&) { return Appraise(); }, {}};
    const Differences all = read_back(book(), out, folder() / "again.book", with).differences;
    for (const auto& each : fs::directory_iterator(folder()))
      CHECK(each.path().filename().string().find("again") == std::string::npos);
    return all;
  }
  // Changes the file as somebody else, or a disk, might.
  void change(const std::string& name, const std::string& before, const std::string& now_it_is) {
    std::ifstream in(out / name, std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(in), {}};
    const auto at = text.find(before);
    REQUIRE(at != std::string::npos);
    text.replace(at, before.size(), now_it_is);
    std::ofstream(out / name, std::ios::binary | std::ios::trunc) << text;
  }
  fs::path out = folder() / "out";
};

}  // namespace

TEST_CASE("an export that makes the same book has nothing apart, and leaves nothing behind",
          "[book][read back]") {
  Exporting shop;
  CHECK(shop.differences() == Differences{});
  const RestoreWith with{shop.now, shop.today, [](const Book&) { return Appraise(); }, {}};
  const Exported exported = export_to(shop.book(), shop.folder() / "whole", false, shop.today, {}, &with);
  CHECK(exported.apart == Differences{});
  CHECK(fs::exists(shop.folder() / "whole/entries.csv"));
  for (const auto& each : fs::directory_iterator(shop.folder() / "whole"))
    CHECK(each.path().filename().string().find("again") == std::string::npos);
}

TEST_CASE("facts of one note make the same book again, in whatever order they were typed",
          "[book][read back]") {
  Exporting shop;
  const Finding typed{on("2025-03-04"),
                      "pip",
                      "looked at it all",
                      {{fact::same, "lamp", "lamps"},
                       {fact::not_there, "jack", ""},
                       {fact::seen, "pressure", "holds"},
                       {fact::failed, "hose", ""},
                       {fact::cause, "pump", ""},
                       {fact::seen, "smell", "sweet"},
                       {fact::ruled_out, "belt", ""}}};
  shop.record([&](Recording& recording) { record(recording, typed); });
  export_to(shop.book(), shop.folder() / "facts", true, shop.today);
  shop.out = shop.folder() / "facts";
  CHECK(shop.differences() == Differences{});
}

TEST_CASE("what an export says otherwise is named, table by table", "[book][read back]") {
  Exporting shop;
  shop.change("events.toml", "amount = 1000.00", "amount = 1001.00");
  const Differences all = shop.differences();
  REQUIRE(all.size() == 3);
  CHECK(all[0] ==
        "events: entry 1: \"...\"cash\", amount = 1000.00 }\", and \"...\"cash\", amount = 1001.00 }\" when "
        "it is "
        "entered again");
  CHECK(all[1] ==
        "postings: entry 1: \"...| purse | cash | 100000 | nothing | nothing\", and \"...| purse | cash | "
        "100100 | "
        "nothing | nothing\" when it is entered again");
  CHECK(all[2] ==
        "accounts: \"owner |  | -100000 | 0\", and \"owner |  | -100100 | 0\" when it is entered again");
}

TEST_CASE("a desk that did not come along is named, and an event that is refused says why",
          "[book][read back]") {
  Exporting shop;
  shop.change("comparables.csv", "by the church", "by the chapel");
  const Differences desk = shop.differences();
  REQUIRE(desk.size() == 1);
  CHECK(
      desk.front() ==
      "comparables: \"...25-02-01 | by the church\", and \"...25-02-01 | by the chapel\" when it is entered "
      "again");
  shop.change("events.toml", "price = 300.00", "price = -3");
  const Differences refused = shop.differences();
  REQUIRE(refused.size() == 1);
  CHECK(refused.front().find("it cannot be entered again as it is: events.toml:") == 0);
}

TEST_CASE(
    "a heading of a line that counts no more stays behind in its book, and the export makes the rest again",
    "[book][read back]") {
  FullShop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-12, supplier = "Cleave Yard", number = "3072", paid = "cash", total = 9.00, line = [
                 { id = "hose", what = "hose", amount = 9.00, kind = "part", to = "pip" }] })");
  const EntryId paper = last_entry(shop.book());
  shop.post(R"({ do = "under", vehicle = "pip", line = "hose", heading = "cooling" },
               { do = "under", vehicle = "pip", line = "alt", heading = "charging" })");
  shop.post("{ do = \"void\", date = 2025-03-13, entry = " + std::to_string(paper) +
            ", why = \"not mine\" }");
  const RestoreWith with{shop.now, shop.today, [](const Book&) { return Appraise(); }, {}};
  CHECK(export_to(shop.book(), shop.folder() / "out", true, shop.today, {}, &with).apart == Differences{});
}

TEST_CASE("what was looked for in vain comes back whole, whatever marks its name holds",
          "[book][read back]") {
  Shop shop, again;
  Finding finding{on("2025-03-10"), "pip", "looked for seals", {}};
  finding.facts = {{fact::not_there, "seal 40=60", "Cleave Yard"},
                   {fact::not_there, "seal 40=62", ""},
                   {fact::not_there, "gasket", ""}};
  shop.record([&](Recording& recording) { record(recording, finding); });
  CHECK(load_entry(shop.book(), 1)
            .event.find(R"(not_there = ["seal 40=60=Cleave Yard", "seal 40=62=", "gasket"])") !=
        std::string::npos);
  again.post(load_entry(shop.book(), 1).event);
  const auto there = findings(again.book(), "pip");
  REQUIRE(there.size() == 1);
  REQUIRE(there[0].facts.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(there[0].facts[i].name == finding.facts[i].name);
    CHECK(there[0].facts[i].value == finding.facts[i].value);
  }
}
