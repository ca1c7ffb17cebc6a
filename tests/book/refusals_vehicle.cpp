// The refusals of events in a car's life: bought, passed, advertised, worked on, sold, finished.
#include <fstream>

#include "book/events/assigned.h"
#include "book/events/clock.h"
#include "book/walk.h"
#include "words/days.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

// One car in each state: pip owned, tern sold, gull finished, wren passed, lark only looked at.
struct Yard : Shop {
  Yard() {
    post(R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 5000.00 },
            { do = "buy", date = 2025-03-02, vehicle = "pip", price = 300.00, purse = "cash" },
            { do = "buy", date = 2025-03-02, vehicle = "tern", price = 200.00, purse = "cash" },
            { do = "buy", date = 2025-03-02, vehicle = "gull", price = 100.00, purse = "cash" },
            { do = "trip", date = 2025-03-02, vehicle = "lark", distance = 10, why = "viewing" },
            { do = "pass", date = 2025-03-03, vehicle = "wren", why = "rust" },
            { do = "sell", date = 2025-03-04, vehicle = "tern", price = 500.00, purse = "cash" },
            { do = "write off", date = 2025-03-05, vehicle = "gull" })");
  }
};

const std::string tag_help = ", expected 1 to 24 of a-z, 0-9 and '-'";

}  // namespace

TEST_CASE("buy refuses a bad tag, a car that had its purchase, a negative price, a negative fee", "[book]") {
  Yard shop;
  const std::string rest = R"(price = -1, purse = "cash", fees = [{ name = "title", amount = -2 }] })";
  const auto buy = [&](const std::string& tag) {
    return R"({ do = "buy", date = 2025-03-06, vehicle = ")" + tag + "\", " + rest;
  };
  walk(
      shop,
      {
          {buy("pi_p"), "buy: found the tag \"pi_p\"" + tag_help},
          {buy("a-tag-that-is-far-too-long"), "buy: found the tag \"a-tag-that-is-far-too-long\"" + tag_help},
          {buy("tools"),
           "buy: \"tools\" is no car's tag, it names the shop's own account; choose another tag"},
          {buy("pip"),
           "buy: pip was bought on 2025-03-02 (entry 2), and a vehicle is bought once; choose another tag"},
          {buy("tern"),
           "buy: tern was sold on 2025-03-04 (entry 7); to take that back: nonrunner void 7 --why \"...\""},
          {buy("gull"),
           "buy: gull was finished on 2025-03-05 (entry 8); to take that back: nonrunner void 8 --why "
           "\"...\""},
          {buy("lark"), "buy: the price is -1.00, expected 0 or more"},
          {R"({ do = "buy", date = 2025-03-06, vehicle = "lark", price = 0, purse = "cash", fees = [{ name = "title", amount = -2 }] })",
           "buy: the fee \"title\" is -2.00, expected 0 or more"},
          {R"({ do = "buy", date = 2025-03-06, vehicle = "lark", price = 0, purse = "cash", fees = [{ name = "title", amount = 2 }] })",
           "accepted"},
      });
}

TEST_CASE("pass refuses a bad tag, a car that was bought, and one passed already", "[book]") {
  Yard shop;
  const auto pass = [](const std::string& tag) {
    return R"({ do = "pass", date = 2025-03-06, vehicle = ")" + tag + "\" }";
  };
  walk(shop,
       {
           {pass("no such"), "pass: found the tag \"no such\"" + tag_help},
           {pass("pip"),
            "pass: pip was bought on 2025-03-02 (entry 2), expected a car that was looked at and left; a "
            "finished one "
            "is written off with: nonrunner write-off pip"},
           {pass("tern"),
            "pass: tern was sold on 2025-03-04 (entry 7); to take that back: nonrunner void 7 --why \"...\""},
           {pass("wren"), "pass: wren was passed on 2025-03-03 (entry 6) already"},
           {pass("lark"), "accepted"},
       });
}

