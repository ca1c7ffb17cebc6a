// The rooms in which things are entered: what each offers, and what a form of it records.
#include <catch2/catch.hpp>

#include "book/events/attach.h"
#include "book/events/clock.h"
#include "book/ledger/kept.h"
#include "page/page_shop.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::page;

namespace {

struct Yard : PageShop {
  Yard() {
    Shop::post(
        R"({ do = "owner in", date = 2025-06-01, purse = "cash", amount = 3000.00 },
           { do = "owner in", date = 2025-06-01, purse = "card", amount = 3000.00 },
           { do = "buy", date = 2025-06-02, vehicle = "pip", price = 900.00, purse = "cash" },
           { do = "buy", date = 2025-06-03, vehicle = "wren", price = 700.00, purse = "cash" },
           { do = "plan", date = 2025-06-04, vehicle = "pip", name = "coolant pump", amount = 48.00 },
           { do = "plan", date = 2025-06-04, vehicle = "pip", name = "thermostat", amount = 19.00 },
           { do = "plan", date = 2025-06-04, vehicle = "pip", name = "strip and fill", amount = 0.00, hours = 3 },
           { do = "plan", date = 2025-06-04, vehicle = "wren", name = "radiator", amount = 62.00 },
           { do = "plan", date = 2025-06-04, vehicle = "wren", name = "brake pads", amount = 31.00 })");
  }
};

std::string hidden_value(const Answer& answer, const std::string& name) {
  const std::string before = "name=\"" + name + "\" value=\"";
  const std::size_t at = answer.body.find(before);
  if (at == std::string::npos) return "";
  const std::size_t begin = at + before.size();
  return answer.body.substr(begin, answer.body.find('"', begin) - begin);
}

bool says(const Answer& answer, const std::string& text) {
  return read_aloud(answer).find(text) != std::string::npos;
}

}  // namespace

TEST_CASE("cars says of each what is in it, what is due and what is next", "[page]") {
  Yard shop;
  shop.Shop::post(
      R"({ do = "receipt", date = 2025-06-10, supplier = "Millgate Parts", number = "77", paid = { card = 64.00 }, total = 64.00, line = [
           { what = "coolant pump", unit = 46.00, core = 18.00, core_by = 2025-07-03, kind = "part", source = "new", to = "pip" }] },
         { do = "receipt", date = 2025-06-11, paid = { cash = 12.00 }, total = 12.00, itemised = false, line = [
           { what = "hose", amount = 12.00, kind = "part", to = "wren" }] })");
  shop.record([](book::Recording& recording) { start_clock(recording, "me", "pip", "strip and fill"); });
  shop.now = "2025-06-30T13:15:00Z";
  CHECK(read_aloud(shop.get("/")) ==
        "Cars\n"
        "Your clock runs on pip: strip and fill, 1.25 hours. <Off -> /hours>\n"
        "<1 quick line waits for its paper -> /tray>\n"
        "<Due next: core of coolant pump, 18.00 (2025-07-03 Thu, in 3 days) -> /due>\n"
        "At hand\n"
        "car | state | in it | due | next\n"
        "<pip -> /car/pip> | owned, 28 days | 946.00 | core of coolant pump, in 3 days | <strip and fill -> "
        "/car/pip>\n"
        "<wren -> /car/wren> | owned, 27 days | 712.00 | | <radiator -> /car/wren>\n");
}

