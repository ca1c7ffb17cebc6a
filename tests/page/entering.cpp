// The rooms in which things are entered: what each offers, and what a form of it records.
#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "book/care/devices.h"
#include "book/events/attach.h"
#include "book/events/clock.h"
#include "book/ledger/kept.h"
#include "book/ledger/line.h"
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
        "amount paid, tax included, without a deposit []\n"
        "car pip *wren tools overhead owner\n"
        "More\n"
        "what it was [] a word, a line of the budget, or that line's number\n"
        "pip: 1 coolant pump, 48.00 pip: 2 thermostat, 19.00 wren: 1 radiator, 62.00 wren: 2 brake pads, "
        "31.00 bought lately\n"
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
  CHECK_THAT(shop.event_of(11), Catch::Matchers::Contains("what = \"not named yet\"") &&
                                    Catch::Matchers::Contains("unnamed = true"));
  const Answer after = shop.get(kept.location);
  const std::string said = read_aloud(after);
  CHECK(said.substr(0, said.find("photo []")) ==
        "Receipt\n"
        "In the book: entry 11, receipt: not named yet; 60.00 from cash; it waits in the tray for its paper. "
        "<Put it right -> /correct/11>\n"
        "What was it?\n"
        "[radiator] [brake pads]\n"
        "Other car than wren\n"
        "[pip]\n");
  const Answer named = shop.PageShop::post("/correct/11", {{"next", "/receipt"}, {"what", "radiator"}});
  CHECK(named.location == "/receipt?entry=13");
  CHECK(shop.event_of(13) ==
        "{ do = \"receipt\", date = 2025-06-30, paid = { cash = 60.00 }, total = 60.00, itemised = false, "
        "line = [{ id = \"11.1\", what = \"radiator\", qty = 1, amount = 60.00, kind = \"part\", to = "
        "\"wren\" }], corrects = 11 }");
}

TEST_CASE("the car that is chosen is the one last worked on of those that are here", "[page]") {
  Yard shop;
  shop.Shop::post(
      R"({ do = "hours", date = 2025-06-10, vehicle = "pip", operation = "strip", own = 1 },
         { do = "receipt", date = 2025-06-11, paid = { cash = 12.00 }, total = 12.00, itemised = false, line = [
           { what = "hose", amount = 12.00, kind = "part", to = "wren" }] })");
  CHECK(says(shop.get("/receipt"), "car pip *wren tools"));
  CHECK(says(shop.get("/hours"), "pip *wren"));
  shop.Shop::post(
      R"({ do = "hours", date = 2025-06-12, vehicle = "pip", operation = "fill", own = 1 },
         { do = "hours", date = 2025-06-13, vehicle = "wren", operation = "wash", own = 1 },
         { do = "sell", date = 2025-06-14, vehicle = "wren", price = 1200.00, purse = "cash" })");
  CHECK(says(shop.get("/receipt"), "car *pip tools"));
  CHECK(says(shop.get("/hours"), "*pip"));
}

TEST_CASE("a purse that an entry leaves below nothing is named behind it", "[page]") {
  Yard shop;
  const Answer kept = shop.PageShop::post(
      "/entry",
      {{"do", "receipt"}, {"next", "/receipt"}, {"amount", "9000"}, {"vehicle", "wren"}, {"purse", "cash"}});
  const std::string said = read_aloud(shop.get(kept.location));
  CHECK_THAT(said, Catch::Matchers::Contains(
                       "receipt: not named yet; 9,000.00 from cash; it waits in the tray for its "
                       "paper. cash is at -") &&
                       Catch::Matchers::Contains(" with that. <Put it right -> "));
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
        "hours, such as 2.5 or 1:30 []\n"
        "[Keep] [Keep, done]\n"
        "Hours after work\n"
        "car *pip wren\n"
        "own hours, such as 2.5 or 1:30 []\n"
        "what was done [] words, or the number of a line of the budget\n"
        "pip: 4 strip and fill\n"
        "another day than today []\n"
        "[Keep] [Keep, done]\n");
  const Answer off = shop.PageShop::post(
      "/entry", {{"do", "clock off"}, {"next", "/hours"}, {"operation", "strip and fill"}, {"done", "true"}});
  CHECK(off.location == "/hours?entry=10");
  CHECK(shop.event_of(10) ==
        "{ do = \"hours\", date = 2025-06-30, vehicle = \"pip\", operation = \"strip and fill\", own = 1.5, "
        "done = true }");
}

