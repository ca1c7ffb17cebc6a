// A part that goes to another car takes the deposit on its core with it, where its line is said.
#include <fmt/format.h>

#include "book/events/correct.h"
#include "book/events/goods_back.h"
#include "book/events/transfer.h"
#include "book/fixture.h"
#include "words/due.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {
// A sealed pump with a deposit of 18.00 bought for plover, moved to dunlin.
struct Moved : Shop {
  Moved() {
    post(R"({ do = "buy", date = 2025-03-01, vehicle = "plover", price = 300.00, purse = "cash" },
            { do = "buy", date = 2025-03-01, vehicle = "dunlin", price = 500.00, purse = "cash" },
            { do = "receipt", date = 2025-03-03, supplier = "Harrow", paid = "cash", total = 82.00, line = [
              { id = "pump", what = "coolant pump", unit = 64.00, core = 18.00, kind = "part", to = "plover" }] })");
  }
  void move(const std::string& line) {
    post(
        R"({ do = "transfer", date = 2025-03-05, from = "plover", to = "dunlin", what = "coolant pump", amount = 64.00)" +
        line + " }");
  }
  std::string due_of(const std::string& tag) {
    std::string all;
    for (const Due& each : dues(book(), {}, tag))
      all += words::called(each) + " of " + each.vehicles.front() + ";";
    return all;
  }
};
}  // namespace

TEST_CASE("what is short of a deposit becomes cost of the car that has the part", "[book]") {
  Moved shop;
  CHECK(shop.due_of("plover") == "core of coolant pump of plover;");
  shop.move(R"(, line = "pump")");
  CHECK(shop.due_of("plover").empty());
  CHECK(shop.due_of("dunlin") == "core of coolant pump of dunlin;");
  CHECK(dues(shop.book(), on("2025-03-04"), "plover").size() == 1);  // before it was moved
  CHECK(shop.show("plover").cost == usd("300.00"));
  shop.post(R"({ do = "core back", date = 2025-03-09, line = "pump", amount = 10.00 })");
  CHECK(shop.show("dunlin").cost == usd("572.00"));  // 500 + 64 + 8 that did not come back
  CHECK(shop.show("plover").cost == usd("300.00"));
  CHECK(shop.due_of("dunlin").empty());
  CHECK(shop.health().findings.empty());
}

TEST_CASE("a move that was taken back brings the deposit back to the car that bought the part", "[book]") {
  Moved shop;
  shop.move(R"(, line = "pump")");
  shop.post(R"({ do = "void", date = 2025-03-06, entry = 4, why = "another pump" })");
  CHECK(shop.due_of("plover") == "core of coolant pump of plover;");
  shop.post(R"({ do = "core back", date = 2025-03-09, line = "pump", amount = 10.00 })");
  CHECK(shop.show("plover").cost == usd("372.00"));
  CHECK(shop.show("dunlin").cost == usd("500.00"));
}

TEST_CASE("a part without its line leaves the deposit where it was, and a wrong line is refused", "[book]") {
  Moved shop;
  shop.move("");
  CHECK(shop.due_of("plover") == "core of coolant pump of plover;");
  CHECK(shop.refusal(
            R"({ do = "transfer", date = 2025-03-06, from = "dunlin", to = "plover", what = "coolant pump",
                         amount = 64.00, line = "pump" })") ==
        "transfer: line pump (\"coolant pump\") is no part of dunlin, expected one that is");
  Moved again;
  again.move(R"(, line = "pump")");
  CHECK(
      again.refusal(
          R"({ do = "transfer", date = 2025-03-06, from = "plover", to = "dunlin", what = "coolant pump",
                          amount = 10.00, line = "pump" })") ==
      "transfer: line pump (\"coolant pump\") is no part of plover, expected one that is; it went to dunlin");
}

TEST_CASE(
    "a part that was moved comes out of the car that has it, also where its paper is put right afterwards",
    "[book]") {
  Moved shop;
  shop.move(R"(, line = "pump")");
  shop.post(R"({ do = "return", date = 2025-03-10, line = "pump", goods = 64.00, purse = "cash" })");
  CHECK(shop.show("plover").cost == usd("300.00"));
  CHECK(shop.show("dunlin").cost == usd("500.00"));
  Correction other;
  other.entry = 3;
  other.day = on("2025-03-02");
  shop.record([&](Recording& recording) { correct(recording, other); });
  CHECK(shop.show("plover").cost == usd("300.00"));
  CHECK(shop.show("dunlin").cost == usd("500.00"));
  CHECK(shop.health().findings.empty());
}