TEST_CASE("sell refuses, in the order of its header", "[book]") {
  Yard shop;
  shop.post(
      R"({ do = "buyer deposit", date = 2025-03-02, vehicle = "pip", amount = 50.00, purse = "cash" })");
  shop.record([](Recording& recording) { start_clock(recording, "me", "pip", "brakes"); });
  const auto sell = [](const std::string& tag, const std::string& rest) {
    return R"({ do = "sell", date = )" + rest.substr(0, 10) + ", vehicle = \"" + tag +
           "\", purse = \"cash\", " + rest.substr(11) + " }";
  };
  const std::string wrong =
      "2025-03-01 price = -1, costs = [{ name = \"advert\", amount = -1 }], tax = -1, commission = 9.00, "
      "deposit_used = 60";
  const std::string again = "; to take that back: nonrunner void ";
  CHECK(shop.refusal(sell("pop", wrong)) == "sell: no vehicle has the tag \"pop\", did you mean \"pip\"?");
  CHECK(shop.refusal(sell("sparrow", wrong)) ==
        "sell: no vehicle has the tag \"sparrow\"; see: nonrunner vehicles");
  CHECK(shop.refusal(sell("tern", wrong)) ==
        "sell: tern was sold on 2025-03-04 (entry 7)" + again + "7 --why \"...\"");
  CHECK(shop.refusal(sell("gull", wrong)) ==
        "sell: gull was finished on 2025-03-05 (entry 8)" + again + "8 --why \"...\"");
  const std::string first = ", expected a car that was bought; enter the purchase first: nonrunner buy ";
  CHECK(shop.refusal(sell("wren", wrong)) == "sell: wren is passed" + first + "wren PRICE");
  CHECK(shop.refusal(sell("lark", wrong)) == "sell: lark is considered" + first + "lark PRICE");
  CHECK(shop.refusal(sell("pip", wrong)) ==
        "sell: a clock still runs on pip (\"brakes\"); stop it first: nonrunner clock off");
  shop.now = "2025-06-30T13:00:00Z";
  shop.record([&](Recording& recording) { stop_clock(recording, "me", shop.today, {}); });
  const auto pip = [&](const std::string& rest) { return sell("pip", rest); };
  walk(shop, {
                 {pip(wrong), "sell: the price is -1.00, expected 0 or more"},
                 {pip("2025-03-01 price = 1, costs = [{ name = \"advert\", amount = -1 }], tax = -1, "
                      "commission = 9.00, deposit_used = 60"),
                  "sell: the day 2025-03-01 lies before the purchase of pip on 2025-03-02"},
                 {pip("2025-03-02 price = 1, costs = [{ name = \"advert\", amount = -1 }], tax = -1, "
                      "commission = 9.00, deposit_used = 60"),
                  "sell: the cost \"advert\" is -1.00, expected 0 or more"},
                 {pip("2025-03-02 price = 1, tax = -1, commission = 9.00, deposit_used = 60"),
                  "sell: the tax is -1.00, expected 0 or more"},
                 {pip("2025-03-02 price = 1, commission = 9.00, deposit_used = 60"),
                  "sell: a commission of 9.00 on a price of 1.00, expected at most the price"},
                 {pip("2025-03-02 price = 1, deposit_used = 60"),
                  "sell: a deposit of 60.00 is used, expected 0 to 1.00: 50.00 is held for pip"},
                 {pip("2025-03-02 price = 100, deposit_used = 60"),
                  "sell: a deposit of 60.00 is used, expected 0 to 50.00: 50.00 is held for pip"},
                 {pip("2025-03-02 price = 100, deposit_used = -1"),
                  "sell: a deposit of -1.00 is used, expected 0 to 50.00: 50.00 is held for pip"},
                 {pip("2025-03-02 price = 100, deposit_used = 50"), "accepted"},
             });
}