TEST_CASE("hours from a phone while its person's clock runs are taken, and asked about in the tray",
          "[page]") {
  Yard shop;
  shop.record([](book::Recording& recording) { start_clock(recording, "me", "pip", "work"); });
  const book::Paired paired = [&] {
    book::Recording recording(shop.book(), shop.now, shop.today);
    const std::string code = open_code(recording);
    auto made = pair(recording, code, "kitchen phone", "me", "http://127.0.0.1:8417");
    recording.keep();
    return made;
  }();
  REQUIRE(paired.why == book::Paired::Why::paired);
  CHECK_FALSE(says(shop.get("/tray"), "meanwhile"));
  shop.put(
      "/entry/" + std::string(32, 'a'),
      {{"do", "hours"}, {"vehicle", "wren"}, {"operation", "strip"}, {"own", "2.25"}, {"day", "2025-06-30"}});
  CHECK(shop.last() == 10);
  CHECK(says(shop.get("/tray"),
             "Your clock runs on pip, and meanwhile came entry 10, hours of 2025-06-30 Mon: wren, strip."));
  CHECK(says(shop.get("/hours"),
             "Since the clock began, entry 10, hours of 2025-06-30 Mon: wren, strip came in as well."));
}

TEST_CASE("a clock that was forgotten asks how long it really was", "[page]") {
  Yard shop;
  shop.record([](book::Recording& recording) { start_clock(recording, "me", "pip", "work"); });
  shop.now = "2025-07-01T12:00:00Z";
  shop.today = Day(2025, 7, 1);
  CHECK(says(
      shop.get("/hours"),
      "The clock was forgotten, it seems: it began 2025-06-30 Mon 12:00. How long was it really?\n"
      "hours\n[ ] 1\n[ ] 2\n[ ] 3\n[ ] 4\nor another number, such as 2.5 or 1:30 []\n[Keep] [Keep, done]\n"));
  const Answer off = shop.PageShop::post(
      "/entry",
      {{"do", "clock off"}, {"next", "/hours"}, {"operation", ""}, {"hours", ""}, {"other_hours", "2.5"}});
  CHECK(off.location == "/hours?entry=10");
}

TEST_CASE("hours after work take the number of a line for its name", "[page]") {
  Yard shop;
  shop.PageShop::post("/entry", {{"do", "hours"}, {"vehicle", "pip"}, {"own", "2.25"}, {"operation", "4"}});
  CHECK(
      shop.event_of(10) ==
      "{ do = \"hours\", date = 2025-06-30, vehicle = \"pip\", operation = \"strip and fill\", own = 2.25 }");
}

TEST_CASE("hours are typed with a comma, or as hours and minutes", "[page]") {
  Yard shop;
  // A field for numbers would drop the comma in the browser.
  CHECK(shop.get("/hours").body.find("type=\"number\"") == std::string::npos);
  for (const auto& [typed, kept] : {std::pair{"0,5", "0.5"}, {"1:30", "1.5"}, {"0:20", "0.333"}}) {
    INFO(typed);
    shop.PageShop::post("/entry", {{"do", "hours"}, {"vehicle", "pip"}, {"own", typed}, {"operation", "4"}});
    CHECK(shop.event_of(shop.last()) ==
          "{ do = \"hours\", date = 2025-06-30, vehicle = \"pip\", operation = \"strip and fill\", own = " +
              std::string(kept) + " }");
  }
  shop.record([](book::Recording& recording) { start_clock(recording, "me", "wren", "work"); });
  for (const auto& [typed, kept] : {std::pair{"2,5", "2.5"}, {"1:15", "1.25"}}) {
    INFO(typed);
    shop.now = "2025-06-30T13:30:00Z";
    shop.PageShop::post("/entry", {{"do", "clock off"}, {"next", "/hours"}, {"hours", typed}});
    CHECK(shop.event_of(shop.last()) ==
          "{ do = \"hours\", date = 2025-06-30, vehicle = \"wren\", operation = \"work\", own = " +
              std::string(kept) + " }");
    shop.record([](book::Recording& recording) { start_clock(recording, "me", "wren", "work"); });
  }
  const book::EntryId before = shop.last();
  const Answer refused =
      shop.PageShop::post("/entry", {{"do", "hours"}, {"vehicle", "pip"}, {"own", "1:75"}});
  CHECK(refused.status == 422);
  CHECK(says(refused, "expected a number of hours with at most 3 decimals"));
  CHECK(shop.last() == before);
}