TEST_CASE("a receipt is a photo, an amount and keep: car and purse are chosen already", "[page]") {
  Yard shop;
  shop.Shop::post(
      R"({ do = "receipt", date = 2025-06-11, paid = { cash = 12.00 }, total = 12.00, itemised = false, line = [
           { what = "hose", amount = 12.00, kind = "part", to = "wren" }] })");
  const Answer room = shop.get("/receipt");
  CHECK(read_aloud(room) ==
        "Receipt\n"
        "photo []\n"
        "amount paid, tax included []\n"
        "car pip *wren tools overhead owner\n"
        "More\n"
        "what it was [] a word, a line of the budget, or that line's number\n"
        "1 radiator, 62.00 2 brake pads, 31.00 bought lately\n"
        "who sold it []\n"
        "purse *cash card\n"
        "deposit on top, for the old part []\n"
        "the old part back by []\n"
        "paper *it waits in the tray for its paper there was no paper\n"
        "another day than today []\n"
        "[Keep, cash]\n");
  const Answer kept = shop.PageShop::post("/entry", {{"kept", hidden_value(room, "kept")},
                                                     {"do", "receipt"},
                                                     {"next", "/receipt"},
                                                     {"amount", "60"},
                                                     {"vehicle", "wren"},
                                                     {"purse", "cash"},
                                                     {"what", ""},
                                                     {"supplier", ""}});
  CHECK(kept.location == "/receipt?entry=11");
  const Answer after = shop.get(kept.location);
  CHECK(read_aloud(after).substr(0, 300) ==
        "Receipt\n"
        "In the book: entry 11, receipt: not named yet. <Put it right -> /correct/11>\n"
        "What was it?\n"
        "[radiator] [brake pads]\n"
        "Other car than wren\n"
        "[pip]\n"
        "photo []\n"
        "amount paid, tax included []\n"
        "car pip *wren tools overhead owner\n"
        "More\n"
        "what it was [] a word, a line of the budget, or that line's number\n"
        "1 radia");
  const Answer named = shop.PageShop::post("/correct/11", {{"next", "/receipt"}, {"what", "radiator"}});
  CHECK(named.location == "/receipt?entry=13");
  CHECK(shop.event_of(13) ==
        "{ do = \"receipt\", date = 2025-06-30, paid = { cash = 60.00 }, total = 60.00, itemised = false, "
        "line = [{ id = \"11.1\", what = \"radiator\", qty = 1, amount = 60.00, kind = \"part\", to = "
        "\"wren\" }] }");
}

TEST_CASE("the clock goes on and off, and off is hours that may be done", "[page]") {
  Yard shop;
  CHECK(
      shop.PageShop::post("/entry", {{"do", "clock on"}, {"next", "/hours"}, {"vehicle", "pip"}}).location ==
      "/hours");
  shop.now = "2025-06-30T13:30:00Z";
  const Answer running = shop.get("/hours");
  CHECK(read_aloud(running) ==
        "Hours\n"
        "1.5 hours\n"
        "on pip, the clock runs.\n"
        "what was done\n"
        "[x] work\n"
        "[ ] 4 strip and fill\n"
        "It was another time\n"
        "hours, such as 2.5 []\n"
        "[Keep] [Keep, done]\n"
        "Hours after work\n"
        "car *pip wren\n"
        "own hours, in quarters []\n"
        "what was done [] words, or the number of a line of the budget\n"
        "4 strip and fill\n"
        "another day than today []\n"
        "[Keep] [Keep, done]\n");
  const Answer off = shop.PageShop::post(
      "/entry", {{"do", "clock off"}, {"next", "/hours"}, {"operation", "strip and fill"}, {"done", "true"}});
  CHECK(off.location == "/hours?entry=10");
  CHECK(shop.event_of(10) ==
        "{ do = \"hours\", date = 2025-06-30, vehicle = \"pip\", operation = \"strip and fill\", own = 1.5, "
        "done = true }");
}

TEST_CASE("a clock that was forgotten asks how long it really was", "[page]") {
  Yard shop;
  shop.record([](book::Recording& recording) { start_clock(recording, "me", "pip", "work"); });
  shop.now = "2025-07-01T12:00:00Z";
  shop.today = Day(2025, 7, 1);
  CHECK(says(shop.get("/hours"),
             "The clock was forgotten, it seems: it began 2025-06-30T12:00:00Z. How long was it "
             "really?\nhours, such as 2.5 []\n"));
  const Answer off = shop.PageShop::post(
      "/entry", {{"do", "clock off"}, {"next", "/hours"}, {"operation", ""}, {"hours", "2.5"}});
  CHECK(off.location == "/hours?entry=10");
}

