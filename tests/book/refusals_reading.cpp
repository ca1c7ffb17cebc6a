// What reading an events file refuses before any rule of the book is asked: words, keys and types, each with
// its place.
#include "book/events/post.h"
#include "book/walk.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::book;

TEST_CASE("an unknown event is refused with the nearest one, and with its place in the file", "[book]") {
  Shop shop;
  const auto posted = [&](const std::string& text) {
    return shop.refusal_of(
        [&](Recording& recording) { book::post(recording, text, "shop/march.toml", shop.folder(), {}); });
  };
  CHECK(posted("hour = 20\nevent = [\n  { do = \"owner im\" },\n]\n") ==
        "shop/march.toml:3: \"do\" in the event is \"owner im\", expected an event of the book, did you mean "
        "\"owner in\"?");
  CHECK(posted("event = [\n  { do = \"celebrate\" },\n]\n") ==
        "shop/march.toml:2: \"do\" in the event is \"celebrate\", expected an event of the book, such as "
        "receipt");
  CHECK(posted("event = [\n  { date = 2025-03-01 },\n]\n") ==
        "shop/march.toml:2: the event has no \"do\", expected a text in quotes");
  CHECK(posted("events = [\n]\n") ==
        "shop/march.toml:1: unknown key \"events\" in the head of the file, did you mean \"event\"?");
  CHECK(posted("event = 7\n") ==
        "shop/march.toml:1: \"event\" in the head of the file is 7, expected a list of tables, the event");
  CHECK(posted("currency = \"EUR\"\n") ==
        "shop/march.toml:1: \"currency\" in the head of the file is \"EUR\", expected \"USD\", the currency "
        "of this book");
  CHECK(posted("distance = \"km\"\n") ==
        "shop/march.toml:1: \"distance\" in the head of the file is \"km\", expected \"mi\", the unit of "
        "this book");
  CHECK(posted("\nset = { houre = \"20\" }\n") ==
        "shop/march.toml:2: set: there is no setting \"houre\", did you mean \"hour\"?");
  CHECK(posted("closed = \"soon\"\n") ==
        "shop/march.toml:1: \"closed\" in the head of the file is \"soon\", expected a day written "
        "YYYY-MM-DD without quotes, such as 2026-05-02");
  CHECK(posted("event = [\n  { do = \"owner in\", date = 2025-03-01, purse = \"cash\", amount = 0 },\n]\n") ==
        "shop/march.toml:2: owner in: the amount is 0.00, expected more than 0");
  CHECK(posted("event = [\n  { do = \"owner in\"\n]\n").rfind("shop/march.toml:2: not TOML: ", 0) == 0);
}

TEST_CASE("a refused event takes the whole file back", "[book]") {
  Shop shop;
  CHECK(shop.refusal(R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 5 },
                        { do = "owner in", date = 2025-03-01, purse = "cash", amount = 0 })") ==
        "owner in: the amount is 0.00, expected more than 0");
  CHECK(last_entry(shop.book()) == 0);
  CHECK(names_of(shop.book(), account::purse).empty());
}

TEST_CASE("every event refuses a key that it does not know and names the nearest", "[book]") {
  Shop shop;
  for (const std::string& word : event_words())
    CHECK(shop.refusal("{ do = \"" + word + "\", daet = 2025-03-01 }") ==
          "unknown key \"daet\" in the event \"" + word + "\", did you mean \"date\"?");
}

TEST_CASE("every event needs its day, written as a day", "[book]") {
  Shop shop;
  const std::string expected = "expected a day written YYYY-MM-DD without quotes, such as 2026-05-02";
  for (const std::string& word : event_words()) {
    if (word == "appraisal" || word == "under")
      continue;  // reads its job file first; is no entry and has no day
    CHECK(shop.refusal("{ do = \"" + word + "\" }") ==
          "the event \"" + word + "\" has no \"date\", " + expected);
    CHECK(shop.refusal("{ do = \"" + word + "\", date = \"2025-03-01\" }") ==
          "\"date\" in the event \"" + word + "\" is \"2025-03-01\", " + expected);
  }
}