TEST_CASE("a tool's deposit is brought back by the name of the tool, and a yard's credit is spent",
          "[page]") {
  Yard shop;
  const book::EntryId before = shop.Shop::post(
      R"({ do = "tool deposit", date = 2025-06-12, supplier = "Millgate Parts", what = "puller", amount = 20.00, purse = "cash" },
         { do = "owner in", date = 2025-06-13, purse = "yard-credit", amount = 12.00 })");
  const Answer room = shop.get("/due");
  CHECK(room.body.find("name=\"what\" value=\"puller\"") != std::string::npos);
  CHECK(room.body.find("credit in the purse yard-credit, 12.00, at yard-credit</summary>\n"
                       "<p>It goes when something is paid out of the purse yard-credit.</p>") !=
        std::string::npos);
  shop.PageShop::post("/entry", {{"do", "tool deposit back"},
                                 {"next", "/due"},
                                 {"what", "puller"},
                                 {"supplier", "Millgate Parts"},
                                 {"amount", "20.00"},
                                 {"purse", "cash"}});
  CHECK(shop.event_of(before + 1).starts_with("{ do = \"tool deposit back\", "));
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
        "A line by hand\n"
        "car pip *wren\n"
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
      "2025-06-30 Mon <Write the paper -> /paper/10> | wren | radiator | 60.00 | | no photo | <put it right "
      "-> /correct/10>\n"
      "2025-06-30 Mon <Write the paper -> /paper/11> | wren | radiator | 60.00 | | no photo | <put it right "
      "-> /correct/11>\n"
      "<A paper that no quick line waits for -> /paper/new>\n"
      "<What a phone saved as a file -> /device>\n");
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
  // What is typed, with a key to go on for each field of the paper that is passed, beside the file's characters. The
  // purse, the cars of two lines in three and what each line is stand there already; a car is chosen by its letter,
  // a tick is one key.
  const std::size_t keys_to_go_on = 3 + 6 * 6 + 5;
  std::size_t keys = keys_to_go_on;
  for (const auto& [name, value] : typed) {
    const bool chosen = name == "date" || name.ends_with(".to") || name.ends_with(".taxed");
    keys += chosen ? 1 : value.size();
  }
  CHECK(keys * 100 <= file.size() * 60);
}

TEST_CASE("a paper that does not add up comes back as it was typed, with its reason", "[page]") {
  Yard shop;
  const Answer answer = shop.PageShop::post("/entry", {{"do", "receipt"},
                                                       {"next", "/tray"},
                                                       {"supplier", "Millgate Parts"},
                                                       {"date", "2025-06-20"},
                                                       {"line.1.what", "thermostat"},
                                                       {"line.1.unit", "18.50"},
                                                       {"line.1.to", "pip"},
                                                       {"total", "19.50"},
                                                       {"paid", "card"}});
  CHECK(answer.status == 422);
  const std::string text = read_aloud(answer);
  CHECK(text.find(
            "A paper\nreceipt: lines + tax + shipping - discount = 18.50, printed total 19.50: 1.00 apart; "
            "nothing recorded\n") == 0);
  CHECK(text.find("what [thermostat]\n") != std::string::npos);
  CHECK(shop.last() == 9);
}