TEST_CASE("hours after work take the number of a line for its name", "[page]") {
  Yard shop;
  shop.PageShop::post("/entry", {{"do", "hours"}, {"vehicle", "pip"}, {"own", "2.25"}, {"operation", "4"}});
  CHECK(
      shop.event_of(10) ==
      "{ do = \"hours\", date = 2025-06-30, vehicle = \"pip\", operation = \"strip and fill\", own = 2.25 }");
}

TEST_CASE("what is due is brought back with the amount that stands ready", "[page]") {
  Yard shop;
  shop.Shop::post(
      R"({ do = "receipt", date = 2025-06-10, supplier = "Millgate Parts", number = "77", paid = { card = 64.00 }, total = 64.00, back_by = 2025-07-10, line = [
           { what = "coolant pump", unit = 46.00, core = 18.00, core_by = 2025-07-03, kind = "part", source = "new", to = "pip" }] },
         { do = "tool deposit", date = 2025-06-12, supplier = "Millgate Parts", what = "puller", amount = 20.00, purse = "cash", back_by = 2025-06-28 })");
  const Answer room = shop.get("/due");
  CHECK(read_aloud(room) ==
        "Due\n"
        "38.00\n"
        "to come back, by last day. <Into the phone's calendar -> /due.ics>\n"
        "2025-06-28 Sat, 2 days late: deposit on puller, 20.00, at Millgate Parts\n"
        "came back [20.00]\n"
        "purse *cash card\n"
        "[Brought back]\n"
        "2025-07-03 Thu, in 3 days: core of coolant pump, 18.00, at Millgate Parts, pip\n"
        "came back [18.00]\n"
        "purse cash *card\n"
        "[Brought back]\n"
        "May still go back\n"
        "2025-07-10 Thu, in 10 days: coolant pump, 46.00, at Millgate Parts\n"
        "for the goods [46.00]\n"
        "tax that came back [0.00]\n"
        "kept by the shop []\n"
        "purse cash *card\n"
        "[Went back]\n");
  shop.PageShop::post("/entry", {{"do", "core back"},
                                 {"next", "/due"},
                                 {"line", "10.1"},
                                 {"qty", "1"},
                                 {"amount", "18.00"},
                                 {"purse", "card"}});
  CHECK(shop.event_of(12) ==
        "{ do = \"core back\", date = 2025-06-30, line = \"10.1\", qty = 1, amount = 18.00, purse = \"card\" "
        "}");
}

TEST_CASE("what is bought from the shopping list is a quick line of that car", "[page]") {
  Yard shop;
  CHECK(read_aloud(shop.get("/shopping")) ==
        "Shopping\n"
        "At the counter\n"
        "coolant pump, pip: 48.00\n"
        "price paid, tax included [48.00]\n"
        "where []\n"
        "purse *choose one cash card\n"
        "[Bought]\n"
        "thermostat, pip: 19.00\n"
        "price paid, tax included [19.00]\n"
        "where []\n"
        "purse *choose one cash card\n"
        "[Bought]\n"
        "radiator, wren: 62.00\n"
        "price paid, tax included [62.00]\n"
        "where []\n"
        "purse *choose one cash card\n"
        "[Bought]\n"
        "brake pads, wren: 31.00\n"
        "price paid, tax included [31.00]\n"
        "where []\n"
        "purse *choose one cash card\n"
        "[Bought]\n"
        "+ a line by hand\n"
        "car *pip wren\n"
        "what is needed []\n"
        "about how much []\n"
        "pieces []\n"
        "own hours for it []\n"
        "[Add it]\n");
}