namespace {
// Two lamps of one line bought for plover, one of them moved to dunlin.
struct TwoLamps : Shop {
  TwoLamps() {
    post(R"({ do = "buy", date = 2025-03-01, vehicle = "plover", price = 300.00, purse = "cash" },
            { do = "buy", date = 2025-03-01, vehicle = "dunlin", price = 500.00, purse = "cash" },
            { do = "receipt", date = 2025-03-03, supplier = "Harrow", number = "7", paid = "cash", total = 100.00, line = [
              { id = "lamp", what = "lamps", qty = 2, unit = 50.00, kind = "part", to = "plover" }] },
            { do = "transfer", date = 2025-03-05, from = "plover", to = "dunlin", what = "lamp", amount = 50.00,
              line = "lamp" })");
  }
  static std::string back(const std::string& more = "") {
    return R"({ do = "return", date = 2025-03-09, line = "lamp", goods = 50.00, purse = "cash")" + more +
           " }";
  }
  std::string costs() {
    return show("plover").cost.plain(book().currency()) + " " + show("dunlin").cost.plain(book().currency());
  }
};
}  // namespace

TEST_CASE(
    "of two lamps, one of which was moved, the one goes back that is asked for, else the one that stayed",
    "[book]") {
  TwoLamps shop;
  shop.post(TwoLamps::back());
  CHECK(shop.costs() == "300.00 550.00");
  const std::string said = shop.refusal_of([&](Recording& recording) {
    recording.wary = true;  // typed
    record(recording, GoodsBack{on("2025-03-09"),
                                "lamp",
                                Quantity::of(1000),
                                usd("50.00"),
                                {},
                                {},
                                "cash",
                                {},
                                {},
                                "plover",
                                {},
                                {},
                                {}});
  });
  CHECK(said ==
        "return: 50.00 of line lamp (\"lamps\") out of plover, expected "
        "at most 0.00, which stands there");
  shop.post(TwoLamps::back());
  CHECK(shop.costs() == "300.00 500.00");
  TwoLamps asked;
  asked.post(TwoLamps::back(R"(, from = "dunlin")"));
  CHECK(asked.costs() == "350.00 500.00");
  asked.post(TwoLamps::back());
  CHECK(asked.costs() == "300.00 500.00");
  CHECK(asked.health().findings.empty());
}

TEST_CASE("the second of two lamps of one line is moved too, and each goes back out of its car", "[book]") {
  TwoLamps shop;
  const auto move = [](const char* from, const char* to) {
    return fmt::format(
        R"({{ do = "transfer", date = 2025-03-06, from = "{}", to = "{}", what = "lamp", amount = 50.00, line = "lamp" }})",
        from, to);
  };
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "osprey", price = 200.00, purse = "cash" })");
  shop.post(move("plover", "osprey"));
  CHECK(shop.costs() == "300.00 550.00");
  CHECK(shop.show("osprey").cost == usd("250"));
  CHECK(shop.refusal(move("plover", "osprey")) ==
        "transfer: line lamp (\"lamps\") is no part of plover, expected one that is; it went to dunlin, "
        "osprey");
  shop.post(move("dunlin", "osprey"));
  CHECK(shop.refusal(move("dunlin", "plover")) ==
        "transfer: line lamp (\"lamps\") is no part of dunlin, expected one that is; it went to osprey");
  shop.post(move("osprey", "plover"));
  CHECK(shop.costs() == "350.00 500.00");
  shop.post(TwoLamps::back(R"(, from = "osprey")"));
  CHECK(shop.show("osprey").cost == usd("200"));
  shop.post(TwoLamps::back());
  CHECK(shop.costs() == "300.00 500.00");
  CHECK(shop.health().findings.empty());
}

TEST_CASE("of two pumps of one line each car that has one waits for a core", "[book]") {
  Moved shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-04, supplier = "Harrow", paid = "cash", total = 164.00, line = [
              { id = "two", what = "fuel pumps", qty = 2, unit = 64.00, core = 18.00, kind = "part", to = "plover" }] },
         { do = "transfer", date = 2025-03-05, from = "plover", to = "dunlin", what = "fuel pump", amount = 64.00, line = "two" })");
  const auto waiting = [&] {
    std::string all;
    for (const Due& each : shop.due())
      if (each.line == "two")
        for (const std::string& car : each.vehicles) all += car + " ";
    return all;
  };
  CHECK(waiting() == "plover dunlin ");
  shop.post(R"({ do = "core back", date = 2025-03-09, line = "two", qty = 1, amount = 10.00 })");
  CHECK(shop.show("dunlin").cost == usd("564.00"));
  CHECK(shop.show("plover").cost == usd("436.00"));  // 300 + 64 + 64 + 8 that did not come back
  CHECK(shop.health().findings.empty());
}