TEST_CASE(
    "without a script each line of a paper has a choice of cars, of a long one and of one sent back too",
    "[page]") {
  Yard shop;
  const auto choices = [](const Answer& page, const std::string& line) {
    const std::string text = read_aloud(page);
    const std::size_t at = text.find("\ncar ", text.find("\nline " + line + "\n"));
    return text.substr(at + 1, text.find('\n', at + 1) - at - 1);
  };
  CHECK(choices(shop.get("/paper/new"), "1") == "car pip *wren tools overhead owner");
  CHECK(choices(shop.get("/paper/new"), "3") == "car [wren]");
  CHECK(read_aloud(shop.get("/paper/new")).find("\nline 4\n") == std::string::npos);
  CHECK(shop.get("/paper/new").body.find("<datalist id=\"cars\"><option value=\"pip\">") !=
        std::string::npos);
  Fields form = {{"do", "receipt"}, {"supplier", "Cleave Yard"}, {"total", "19.50"}, {"paid", "cash"}};
  // Longer, with what stands in it, and nothing is kept.
  Fields longer_form = form;
  longer_form.insert(longer_form.end(),
                     {{"line.1.what", "thermostat"}, {"line.3.to", "wren"}, {"longer", "true"}});
  const Answer longer = shop.PageShop::post("/entry", longer_form);
  CHECK(longer.status == 200);
  CHECK(choices(longer, "9") == "car [pip]");
  CHECK(read_aloud(longer).find("\nwhat [thermostat]\n") != std::string::npos);
  CHECK(read_aloud(longer).find("[6 more lines; nothing is kept yet]") != std::string::npos);
  CHECK(shop.last() == 9);
  for (const char* number : {"1", "8"}) {
    form.emplace_back(fmt::format("line.{}.what", number), "thermostat");
    form.emplace_back(fmt::format("line.{}.unit", number), "9");
    form.emplace_back(fmt::format("line.{}.to", number), "wren");
  }
  const Answer back = shop.PageShop::post("/entry", form);
  CHECK(back.status == 422);
  CHECK(choices(back, "8") == "car [wren]");
  form[2].second = "18";
  CHECK(shop.PageShop::post("/entry", form).status == 303);
  CHECK(shop.last() == 10);
}

TEST_CASE("a thousand with a point is refused by every form that takes money, as at the prompt", "[page]") {
  Yard shop;
  const std::string asked = "found \"1.250\", which may be 1250 or 1.250; write 1250 or 1.25";
  const auto said = [&](const std::string& path, const Fields& fields) {
    const Answer answer = shop.PageShop::post(path, fields);
    CHECK(answer.status == 422);
    return read_aloud(answer);
  };
  CHECK_THAT(said("/entry", {{"do", "receipt"},
                             {"next", "/receipt"},
                             {"vehicle", "wren"},
                             {"purse", "cash"},
                             {"amount", "1.250"}}),
             Catch::Matchers::Contains(asked));
  CHECK_THAT(said("/entry", {{"do", "receipt"},
                             {"next", "/tray"},
                             {"supplier", "Millgate Parts"},
                             {"line.1.what", "gearbox"},
                             {"line.1.amount", "1250"},
                             {"line.1.to", "pip"},
                             {"total", "1250"},
                             {"paid.cash", "1.250"}}),
             Catch::Matchers::Contains(asked));
  const Answer kept = shop.PageShop::post(
      "/entry",
      {{"do", "receipt"}, {"next", "/receipt"}, {"vehicle", "wren"}, {"purse", "cash"}, {"amount", "60"}});
  CHECK(kept.status == 303);
  CHECK_THAT(said(fmt::format("/correct/{}", shop.last()), {{"next", "/"}, {"amount", "1.250"}}),
             Catch::Matchers::Contains(asked));
  // A share of a paper is no money, nor are hours.
  const Answer hours = shop.PageShop::post(
      "/entry",
      {{"do", "hours"}, {"next", "/"}, {"vehicle", "wren"}, {"own", "1.250"}, {"operation", "brakes"}});
  CHECK(hours.status == 303);
}