TEST_CASE("part out refuses, in the order of its header", "[book]") {
  Yard shop;
  const auto part_out = [](const std::string& tag, const std::string& amount, const std::string& day) {
    return "{ do = \"part out\", date = " + day + ", vehicle = \"" + tag + "\", still_brings = " + amount +
           " }";
  };
  CHECK(shop.refusal(part_out("pop", "-1", "2025-03-01")) ==
        "part out: no vehicle has the tag \"pop\", did you mean \"pip\"?");
  CHECK(shop.refusal(part_out("tern", "-1", "2025-03-01")) ==
        "part out: tern was sold on 2025-03-04 (entry 7); to take that back: nonrunner void 7 --why \"...\"");
  CHECK(shop.refusal(part_out("lark", "-1", "2025-03-01")) ==
        "part out: lark is considered, expected a car that was bought");
  CHECK(shop.refusal(part_out("pip", "-1", "2025-03-01")) ==
        "part out: what it still brings is -1.00, expected 0 or more");
  CHECK(shop.refusal(part_out("pip", "0", "2025-03-01")) ==
        "part out: the day 2025-03-01 lies before the purchase of pip on 2025-03-02");
  CHECK(shop.refusal(part_out("pip", "0", "2025-03-02")) == "accepted");
}

TEST_CASE("write off refuses, in the order of its header", "[book]") {
  Yard shop;
  shop.record([](Recording& recording) { start_clock(recording, "me", "pip", "stripping"); });
  const auto write_off = [](const std::string& tag, const std::string& day) {
    return "{ do = \"write off\", date = " + day + ", vehicle = \"" + tag + "\" }";
  };
  CHECK(shop.refusal(write_off("pop", "2025-03-01")) ==
        "write off: no vehicle has the tag \"pop\", did you mean \"pip\"?");
  CHECK(
      shop.refusal(write_off("tern", "2025-03-01")) ==
      "write off: tern was sold on 2025-03-04 (entry 7); to take that back: nonrunner void 7 --why \"...\"");
  CHECK(shop.refusal(write_off("lark", "2025-03-01")) ==
        "write off: lark is considered, expected a car that was bought; one looked at and left: nonrunner "
        "pass lark --why \"...\"");
  CHECK(shop.refusal(write_off("pip", "2025-03-01")) ==
        "write off: a clock still runs on pip; stop it first: nonrunner clock off");
  shop.now = "2025-06-30T13:00:00Z";
  shop.record([&](Recording& recording) { stop_clock(recording, "me", shop.today, {}); });
  CHECK(shop.refusal(write_off("pip", "2025-03-01")) ==
        "write off: the day 2025-03-01 lies before the purchase of pip on 2025-03-02");
  CHECK(shop.refusal(write_off("pip", "2025-03-02")) == "accepted");
}

TEST_CASE("a buyer's deposit refuses an unknown car, an amount that is not above 0, and more than is held",
          "[book]") {
  Yard shop;
  const auto deposit = [](const std::string& word, const std::string& tag, const std::string& amount) {
    return "{ do = \"" + word + "\", date = 2025-03-06, vehicle = \"" + tag + "\", amount = " + amount +
           ", purse = \"cash\" }";
  };
  walk(shop,
       {
           {deposit("buyer deposit", "pop", "0"),
            "buyer deposit: no vehicle has the tag \"pop\", did you mean \"pip\"?"},
           {deposit("buyer deposit", "pip", "0"), "buyer deposit: the amount is 0.00, expected more than 0"},
           {deposit("buyer deposit", "pip", "200"), "accepted"},
       });
  shop.post(deposit("buyer deposit", "pip", "200"));
  for (const std::string word : {"deposit kept", "deposit back"})
    walk(shop,
         {
             {deposit(word, "pop", "0"), word + ": no vehicle has the tag \"pop\", did you mean \"pip\"?"},
             {deposit(word, "pip", "0"), word + ": the amount is 0.00, expected more than 0"},
             {deposit(word, "pip", "200.01"), word + ": 200.01 for pip, but 200.00 is held for it"},
             {deposit(word, "pip", "200"), "accepted"},
         });
}