TEST_CASE("a paper on which a moved part goes back keeps out of which car it came", "[book]") {
  TwoLamps shop;
  const auto exchange = [&](const char* number, const std::string& more) {
    shop.post(
        R"({ do = "receipt", date = 2025-03-09, supplier = "Harrow", number = ")" + std::string(number) +
        R"(", paid = "cash", total = -50.00, line = [{ what = "lamp", amount = -50.00, return_of = "lamp")" +
        more + " }] }");
    return load_entry(shop.book(), last_entry(shop.book())).event;
  };
  CHECK(exchange("8", "").find("out_of") == std::string::npos);  // the one that stayed
  CHECK(shop.costs() == "300.00 550.00");
  CHECK(exchange("9", "").find("out_of = [{ vehicle = \"dunlin\", amount = 50.00 }]") != std::string::npos);
  CHECK(shop.costs() == "300.00 500.00");
}

TEST_CASE("what several cars share goes back off all of them, and of one alone is refused where it is typed",
          "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "plover", price = 300.00, purse = "cash" },
               { do = "buy", date = 2025-03-01, vehicle = "dunlin", price = 500.00, purse = "cash" },
               { do = "receipt", date = 2025-03-03, supplier = "Harrow", paid = "cash", total = 60.00, line = [
                 { id = "oil", what = "oil", amount = 60.00, kind = "consumable", share = { plover = 1, dunlin = 1 } }] })");
  GoodsBack back;
  back.day = on("2025-03-09");
  back.line = "oil";
  back.quantity = Quantity::of(1000);
  back.goods = usd("30.00");
  back.purse = "cash";
  back.from = "plover";
  CHECK(shop.refusal_of([&](Recording& recording) {
    recording.wary = true;  // typed
    record(recording, back);
  }) == "return: plover alone for line oil (\"oil\"), which 2 cars share; expected no car: what goes back "
        "comes "
        "off all of them by their shares");
  back.from.clear();
  shop.record([&](Recording& recording) { record(recording, back); });
  CHECK(shop.show("plover").cost == usd("315.00"));
  CHECK(shop.show("dunlin").cost == usd("515.00"));
}

TEST_CASE("a tool goes back on a paper out of the car that is named, as it does by itself", "[book]") {
  const auto told = [](const std::string& back) {
    Shop shop;
    shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "plover", price = 300.00, purse = "cash" },
                 { do = "receipt", date = 2025-03-03, supplier = "Harrow", paid = "cash", total = 40.00, line = [
                   { id = "jack", what = "jack", amount = 40.00, kind = "tool", to = "tools" }] },
                 { do = "receipt", date = 2025-03-04, supplier = "Harrow", paid = "cash", total = 10.00, line = [
                   { what = "bulb", amount = 10.00, kind = "part", to = "plover" }] })");
    shop.post(back);
    CHECK(shop.health().findings.empty());
    return shop.show("plover").cost.plain(shop.book().currency());
  };
  const std::string alone = told(
      R"({ do = "return", date = 2025-03-09, line = "jack", goods = 5.00, purse = "cash", from = "plover" })");
  CHECK(alone == "305.00");
  CHECK(
      told(R"({ do = "receipt", date = 2025-03-09, supplier = "Harrow", paid = "cash", total = -5.00, line = [
                  { what = "jack", amount = -5.00, return_of = "jack", from = "plover" }] })") == alone);
}

TEST_CASE("a piece that came home goes back from there, once, and two that left go back out of the other car",
          "[book]") {
  const auto moved = [](const char* from, const char* to, const char* amount = "50.00") {
    return fmt::format(
        R"({{ do = "transfer", date = 2025-03-06, from = "{}", to = "{}", what = "lamp", amount = {}, line = "lamp" }})",
        from, to, amount);
  };
  TwoLamps shop;  // one is in dunlin
  shop.post(moved("dunlin", "plover"));
  shop.post(moved("plover", "dunlin"));
  TwoLamps both;
  both.post(moved("dunlin", "plover"));
  both.post(moved("plover", "dunlin"));
  both.post(moved("plover", "dunlin"));
  CHECK(both.costs() == "300.00 600.00");
  both.post(TwoLamps::back());
  CHECK(both.costs() == "300.00 550.00");
  shop.post(
      R"({ do = "return", date = 2025-03-09, line = "lamp", qty = 2, goods = 100.00, purse = "cash" })");
  CHECK(shop.costs() == "300.00 500.00");
  CHECK(shop.health().findings.empty());

  // For more than it came for, and back for less: it is where it went last.
  TwoLamps dear;
  dear.post(moved("dunlin", "plover", "70.00"));
  dear.post(moved("plover", "dunlin", "20.00"));
  CHECK_NOTHROW(dear.post(moved("dunlin", "plover", "30.00")));
}