TEST_CASE("a paper takes the place of its quick line, whose photograph stands beside it", "[page]") {
  Yard shop;
  const std::string id = "0123456789abcdef0123456789abcdef";
  shop.put("/entry/" + id, {{"do", "receipt"},
                            {"vehicle", "wren"},
                            {"amount", "60"},
                            {"purse", "card"},
                            {"supplier", "Cleave Yard"}});
  shop.put_photo("/entry/" + id + "/photo", "\xff\xd8\xff\xe0 a picture");
  CHECK(shop.get("/paper/9").status == 404);
  const Answer room = shop.get("/paper/10");
  const std::string text = read_aloud(room);
  CHECK(text.substr(0, text.find("line 2\n")) ==
        "The paper of entry 10\n"
        "It takes the place of the quick line of wren: not named yet, 60.00, of 2025-06-30 Mon.\n"
        "(the photo of this paper)\n"
        "supplier [Cleave Yard]\n"
        "number, as printed []\n"
        "day printed on it [2025-06-30]\n"
        "pip: 1 coolant pump, 48.00 pip: 2 thermostat, 19.00 wren: 1 radiator, 62.00 wren: 2 brake pads, "
        "31.00\n"
        "line 1\n"
        "what []\n"
        "pieces []\n"
        "price of one []\n"
        "car pip *wren tools overhead owner\n"
        "deposit on one []\n"
        "[ ] taxed\n"
        "More of line 1\n"
        "or amount of all of them []\n"
        "what it is to the shop (else guessed) []\n"
        "where it comes from []\n"
        "old part back by []\n"
        "goes to the shelf as []\n");
  const std::string hash = room.body.substr(room.body.find("/photo/") + 7, 64);
  const Answer photo = shop.get("/photo/" + hash);
  CHECK(photo.type == "image/jpeg");
  CHECK(photo.file == shop.book().attachments() / hash);
  CHECK(shop.get("/photo/" + std::string(64, 'a')).status == 404);
  const Answer kept = shop.PageShop::post("/entry", {{"do", "receipt"},
                                                     {"next", "/tray"},
                                                     {"replaces", "10"},
                                                     {"supplier", "Cleave Yard"},
                                                     {"date", "2025-06-30"},
                                                     {"line.1.what", "radiator"},
                                                     {"line.1.unit", "60"},
                                                     {"line.1.to", "wren"},
                                                     {"total", "60.00"},
                                                     {"paid", "card"}});
  CHECK(kept.location == "/tray?entry=13");
  CHECK(says(shop.get("/tray"), "The tray is empty: every paper is in the book.\n"));
  REQUIRE(book::photos_of(shop.book(), 13).size() == 1);
  CHECK(book::photos_of(shop.book(), 13).front().sha256 == hash);
}

TEST_CASE("an entry is put right by the form that holds what it says, and only what is changed is",
          "[page]") {
  Yard shop;
  CHECK(read_aloud(shop.get("/correct/3")) ==
        "Entry 3, buy of 2025-06-02 Mon\n"
        "car *pip wren\n"
        "amount [900.00]\n"
        "purse *cash card\n"
        "day [2025-06-02]\n"
        "[Put it right]\n"
        "Take it back\n"
        "why []\n"
        "[Take it back]\n"
        "Add a photo\n"
        "photo []\n"
        "[Keep]\n");
  const Answer same = shop.PageShop::post(
      "/correct/3", {{"vehicle", "pip"}, {"amount", "900.00"}, {"purse", "cash"}, {"date", "2025-06-02"}});
  CHECK(same.status == 422);
  CHECK(
      says(same,
           "correct: nothing of entry 3 is changed, expected another car, amount, day, purse, words or line "
           "of the budget\n"));
  const Answer changed = shop.PageShop::post(
      "/correct/3", {{"vehicle", "pip"}, {"amount", "880"}, {"purse", "cash"}, {"date", "2025-06-02"}});
  CHECK(changed.location == "/entries?entry=11");
  CHECK(shop.event_of(11).find("vehicle = \"pip\", price = 880.00, purse = \"cash\"") != std::string::npos);
  CHECK(says(shop.get("/entries?entry=11"),
             "In the book: entry 11, buy: pip, cash; 880.00 from cash; dated 2025-06-02 Mon. <Put it right "
             "-> /correct/11>\n"));
}