TEST_CASE("a line of a receipt is read strictly", "[book]") {
  Shop shop;
  const auto line = [](const std::string& text) {
    return R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", total = 1, paid = "cash", line = [{ )" +
           text + " }] }";
  };
  const std::string in = "in line 1 of the receipt is ";
  walk(shop,
       {
           {line("wat = 1"), "unknown key \"wat\" in line 1 of the receipt, did you mean \"what\"?"},
           {line("qty = 1"), "line 1 of the receipt has no \"what\", expected a text in quotes"},
           {line("what = \"nut\", qty = \"1\""),
            "\"qty\" " + in + "\"1\", expected a number of pieces with at most 3 decimals"},
           {line("what = \"nut\", qty = 0.0001"),
            "\"qty\" " + in + "0.0001, expected a number of pieces with at most 3 decimals"},
           {line("what = \"nut\", unit = 0.000001"),
            "\"unit\" " + in + "0.000001, expected a price for one with at most 5 decimals"},
           {line("what = \"nut\", amount = 0.001"),
            "\"amount\" " + in + "0.001, expected an amount of money in USD with at most 2 decimals"},
           {line("what = \"nut\", amount = 1"),
            "line 1 of the receipt has no \"kind\", expected a text in quotes"},
           {line("what = \"nut\", amount = 1, kind = \"prat\""),
            "\"kind\" " + in +
                "\"prat\", expected part, consumable, sublet, fee, stock, tool, overhead or private, did you "
                "mean \"part\"?"},
           {line("what = \"nut\", amount = 1, kind = \"part\", source = \"salvge\""),
            "\"source\" " + in + "\"salvge\", expected new, salvage or reman, did you mean \"salvage\"?"},
           {line("what = \"nut\", amount = 1, kind = \"part\", to = \"pip\", share = { pip = 1 }"),
            "line 1 of the receipt has both \"to\" and \"share\", expected one of them"},
           {line("what = \"nut\", amount = 1, kind = \"part\", share = { pip = 0 }"),
            "\"pip\" in share in line 1 of the receipt is 0, expected a weight above 0"},
           {line("what = \"nut\", amount = 1, kind = \"part\", share = { }"),
            "\"share\" " + in + "a table, expected at least one car with its weight, such as { pip = 1 }"},
           {line("what = \"nut\", amount = 1, kind = \"part\", to = \"pip\", taxed = \"yes\""),
            "\"taxed\" " + in + "\"yes\", expected true or false"},
           {line("what = \"nut\", amount = 1, kind = \"part\", to = \"pip\""), "accepted"},
       });
  CHECK(shop.refusal(R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", total = 1, line = [] })") ==
        "the event \"receipt\" has no \"paid\", expected what each purse paid, such as { cash = 27.16 }, or "
        "on_account = true");
}

TEST_CASE("a new name close to a known one is asked about when typed, and remarked on in a file", "[book]") {
  Shop shop;
  const auto typed = [&](const std::string& purse, const std::string& tag) {
    return shop.refusal_of([&](Recording& recording) {
      recording.strict_words = true;
      meet_purse(recording, "buy", purse);
      meet_vehicle(recording, "buy", tag);
    });
  };
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "sprat", price = 300.00, purse = "savings" })");
  CHECK(shop.remarks == std::vector<std::string>{"new vehicle: sprat", "new purse: savings"});
  CHECK(typed("saving", "sprat") ==
        "buy: there is no purse \"saving\", did you mean \"savings\"? if it is a new one, say so with --new");
  CHECK(typed("savings", "spart") ==
        "buy: there is no vehicle \"spart\", did you mean \"sprat\"? if it is a new one, say so with --new");
  CHECK(typed("savings", "sprat-2") == "accepted");
  CHECK(typed("bank", "teal") == "accepted");
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "spart", price = 300.00, purse = "saving" })");
  CHECK(shop.remarks == std::vector<std::string>{"new vehicle: spart (one letter off \"sprat\")",
                                                 "new purse: saving (one letter off \"savings\")"});
}