TEST_CASE("a single piece goes back whole out of the car that it is in, whatever it came and went for",
          "[book]") {
  Moved shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "osprey", price = 200.00, purse = "cash" })");
  const auto move = [&](const char* from, const char* to, const char* amount) {
    shop.post(fmt::format(
        R"({{ do = "transfer", date = 2025-03-05, from = "{}", to = "{}", what = "coolant pump", amount = {}, line = "pump" }})",
        from, to, amount));
  };
  move("plover", "dunlin", "54.00");
  move("dunlin", "osprey", "64.00");
  move("osprey", "dunlin", "59.00");
  CHECK(shop.show("dunlin").cost == usd("549"));  // 500 + 54 - 64 + 59
  shop.post(R"({ do = "return", date = 2025-03-09, line = "pump", goods = 64.00, purse = "cash" })");
  CHECK(shop.show("dunlin").cost == usd("485"));
  CHECK(shop.show("plover").cost == usd("310"));  // 300 + 64 - 54
  CHECK(shop.health().findings.empty());
}

TEST_CASE(
    "a part that is moved by its name alone is that of the only line called so, and its deposit goes along",
    "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", total = 94.00, line = [
             { id = "pump", what = "Coolant pump", unit = 46.00, core = 18.00, kind = "part", to = "plover" },
             { id = "one", what = "lamp", unit = 15.00, kind = "part", to = "plover" },
             { id = "other", what = "lamp", unit = 15.00, kind = "part", to = "plover" }] })");
  std::vector<std::string> remarks;
  const auto moved = [&](const std::string& what, bool typed) {
    Transfer transfer{on("2025-03-05"), "plover", "dunlin", what, usd("10"), ""};
    shop.record([&](Recording& recording) {
      if (typed) recording.typed_by = "me";
      record(recording, transfer);
      remarks = recording.remarks();
    });
    return load_entry(shop.book(), last_entry(shop.book())).event;
  };
  CHECK(moved("coolant pump", false).find("line") == std::string::npos);  // a book that is restored says it
  CHECK(moved("coolant pump", true).find("line = \"pump\"") != std::string::npos);
  CHECK(shop.due().front().vehicles == std::vector<std::string>{"dunlin"});
  CHECK(moved("lamp", true).find("line") == std::string::npos);
  CHECK(remarks ==
        std::vector<std::string>{"transfer: plover has 2 lines called \"lamp\" (one, other), and none "
                                 "is said: a deposit stays with plover"});
  CHECK(moved("ashtray", true).find("line") == std::string::npos);  // the car came with it
  CHECK(remarks.empty());
  CHECK(shop.health().findings.empty());
}

TEST_CASE(
    "a part that is moved by its name stands under no line of a quick receipt, of a later day or of several "
    "cars",
    "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, paid = "cash", total = 45.00, itemised = false, line = [
             { what = "starter", amount = 45.00, kind = "part", to = "plover" }] }, )"
      R"({ do = "receipt", date = 2025-03-08, supplier = "Harrow", paid = "cash", total = 60.00, line = [
             { id = "late", what = "pump", amount = 30.00, kind = "part", to = "plover" },
             { id = "both", what = "hose", amount = 30.00, kind = "part", share = { plover = 1, dunlin = 1 } }] })");
  const auto moved = [&](const char* what, const char* day) {
    shop.record([&](Recording& recording) {
      recording.typed_by = "me";
      record(recording, Transfer{on(day), "plover", "dunlin", what, usd("10"), ""});
    });
    return load_entry(shop.book(), last_entry(shop.book())).event;
  };
  CHECK(moved("starter", "2025-03-09").find("line") == std::string::npos);
  CHECK(moved("hose", "2025-03-09").find("line") == std::string::npos);
  CHECK(moved("pump", "2025-03-07").find("line") == std::string::npos);
  CHECK(moved("pump", "2025-03-08").find("line = \"late\"") != std::string::npos);
  // Called something else it is of that line no more.
  shop.record([&](Recording& recording) {
    recording.typed_by = "me";
    Correction correction;
    correction.entry = last_entry(shop.book());
    correction.what = "ashtray";
    correct(recording, correction);
  });
  CHECK(load_entry(shop.book(), last_entry(shop.book())).event.find("line") == std::string::npos);
  CHECK(shop.health().findings.empty());
}