TEST_CASE("what a device entered last is taken back, and nothing that another one did", "[page]") {
  Yard shop;
  shop.PageShop::post("/entry", {{"do", "hours"}, {"vehicle", "pip"}, {"own", "1"}, {"operation", "strip"}});
  const std::string offered =
      "Entered last on this device:\nentry 10, hours of 2025-06-30 Mon: pip, strip [Take that back]\n";
  INFO(read_aloud(shop.get("/entries")));
  CHECK(says(shop.get("/entries"), offered));
  shop.device = "laptop";
  CHECK(shop.PageShop::post("/undo", {}).status == 422);
  CHECK_FALSE(says(shop.get("/entries"), "[Take that back]"));
  shop.device = "kitchen phone";
  CHECK(read_aloud(shop.PageShop::post("/undo", {})) ==
        "Done\n"
        "taken back: entry 10, hours of 2025-06-30: pip, strip\n"
        "<Go on -> /entries>\n");
  CHECK(shop.last() == 11);
}

TEST_CASE("an undo names what would count again, and takes nothing that was entered after it was shown",
          "[page]") {
  Yard shop;
  shop.PageShop::post("/correct/3", {{"vehicle", "pip"}, {"amount", "880"}, {"purse", "cash"}});
  const Answer shown = shop.get("/entries");
  CHECK(says(shown,
             "Entered last on this device:\n"
             "entry 11, buy of 2025-06-02 Mon: pip, cash\n"
             "taken back, and would count again: entry 3, buy of 2025-06-02 Mon: pip, cash "
             "[Take that back]\n"));
  const std::string last = hidden_value(shown, "last");
  CHECK(last == "11");
  shop.Shop::post(R"({ do = "hours", date = 2025-06-30, vehicle = "wren", operation = "wash", own = 1 })");
  const Answer stale = shop.PageShop::post("/undo", {{"last", last}});
  CHECK(stale.status == 422);
  CHECK(
      says(stale,
           "undo: something was entered since this page was shown; look at it again, and take back then\n"));
  CHECK(shop.last() == 12);
  const Answer again = shop.get("/entries");
  CHECK(read_aloud(shop.PageShop::post("/undo", {{"last", hidden_value(again, "last")}})) ==
        "Done\n"
        "taken back: entry 11, buy of 2025-06-02: pip, cash\n"
        "as it was, now entry 14, buy of 2025-06-02: pip, cash\n"
        "<Go on -> /entries>\n");
}

TEST_CASE("more of a car offers what else happens to it, from the fields of its events", "[page]") {
  Yard shop;
  const Answer room = shop.get("/car/pip/more");
  const std::string text = read_aloud(room);
  CHECK(text.substr(0, text.find("A part to the shelf\n")) ==
        "More of pip\n"
        "A photograph\n"
        "photo []\n"
        "what it shows [photograph]\n"
        "[Keep]\n"
        "A note\n"
        "what was found []\n"
        "the cause that was found, as the job file calls it (may be left out) []\n"
        "another day than today []\n"
        "[Keep]\n"
        "A trip\n"
        "how far, there and back []\n"
        "what for []\n"
        "where from (may be left out) []\n"
        "where to (may be left out) []\n"
        "another day than today []\n"
        "[Keep]\n"
        "A part to another car\n"
        "the car that it goes to; or overhead: tools kept as an asset that are worn out []\n"
        "what is moved []\n"
        "at what cost []\n"
        "the receipt line of the tool, or of the part, whose deposit goes along (else the only one named so) "
        "(may be left out) *none\n"
        "another day than today []\n"
        "[Keep]\n");
  CHECK(shop.PageShop::post("/entry", {{"do", "transfer"},
                                       {"next", "/car/pip"},
                                       {"from", "pip"},
                                       {"to", "wren"},
                                       {"what", "starter"},
                                       {"amount", "35"},
                                       {"line", ""},
                                       {"date", ""}})
            .location == "/car/pip?entry=10");
  CHECK(shop.event_of(10) ==
        "{ do = \"transfer\", date = 2025-06-30, from = \"pip\", to = \"wren\", what = \"starter\", amount = "
        "35.00 }");
  CHECK(shop.get("/car/nobody/more").status == 422);
}