TEST_CASE("advertised and selling cost refuse an unknown car, then an amount that is not above 0", "[book]") {
  Yard shop;
  walk(shop, {
                 {R"({ do = "advertised", date = 2025-03-06, vehicle = "pop", price = 0 })",
                  "advertised: no vehicle has the tag \"pop\", did you mean \"pip\"?"},
                 {R"({ do = "advertised", date = 2025-03-06, vehicle = "pip", price = 0 })",
                  "advertised: the price is 0.00, expected more than 0"},
                 {R"({ do = "advertised", date = 2025-03-06, vehicle = "pip", price = 1 })", "accepted"},
             });
  walk(
      shop,
      {
          {R"({ do = "selling cost", date = 2025-03-06, vehicle = "pop", what = "advert", amount = 0, purse = "cash" })",
           "selling cost: no vehicle has the tag \"pop\", did you mean \"pip\"?"},
          {R"({ do = "selling cost", date = 2025-03-06, vehicle = "pip", what = "advert", amount = 0, purse = "cash" })",
           "selling cost: the amount is 0.00, expected more than 0"},
          {R"({ do = "selling cost", date = 2025-03-06, vehicle = "pip", what = "advert", amount = 1, purse = "cash" })",
           "accepted"},
      });
}

TEST_CASE(
    "recover and recover back refuse an unknown car, an amount that is not above 0, more than was recovered",
    "[book]") {
  Yard shop;
  const auto recover = [](const std::string& word, const std::string& tag, const std::string& amount) {
    return "{ do = \"" + word + "\", date = 2025-03-06, vehicle = \"" + tag +
           "\", what = \"seat\", amount = " + amount + ", purse = \"cash\" }";
  };
  walk(shop,
       {
           {recover("recover", "pop", "0"), "recover: no vehicle has the tag \"pop\", did you mean \"pip\"?"},
           {recover("recover", "pip", "0"), "recover: the amount is 0.00, expected more than 0"},
           {recover("recover", "pip", "25"), "accepted"},
       });
  shop.post(recover("recover", "pip", "25"));
  walk(shop,
       {
           {recover("recover back", "pop", "0"),
            "recover back: no vehicle has the tag \"pop\", did you mean \"pip\"?"},
           {recover("recover back", "pip", "0"), "recover back: the amount is 0.00, expected more than 0"},
           {recover("recover back", "pip", "26"),
            "recover back: 26.00 for \"seat\", but 25.00 was recovered from pip"},
           {recover("recover back", "pip", "25"), "accepted"},
       });
}

TEST_CASE(
    "transfer refuses an unknown car, one car on both sides, an amount that is not above 0, more than is "
    "carried",
    "[book]") {
  Yard shop;
  const auto transfer = [](const std::string& from, const std::string& to, const std::string& amount) {
    return "{ do = \"transfer\", date = 2025-03-06, from = \"" + from + "\", to = \"" + to +
           "\", what = \"starter\", amount = " + amount + " }";
  };
  walk(shop,
       {
           {transfer("pop", "pop", "0"), "transfer: no vehicle has the tag \"pop\", did you mean \"pip\"?"},
           {transfer("pip", "pip", "0"), "transfer: from and to are both pip, expected two cars"},
           {transfer("pip", "la_rk", "0"), "transfer: the amount is 0.00, expected more than 0"},
           {transfer("pip", "la_rk", "300.01"),
            "transfer: 300.01 off pip, which carries a cost of 300.00; expected at most that"},
           {transfer("pip", "la_rk", "300"), "transfer: found the tag \"la_rk\"" + tag_help},
           {transfer("pip", "lark", "300"), "accepted"},
       });
}