TEST_CASE("the tray asks whether a second entry is the same", "[page]") {
  Yard shop;
  const Fields form = {
      {"do", "receipt"}, {"vehicle", "wren"}, {"amount", "60"}, {"what", "radiator"}, {"purse", "cash"}};
  shop.put("/entry/0123456789abcdef0123456789abcdef", form);
  shop.put("/entry/123456789abcdef0123456789abcdef0", form);
  const Answer room = shop.get("/tray");
  CHECK(
      read_aloud(room) ==
      "Tray\n"
      "entry 11, receipt of 2025-06-30 Mon: radiator may be the same as entry 10, receipt of 2025-06-30 Mon: "
      "radiator.\n"
      "[The same] [Another one]\n"
      "Waiting for their paper, oldest first\n"
      "day, and its paper | car | what | total | supplier | photo | wrong?\n"
      "<2025-06-30 Mon -> /paper/10> | wren | radiator | 60.00 | | no photo | <put it right -> /correct/10>\n"
      "<2025-06-30 Mon -> /paper/11> | wren | radiator | 60.00 | | no photo | <put it right -> /correct/11>\n"
      "<A paper that no quick line waits for -> /paper/new>\n");
  CHECK(shop.PageShop::post("/tray", {{"id", "123456789abcdef0123456789abcdef0"}, {"is", "the same"}})
            .location == "/tray");
  CHECK(book::may_be_the_same(shop.book()).empty());
  CHECK(shop.purse("cash") == book::usd("1340.00"));
}

TEST_CASE("a paper of six lines for two cars is the same entry by its form and by its file", "[page]") {
  const std::string file =
      R"({ do = "receipt", date = 2025-06-20, supplier = "Millgate Parts", number = "8841", paid = "card", tax = 16.31, discount = 5.00, total = 227.30, line = [
    { what = "coolant pump", unit = 46.00, core = 18.00, kind = "part", source = "new", to = "pip", taxed = true },
    { what = "thermostat", unit = 18.50, kind = "part", source = "new", to = "pip", taxed = true },
    { what = "radiator", unit = 61.00, kind = "part", source = "new", to = "wren", taxed = true },
    { what = "brake pads", unit = 32.00, kind = "part", source = "new", to = "wren", taxed = true },
    { what = "hose clamp", qty = 4, unit = 1.25, kind = "part", source = "new", to = "pip", taxed = true },
    { what = "coolant", qty = 3, unit = 11.83, kind = "consumable", to = "wren", taxed = true }] })";
  Yard by_file;
  by_file.Shop::post(file);
  Yard by_form;
  const Fields typed = {{"supplier", "Millgate Parts"},
                        {"number", "8841"},
                        {"date", "2025-06-20"},
                        {"line.1.what", "1"},
                        {"line.1.unit", "46"},
                        {"line.1.core", "18"},
                        {"line.1.taxed", "on"},
                        {"line.2.what", "2"},
                        {"line.2.unit", "18.5"},
                        {"line.2.taxed", "on"},
                        {"line.3.what", "1"},
                        {"line.3.unit", "61"},
                        {"line.3.to", "wren"},
                        {"line.3.taxed", "on"},
                        {"line.4.what", "2"},
                        {"line.4.unit", "32"},
                        {"line.4.to", "wren"},
                        {"line.4.taxed", "on"},
                        {"line.5.what", "hose clamp"},
                        {"line.5.qty", "4"},
                        {"line.5.unit", "1.25"},
                        {"line.5.taxed", "on"},
                        {"line.6.what", "coolant"},
                        {"line.6.qty", "3"},
                        {"line.6.unit", "11.83"},
                        {"line.6.to", "wren"},
                        {"line.6.kind", "consumable"},
                        {"line.6.taxed", "on"},
                        {"tax", "16.31"},
                        {"discount", "5"},
                        {"total", "227.30"}};
  Fields form = {{"do", "receipt"}, {"next", "/tray"}, {"paid", "card"}};
  for (int line = 1; line <= 8; ++line) {
    const std::string at = "line." + std::to_string(line) + ".";
    form.emplace_back(at + "source", "new");
    form.emplace_back(at + "to", "pip");
  }
  // What is typed stands in place of what the form was filled in with.
  for (const auto& [name, value] : typed) {
    std::erase_if(form, [key = name](const auto& each) { return each.first == key; });
    form.emplace_back(name, value);
  }
  std::erase_if(form, [](const auto& each) { return each.first == "line.6.source"; });
  CHECK(by_form.PageShop::post("/entry", form).location == "/tray?entry=10");
  CHECK(by_form.event_of(10) == by_file.event_of(10));
}