TEST_CASE("every way on a page leads to a road of the table", "[page]") {
  Yard shop;
  shop.PageShop::post("/entry", {{"do", "receipt"}, {"vehicle", "pip"}, {"amount", "60"}, {"purse", "card"}});
  for (const char* path : {"/", "/receipt", "/receipt?entry=10", "/hours", "/tray", "/paper/new", "/paper/10",
                           "/due", "/shopping", "/entries", "/correct/10", "/car/pip/more"}) {
    const Answer answer = shop.get(path);
    INFO(path);
    CHECK(answer.status == 200);
    for (const char* attribute : {"href=\"", "action=\""})
      for (std::size_t at = 0; (at = answer.body.find(attribute, at)) != std::string::npos; ++at) {
        const std::size_t begin = answer.body.find('"', at) + 1;
        std::string to = answer.body.substr(begin, answer.body.find('"', begin) - begin);
        to.erase(std::min(to.find('?'), to.size()));
        const bool form = std::string(attribute) == "action=\"";
        std::vector<std::string> stars;
        bool known = false;
        INFO(to);
        to == "/seller" || to == "/year" || (to.starts_with("/car/") && !to.ends_with("/more"));
        CHECK(road_of(form ? "POST" : "GET", to, stars, known) != nullptr);
      }
  }
}

TEST_CASE("a day that has not come is refused by a form, and what a phone kept for it is told so", "[page]") {
  Yard shop;
  const auto before = book::last_entry(shop.book());
  const Answer hours = shop.PageShop::post(
      "/entry",
      {{"do", "hours"}, {"vehicle", "pip"}, {"own", "2"}, {"operation", "strip"}, {"date", "2025-07-01"}});
  CHECK(says(hours, "the day 2025-07-01 has not come yet, expected 2025-06-30 at the latest"));
  const Answer kept = shop.put(
      "/entry/" + std::string(32, 'a'),
      {{"do", "receipt"}, {"vehicle", "pip"}, {"amount", "12.50"}, {"purse", "cash"}, {"day", "2025-07-01"}});
  CHECK(kept.status == 422);
  CHECK(kept.body.find("the day 2025-07-01 has not come yet") != std::string::npos);
  CHECK(book::last_entry(shop.book()) == before);
}

TEST_CASE("a line of a form is what its budget line is, as at the prompt", "[page]") {
  Yard shop;
  shop.PageShop::post("/entry", {{"do", "receipt"},
                                 {"vehicle", "pip"},
                                 {"amount", "12.50"},
                                 {"what", "thermostat"},
                                 {"purse", "cash"}});
  shop.PageShop::post(
      "/entry",
      {{"do", "receipt"}, {"vehicle", "tools"}, {"amount", "9"}, {"what", "file"}, {"purse", "cash"}});
  const auto kind_of = [&](const char* line) { return book::find_line(shop.book(), line)->kind; };
  const auto last = book::last_entry(shop.book());
  CHECK(kind_of(fmt::format("{}.1", last - 1).c_str()) == "part");
  CHECK(kind_of(fmt::format("{}.1", last).c_str()) == "tool");
}

TEST_CASE("a clock that was forgotten began when the clock on the wall said so", "[page]") {
  Yard shop;
  shop.record([](book::Recording& recording) { start_clock(recording, "me", "pip", "work"); });
  shop.now = "2025-07-01T12:00:00Z";
  shop.today = Day(2025, 7, 1);
  const char* before = std::getenv("TZ");
  const std::string was = before ? before : "";
  ::setenv("TZ", "XXX-5:30", 1);  // POSIX: five hours and a half before UTC
  ::tzset();
  CHECK(says(shop.get("/hours"), "it began 2025-06-30 Mon 17:30. How long"));
  if (before)
    ::setenv("TZ", was.c_str(), 1);
  else
    ::unsetenv("TZ");
  ::tzset();
}