TEST_CASE("hours refuse a bad tag, no hours, paid hours without a rate or a purse", "[book]") {
  Yard shop;
  const auto hours = [](const std::string& tag, const std::string& rest) {
    return "{ do = \"hours\", date = 2025-03-06, vehicle = \"" + tag + "\", operation = \"brakes\"" + rest +
           " }";
  };
  const std::string needs =
      "hours: 2 paid hours for \"brakes\" need what an hour was paid (rate) and the purse that paid it";
  walk(shop, {
                 {hours("pi_p", ""), "hours: found the tag \"pi_p\"" + tag_help},
                 {hours("pip", ""), "hours: found 0 hours for \"brakes\", expected more than 0"},
                 {hours("pip", ", own = 3, paid = -1"),
                  "hours: found 3 hours and -1 paid ones for \"brakes\", expected more than 0"},
                 {hours("pip", ", paid = 2"), needs},
                 {hours("pip", ", paid = 2, purse = \"cash\""), needs},
                 {hours("pip", ", paid = 2, rate = 15"), needs},
                 {hours("pip", ", paid = 2, rate = 15, purse = \"cash\""), "accepted"},
                 {hours("pip", ", own = 0.25"), "accepted"},
             });
}

TEST_CASE("trip refuses no car, both ways of naming cars, a distance that is not above 0, a bad tag",
          "[book]") {
  Yard shop;
  const auto trip = [](const std::string& rest) {
    return "{ do = \"trip\", date = 2025-03-06, why = \"parts\", " + rest + " }";
  };
  walk(shop,
       {
           {trip("vehicle = \"pi_p\", share = { lark = 1 }, distance = 0"),
            "the event \"trip\" has both \"vehicle\" and \"share\", expected one of them"},
           {trip("distance = 0"), "trip: found no car, expected a vehicle or a share = { TAG = weight }"},
           {trip("vehicle = \"pi_p\", distance = 0"), "trip: found the distance 0, expected more than 0"},
           {trip("vehicle = \"pi_p\", distance = 5"), "trip: found the tag \"pi_p\"" + tag_help},
           {trip("vehicle = \"pip\", distance = 5"), "accepted"},
           {trip("share = { pip = 0, lark = 1 }, distance = 5"),
            "\"pip\" in share in the event \"trip\" is 0, expected a weight above 0"},
           {trip("share = { pip = 2, lark = 1 }, distance = 5"), "accepted"},
       });
}

TEST_CASE(
    "a clock refuses to run twice for one worker, to stop when it does not run, and to be believed past "
    "twelve hours",
    "[book]") {
  Yard shop;
  const std::string noon = words::shown_time("2025-06-30T12:00:00Z");  // in the zone of the machine
  const auto start = [&](const std::string& worker, const std::string& tag) {
    return shop.refusal_of([&](Recording& recording) { start_clock(recording, worker, tag, "brakes"); });
  };
  const auto stop = [&](const std::string& worker, std::optional<Hours> hours = {}) {
    return shop.refusal_of([&](Recording& recording) { stop_clock(recording, worker, shop.today, hours); });
  };
  CHECK(stop("me") == "clock off: your clock does not run; start one: nonrunner clock on TAG \"OPERATION\"");
  CHECK(stop("sam") ==
        "clock off: sam's clock does not run; start one: nonrunner clock on TAG \"OPERATION\"");
  CHECK(start("me", "pi_p") == "clock on: found the tag \"pi_p\"" + tag_help);
  shop.record([](Recording& recording) { start_clock(recording, "me", "pip", "brakes"); });
  CHECK(start("me", "pi_p") ==
        "clock on: your clock runs on pip (\"brakes\"); stop it first: nonrunner clock off; it runs since " +
            noon);
  CHECK(start("sam", "pip") == "accepted");
  shop.now = "2025-07-01T00:00:00Z";
  CHECK(stop("me") == "accepted");
  shop.now = "2025-07-01T00:01:00Z";
  CHECK(stop("me") ==
        "clock off: the clock on pip (\"brakes\") ran 12.02 hours; say how long it really was: nonrunner "
        "clock off "
        "--hours N; it runs since " +
            noon);
  CHECK(stop("me", Hours::parse("3")) == "accepted");
}

TEST_CASE("a finding and an appraisal refuse a bad tag; an attachment refuses what is no ordinary file",
          "[book]") {
  Yard shop;
  CHECK(shop.refusal(R"({ do = "finding", date = 2025-03-06, vehicle = "pi_p", text = "rot" })") ==
        "finding: found the tag \"pi_p\"" + tag_help);
  const auto attach = [](const std::string& file) {
    return R"({ do = "attach", date = 2025-03-06, vehicle = "pi_p", file = ")" + file + "\" }";
  };
  const std::string here = shop.folder().string();
  std::ofstream(shop.folder() / "title.jpg") << "a photograph";
  std::filesystem::create_symlink("title.jpg", shop.folder() / "link.jpg");
  CHECK(shop.refusal(attach("none.jpg")) == here + "/none.jpg: there is no such file; check the name");
  CHECK(shop.refusal(attach("link.jpg")) ==
        here + "/link.jpg: found a symbolic link, expected the file itself");
  CHECK(shop.refusal(attach(".")) == here + "/.: found something that is no ordinary file, expected a file");
  CHECK(shop.refusal(attach("/dev/null")) == "\"/dev/null\": found a file outside of the folder " + here +
                                                 ", expected one below it; copy it there if you mean it");
  CHECK(shop.refusal(attach("title.jpg")) == "attach: found the tag \"pi_p\"" + tag_help);
  std::ofstream(shop.folder() / "pip.toml") << "tag = \"pip\"";
  CHECK(shop.refusal(R"({ do = "appraisal", date = 2025-03-06, vehicle = "pi_p", job = "pip.toml" })") ==
        "appraise: found the tag \"pi_p\"" + tag_help);
  CHECK(shop.refusal(R"({ do = "appraisal", date = 2025-03-06, vehicle = "pip", job = "none.toml" })") ==
        here + "/none.toml: there is no such file; check the name");
}

TEST_CASE("a heading of the budget refuses, in the order of its header", "[book]") {
  Yard shop;
  shop.post(R"({ do = "receipt", date = 2025-03-06, supplier = "Harrow", paid = "cash", total = 9.00, line = [
                 { id = "lamp", what = "lamp", amount = 9.00, kind = "part", to = "pip" }] })");
  const auto under = [](const std::string& tag, const std::string& rest) {
    return "{ do = \"under\", vehicle = \"" + tag + "\", heading = \"discovery\"" + rest + " }";
  };
  walk(shop, {
                 {under("pop", ", line = \"lomp\", entry = 4711"),
                  "under: no vehicle has the tag \"pop\", did you mean \"pip\"?"},
                 {under("lark", ", line = \"lomp\", entry = 4711"),
                  "under: found 2 of line, entry and operation, expected one of them"},
                 {under("lark", ""), "under: found 0 of line, entry and operation, expected one of them"},
                 {under("lark", ", line = \"lomp\""),
                  "under: no receipt line has the id \"lomp\", did you mean \"lamp\"?"},
                 {under("lark", ", line = \"lamp\""), "under: line lamp (\"lamp\") is not about lark"},
                 {under("lark", ", entry = 4711"),
                  "under: entry 4711 is not about lark; see: nonrunner entries lark"},
                 {under("pip", ", line = \"lamp\""), "accepted"},
                 {under("pip", ", operation = \"brakes\""), "accepted"},
             });
  CHECK(shop.refusal_of([](Recording& recording) {
    assign(recording, Assign{"pop", "", "", 0, ""});
  }) == "under: the heading is empty, expected a few words");
}