TEST_CASE("of two cores one goes back, where that is said", "[page]") {
  Yard shop;
  shop.Shop::post(
      R"({ do = "receipt", date = 2025-06-10, supplier = "Millgate Parts", number = "78", paid = { card = 160.00 }, total = 160.00, back_by = 2025-07-10, line = [
           { what = "caliper", qty = 2, unit = 60.00, core = 20.00, core_by = 2025-07-03, kind = "part", source = "new", to = "pip" }] })");
  const Answer room = shop.get("/due");
  CHECK(says(room, "pieces [2]\ncame back [40.00]\n"));
  CHECK(says(room, "pieces [2]\nfor the goods [120.00]\n"));
  Fields back = {{"do", "core back"}, {"next", "/due"},    {"line", "10.1"},
                 {"qty", "1"},        {"amount", "40.00"}, {"purse", "card"}};
  CHECK_THAT(read_aloud(shop.PageShop::post("/entry", back)),
             Catch::Matchers::Contains("expected 0 to 20.00, the deposit that was paid"));
  back[4].second = "20.00";
  CHECK(shop.PageShop::post("/entry", back).status == 303);
  CHECK(says(shop.get("/due"), "came back [20.00]"));
}

TEST_CASE("an amount is typed as every page shows it, with a comma between the thousands", "[page]") {
  Yard shop;
  CHECK(shop.PageShop::post("/entry", {{"do", "receipt"},
                                       {"vehicle", "wren"},
                                       {"purse", "cash"},
                                       {"what", "gearbox"},
                                       {"amount", "1,450.00"}})
            .status == 303);
  CHECK_THAT(shop.event_of(10), Catch::Matchers::Contains("total = 1450.00"));
  CHECK(shop.PageShop::post("/correct/10", {{"amount", "1,350.50"}}).status == 303);
  CHECK_THAT(shop.event_of(12), Catch::Matchers::Contains("total = 1350.50"));
  // Two readings: a thousand, or one and a quarter.
  CHECK_THAT(
      read_aloud(shop.PageShop::post(
          "/entry", {{"do", "receipt"}, {"vehicle", "wren"}, {"purse", "cash"}, {"amount", "1,450"}})),
      Catch::Matchers::Contains("amount: found \"1,450\", which may be 1450 or 1.450; write 1450 or 1.45"));
}

TEST_CASE("a number that is no line's is no name of work or of a part", "[page]") {
  Yard shop;
  const auto said = [&](const Fields& fields) { return read_aloud(shop.PageShop::post("/entry", fields)); };
  CHECK_THAT(said({{"do", "hours"}, {"vehicle", "pip"}, {"own", "1"}, {"operation", "99"}}),
             Catch::Matchers::Contains(
                 "what was done: found \"99\", expected words, or the number of a line of pip's "
                 "budget, such as "));
  CHECK_THAT(
      said({{"do", "receipt"}, {"vehicle", "pip"}, {"purse", "cash"}, {"amount", "8"}, {"what", "99"}}),
      Catch::Matchers::Contains(
          "what: found \"99\", expected words, or the number of a line of pip's budget"));
  CHECK(shop.last() == 9);
  // A maker's number is longer.
  CHECK(shop.PageShop::post(
                "/entry",
                {{"do", "receipt"}, {"vehicle", "pip"}, {"purse", "cash"}, {"amount", "8"}, {"what", "6203"}})
            .status == 303);
}

TEST_CASE("a paper says where its pieces and those planned are apart", "[page]") {
  Yard shop;
  shop.Shop::post(
      R"({ do = "plan", date = 2025-06-05, vehicle = "pip", name = "spark plug", amount = 20.00, qty = 4 })");
  const Answer kept = shop.PageShop::post("/entry", {{"do", "receipt"},
                                                     {"next", "/tray"},
                                                     {"supplier", "Millgate Parts"},
                                                     {"line.1.what", "spark plug"},
                                                     {"line.1.qty", "6"},
                                                     {"line.1.unit", "5"},
                                                     {"line.1.to", "pip"},
                                                     {"total", "30"},
                                                     {"paid", "cash"}});
  CHECK(says(kept, "spark plug: 6 for 4 planned on pip; what is over can go to the shelf"));
}
