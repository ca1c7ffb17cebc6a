#include <catch2/catch.hpp>
#include <fstream>

#include "book/care/check.h"
#include "book/care/export.h"
#include "book/care/restore.h"
#include "book/events/attach.h"
#include "book/ledger/kept.h"
#include "page/page_shop.h"
#include "words/appraise_for_book.h"

using namespace nonrunner;
using namespace nonrunner::page;

namespace {

const std::string id = "0123456789abcdef0123456789abcdef";
const std::string other_id = "fedcba9876543210fedcba9876543210";

struct Garage : PageShop {
  Garage() {
    Shop::post(R"({ do = "owner in", date = 2025-06-01, purse = "cash", amount = 2000.00 },
            { do = "buy", date = 2025-06-02, vehicle = "pip", price = 900.00, purse = "cash" })");
  }
};

Fields quick(const std::string& amount) {
  return {{"do", "receipt"}, {"vehicle", "pip"}, {"amount", amount}, {"what", "starter"}, {"purse", "cash"}};
}

bool says(const Answer& answer, const std::string& words) {
  return read_aloud(answer).find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a form is the event that its keys name, as an events file would have it", "[page]") {
  Garage shop;
  const Answer answer = shop.PageShop::post("/entry", quick("52,50"));
  CHECK(answer.status == 303);
  CHECK(answer.location == "/car/pip?entry=3");
  CHECK(shop.event_of(3) ==
        "{ do = \"receipt\", date = 2025-06-30, paid = { cash = 52.50 }, total = 52.50, itemised = false, "
        "line = [{ id = \"3.1\", what = \"starter\", qty = 1, amount = 52.50, kind = \"part\", to = \"pip\" "
        "}] }");
}

TEST_CASE("an entry that a phone sends twice is one entry", "[page]") {
  Garage shop;
  const Answer first = shop.put("/entry/" + id, quick("52.50"));
  CHECK(first.status == 201);
  CHECK(first.body == "{\n  \"state\": \"in the book\",\n  \"entry\": 3,\n  \"message\": \"\"\n}\n");
  const Answer again = shop.put("/entry/" + id, quick("52.50"));
  CHECK(again.status == 200);
  CHECK(again.body ==
        "{\n  \"state\": \"there already\",\n  \"entry\": 3,\n  \"message\": \"in the book\"\n}\n");
  CHECK(shop.last() == 3);
  const Answer changed = shop.put("/entry/" + id, quick("62.50"));
  CHECK(changed.status == 409);
  CHECK(changed.body ==
        "{\n  \"state\": \"refused\",\n  \"entry\": 3,\n  \"message\": \"this id is in the book as entry 3, "
        "with other content\"\n}\n");
  shop.Shop::post(R"({ do = "void", date = 2025-06-30, entry = 3, why = "wrong car" })");
  CHECK(shop.put("/entry/" + id, quick("52.50")).body ==
        "{\n  \"state\": \"there already\",\n  \"entry\": 3,\n  \"message\": \"in the book, taken back "
        "since\"\n}\n");
}

TEST_CASE("an id that is none is refused, and nothing is entered under it", "[page]") {
  Garage shop;
  for (const char* other :
       {"0123", "0123456789ABCDEF0123456789ABCDEF", "..", "0123456789abcdef0123456789abcdef0"}) {
    INFO(other);
    const Answer answer = shop.put(std::string("/entry/") + other, quick("52.50"));
    CHECK(answer.status == 422);
    CHECK(answer.body.find("entry: found another id, expected 32 hexadecimal digits") != std::string::npos);
  }
  CHECK(shop.last() == 2);
}

TEST_CASE("what looks like an entry that is there is taken from a phone, and waits for a word", "[page]") {
  Garage shop;
  shop.put("/entry/" + id, quick("52.50"));
  const Answer second = shop.put("/entry/" + other_id, quick("52.50"));
  CHECK(second.status == 201);
  CHECK(second.body ==
        "{\n  \"state\": \"in the book\",\n  \"entry\": 4,\n  \"message\": \"may be the same as entry "
        "3\"\n}\n");
  const auto waiting = book::may_be_the_same(shop.book());
  REQUIRE(waiting.size() == 1);
  CHECK(waiting.front().entry == 4);
  CHECK(waiting.front().may_be == 3);
}

TEST_CASE("a form is asked about what may be there already, and the answer goes with it", "[page]") {
  Garage shop;
  shop.PageShop::post("/entry", quick("52.50"));
  Fields form = quick("52.50");
  form.emplace_back("kept", id);
  const Answer question = shop.PageShop::post("/entry", form);
  CHECK(question.status == 200);
  CHECK(read_aloud(question) ==
        "One question\n52.50 on 2025-06-30 is in the book already, it seems (entry 3); is this another one?\n"
        "[it is another one]\n<leave it out -> />\n");
  CHECK(shop.last() == 3);
  form.emplace_back("again", "true");
  CHECK(shop.PageShop::post("/entry", form).location == "/car/pip?entry=4");
  CHECK(shop.PageShop::post("/entry", form).status == 303);  // the button hit twice
  CHECK(shop.last() == 4);
}

TEST_CASE("what is refused comes back with its one line and the form as it was", "[page]") {
  Garage shop;
  const Answer answer = shop.PageShop::post("/entry", quick("a lot"));
  CHECK(answer.status == 422);
  const std::string text = read_aloud(answer);
  CHECK(text.find("expected an amount of money in USD with at most 2 decimals") != std::string::npos);
  CHECK(text.find("[a lot]") != std::string::npos);
  CHECK(shop.last() == 2);
}

TEST_CASE("a car that the book does not know is asked about", "[page]") {
  Garage shop;
  Fields form = {{"do", "hours"}, {"vehicle", "wren"}, {"operation", "strip"}, {"own", "1.5"}};
  const Answer question = shop.PageShop::post("/entry", form);
  CHECK(read_aloud(question).find("is it a new one?\n[it is]\n") != std::string::npos);
  CHECK(question.body.find("<button name=\"new\" value=\"wren\">it is</button>") != std::string::npos);
  form.emplace_back("new", "wren");
  CHECK(read_aloud(shop.PageShop::post("/entry", form)) ==
        "In the book, entry 3\nnew vehicle: wren\n<Go on -> /car/wren?entry=3>\n");
}

TEST_CASE("that one name is a new one says nothing of another name in the same form", "[page]") {
  Garage shop;
  Fields known = quick("12.50");
  known.emplace_back("supplier", "Cleave Yard");
  shop.PageShop::post("/entry", known);
  Fields form = {{"do", "receipt"},    {"vehicle", "wren"},         {"amount", "7.25"},
                 {"what", "fuse box"}, {"supplier", "Cleave Yart"}, {"purse", "cash"}};
  const auto before = shop.last();
  CHECK(says(shop.PageShop::post("/entry", form),
             "there is no supplier \"Cleave Yart\", did you mean \"Cleave Yard\"?"));
  form.emplace_back("new", "Cleave Yart");
  const Answer other = shop.PageShop::post("/entry", form);
  CHECK(says(other, "no vehicle has the tag \"wren\""));
  // What was answered goes along, and the other stands on the button.
  CHECK(other.body.find("<input type=\"hidden\" name=\"new\" value=\"Cleave Yart\">") != std::string::npos);
  CHECK(other.body.find("<button name=\"new\" value=\"wren\">") != std::string::npos);
  CHECK(shop.last() == before);
  // A yes to a name that the form does not hold any more lets no other pass.
  Fields changed = form;
  changed[4].second = "Cleave Yarn";
  CHECK(says(shop.PageShop::post("/entry", changed), "there is no supplier \"Cleave Yarn\""));
  form.emplace_back("new", "wren");
  const Answer last = shop.PageShop::post("/entry", form);
  INFO(read_aloud(last));
  CHECK(says(last, "In the book"));
  CHECK(shop.last() == before + 1);
}

TEST_CASE("a sale is not taken back before it is said whether it stood, and a sold car leads there",
          "[page]") {
  Garage shop;
  Fields sale = {{"do", "sell"}, {"vehicle", "pip"}, {"price", "1500"}, {"purse", "cash"}};
  shop.PageShop::post("/entry", sale);
  CHECK(says(shop.get("/car/pip"), "<The sale fell through -> /sell/pip>"));
  CHECK(says(shop.get("/correct/3"), "it stood until today"));
  Fields back = {{"do", "void"}, {"entry", "3"}, {"why", "came back"}};
  const Answer question = shop.PageShop::post("/entry", back);
  CHECK(read_aloud(question) ==
        "One question\nentry 3 is a sale: did it stand until it was taken back, or was it typed wrong?\n"
        "[it stood until today] [typed wrong: it counts on no day]\n<leave it out -> />\n");
  CHECK(shop.put("/entry/" + id, back).status == 422);
  CHECK(shop.last() == 3);
  Fields stood = back;
  stood.emplace_back("later", "true");  // the button
  shop.PageShop::post("/entry", stood);
  CHECK(shop.event_of(4).find("later = true") != std::string::npos);
  shop.PageShop::post("/entry", sale);
  back[1].second = "5";
  back.emplace_back("standing", "never_was");  // the form of the entry
  shop.PageShop::post("/entry", back);
  CHECK(shop.last() == 6);
  CHECK(shop.event_of(6).find("later") == std::string::npos);
}

TEST_CASE("an entry is not taken back without a reason, and that is said in the form's words", "[page]") {
  Garage shop;
  shop.PageShop::post("/entry", quick("52.50"));
  CHECK(says(shop.PageShop::post("/entry", {{"do", "void"}, {"entry", "3"}, {"why", ""}}),
             ": nothing is said, expected a few words"));
}

TEST_CASE("an export carries the ids by which entries were kept", "[page]") {
  Garage shop;
  shop.put("/entry/" + id, quick("52.50"));
  const std::string kept = shop.event_of(3);
  CHECK(kept.find("kept_as = \"" + id + " ") != std::string::npos);
  book::export_to(shop.book(), shop.folder() / "out", true, shop.today);
  const auto again = shop.folder() / "again.book";
  book::restore(shop.folder() / "out", again, {shop.now, shop.today, words::appraise_for_book, {}});
  book::Book restored = book::Book::open(again);
  const auto found = book::kept_as(restored, id);
  REQUIRE(found);
  CHECK(found->entry == 3);
  CHECK(found->sent == book::kept_as(shop.book(), id)->sent);
  CHECK(book::load_entry(restored, 3).event == kept);
}

TEST_CASE("an events file that names an id that is in the book adds nothing", "[page]") {
  Garage shop;
  const std::string line =
      R"({ do = "hours", date = 2025-06-05, vehicle = "pip", operation = "strip", own = 2, kept_as = ")";
  shop.Shop::post(line + id + "\" }");
  CHECK(shop.last() == 3);
  shop.Shop::post(line + id + "\" }");
  CHECK(shop.remarks == std::vector<std::string>{"events.toml:1: there already as entry 3"});
  CHECK(shop.last() == 3);
  CHECK(
      shop.refusal(line + "12\" }") ==
      "\"kept_as\" in the event \"hours\" is \"12\", expected 32 hexadecimal digits, and behind a blank the "
      "SHA-256 of what was sent");
}

TEST_CASE("a deposit that never comes back whole is no id", "[page]") {
  Garage shop;
  shop.Shop::post(
      R"({ do = "tool deposit", date = 2025-06-12, what = "puller", amount = 20.00, purse = "cash" },
         { do = "tool deposit back", date = 2025-06-13, what = "puller", amount = 15.00, kept = 5.00, purse = "cash" })");
  CHECK(shop.last() == 4);
}

TEST_CASE("a photograph belongs to its entry and follows it where that is put right", "[page]") {
  Garage shop;
  shop.put("/entry/" + id, quick("52.50"));
  const std::string picture = "\xff\xd8\xff\xe0 a picture";
  const Answer kept = shop.put_photo("/entry/" + id + "/photo", picture);
  CHECK(kept.status == 201);
  CHECK(shop.put_photo("/entry/" + id + "/photo", picture).body ==
        "{\n  \"state\": \"there already\",\n  \"entry\": 3,\n  \"message\": \"\"\n}\n");
  CHECK(shop.event_of(4).find("vehicle = \"pip\", entry = 3, file = \"attachments/") != std::string::npos);
}

TEST_CASE("a photograph may come after its entry, and goes to the one that stands in its place", "[page]") {
  Garage shop;
  shop.PageShop::post("/entry", quick("52.50"));
  CHECK(shop.put("/entry/" + id, {{"do", "photo"}, {"entry", "3"}}).status == 201);
  CHECK(shop.last() == 3);
  shop.PageShop::post("/correct/3", {{"amount", "50"}});
  CHECK(shop.put_photo("/entry/" + id + "/photo", "\xff\xd8\xff\xe0 a picture").body ==
        "{\n  \"state\": \"in the book\",\n  \"entry\": 5,\n  \"message\": \"\"\n}\n");
  CHECK(book::photos_of(shop.book(), 5).size() == 1);
  CHECK(shop.put("/entry/" + other_id, {{"do", "photo"}, {"entry", "99"}}).body ==
        "{\n  \"state\": \"refused\",\n  \"entry\": null,\n  \"message\": \"entry 99: there is no such "
        "entry\"\n}\n");
}

TEST_CASE("a photograph of no entry that counts is refused", "[page]") {
  Garage shop;
  std::ofstream(shop.folder() / "lamp.jpg") << "a picture";
  CHECK(shop.refusal(
            R"({ do = "attach", date = 2025-06-30, vehicle = "pip", entry = 9, file = "lamp.jpg" })") ==
        "attach: entry 9 is none that counts, expected the one that it belongs to");
}

TEST_CASE("a photograph of a paper for no car is kept with that paper, and through an export", "[page]") {
  Garage shop;
  shop.put("/entry/" + id, {{"do", "receipt"}, {"vehicle", "tools"}, {"amount", "34.00"}, {"purse", "cash"}});
  CHECK(shop.put_photo("/entry/" + id + "/photo", "\xff\xd8\xff\xe0 a picture").status == 201);
  REQUIRE(book::photos_of(shop.book(), 3).size() == 1);
  CHECK(book::photos_of(shop.book(), 3)[0].vehicle.empty());
  CHECK(
      shop.event_of(4).starts_with("{ do = \"attach\", date = 2025-06-30, entry = 3, file = \"attachments/"));
  CHECK(book::check(shop.book()).sound);
  book::export_to(shop.book(), shop.folder() / "out", false, shop.today);
  const auto again = shop.folder() / "again.book";
  book::restore(shop.folder() / "out", again, {shop.now, shop.today, words::appraise_for_book, {}});
  const book::Book restored = book::Book::open(again);
  CHECK(book::photos_of(restored, 3).size() == 1);
}

TEST_CASE("a file that belongs to no car and to no entry is refused", "[page]") {
  Garage shop;
  std::ofstream(shop.folder() / "lamp.jpg") << "a picture";
  CHECK(shop.refusal(R"({ do = "attach", date = 2025-06-30, file = "lamp.jpg" })") ==
        "attach: found neither a car nor an entry, expected what the file belongs to");
}

TEST_CASE("what cannot be is said before anything is asked", "[page]") {
  Garage shop;
  shop.PageShop::post("/entry", quick("52.50"));
  Fields form = quick("52.50");  // would be asked about: it seems to be there already
  form.emplace_back("kind", "rubbish");
  const Answer answer = shop.PageShop::post("/entry", form);
  CHECK(answer.status == 422);
  CHECK(read_aloud(answer).find("One question") == std::string::npos);
  CHECK(shop.last() == 3);
}

TEST_CASE("a form that comes back has the labels that it had", "[page]") {
  Garage shop;
  const std::string text = read_aloud(shop.PageShop::post("/entry", quick("a lot")));
  CHECK(text.find("amount [a lot]") != std::string::npos);
  CHECK(text.find("car [pip]") != std::string::npos);
  for (const char* key : {"vehicle [", "line.", "deal.", "tests_seen ["})
    CHECK(text.find(key) == std::string::npos);
}

TEST_CASE("a paper that is on account was paid by no purse, though the form has one chosen", "[page]") {
  Garage shop;
  const Fields paper = {{"do", "receipt"},
                        {"supplier", "Millgate Parts"},
                        {"line.1.what", "thermostat"},
                        {"line.1.unit", "18.5"},
                        {"line.1.to", "pip"},
                        {"total", "18.50"},
                        {"paid", "cash"},
                        {"on_account", "on"}};
  CHECK(shop.PageShop::post("/entry", paper).location == "/car/pip?entry=3");
  CHECK(shop.purse("cash") == book::usd("1100.00"));
  CHECK(shop.balance("payable", "Millgate Parts") == book::usd("-18.50"));
}

TEST_CASE("which purse paid is asked where nothing says it", "[page]") {
  Garage shop;
  shop.Shop::post(R"({ do = "owner in", date = 2025-06-01, purse = "card", amount = 2000.00 })");
  Fields paper = {{"do", "receipt"},
                  {"supplier", "Millgate Parts"},
                  {"line.1.what", "thermostat"},
                  {"line.1.unit", "18.5"},
                  {"line.1.to", "pip"},
                  {"total", "18.50"},
                  {"paid", ""}};
  const std::string asked = read_aloud(shop.PageShop::post("/entry", paper));
  CHECK(asked ==
        "One question\nwhich purse does the money go through?\n[cash] [card]\n<leave it out -> />\n");
  paper.emplace_back("purse", "card");
  CHECK(shop.PageShop::post("/entry", paper).location == "/car/pip?entry=4");
  CHECK(shop.purse("card") == book::usd("1981.50"));
}

TEST_CASE("a paper by a form asks about the line under which its quick line stood", "[page]") {
  Garage shop;
  shop.Shop::post(R"({ do = "plan", date = 2025-06-03, vehicle = "pip", name = "starter", amount = 60.00 })");
  shop.PageShop::post("/entry", quick("52.50"));
  REQUIRE(shop.last() == 4);
  // The first row was left empty.
  Fields form = {{"do", "receipt"},           {"replaces", "4"},
                 {"supplier", "Cleave Yard"}, {"date", "2025-06-30"},
                 {"total", "52.50"},          {"paid", "cash"},
                 {"line.2.what", "strap"},    {"line.2.unit", "4"},
                 {"line.2.to", "pip"},        {"line.4.what", "starter motor"},
                 {"line.4.unit", "48.5"},     {"line.4.to", "pip"}};
  const Answer question = shop.PageShop::post("/entry", form);
  CHECK(read_aloud(question) ==
        "One question\n\"starter motor\": is that line 1, starter?\n"
        "[it stands under that line] [it stands under none]\n<leave it out -> />\n");
  CHECK(question.body.find("name=\"for.2\" value=\"starter\"") != std::string::npos);
  CHECK(shop.last() == 4);
  form.emplace_back("for.2", "starter");
  CHECK(shop.PageShop::post("/entry", form).status == 303);
  REQUIRE(shop.last() == 6);
  CHECK(shop.event_of(6).find("what = \"starter motor\", qty = 1, unit = 48.50, kind = \"part\", to = "
                              "\"pip\", for = \"starter\"") != std::string::npos);
}

TEST_CASE("a paper of one line by a form stands where its quick line stood, without a question", "[page]") {
  Garage shop;
  shop.Shop::post(R"({ do = "plan", date = 2025-06-03, vehicle = "pip", name = "starter", amount = 60.00 })");
  shop.PageShop::post("/entry", quick("52.50"));
  const Fields form = {
      {"do", "receipt"},   {"replaces", "4"}, {"supplier", "Cleave Yard"},      {"date", "2025-06-30"},
      {"total", "52.50"},  {"paid", "cash"},  {"line.1.what", "starter motor"}, {"line.1.unit", "52.5"},
      {"line.1.to", "pip"}};
  CHECK(shop.PageShop::post("/entry", form).status == 303);
  REQUIRE(shop.last() == 6);
  CHECK(shop.event_of(6).find("for = \"starter\"") != std::string::npos);
  // From a phone, where nobody is asked, as well.
  Garage by_phone;
  by_phone.Shop::post(
      R"({ do = "plan", date = 2025-06-03, vehicle = "pip", name = "starter", amount = 60.00 })");
  by_phone.PageShop::post("/entry", quick("52.50"));
  REQUIRE(by_phone.put("/entry/" + id, form).status == 201);
  CHECK(by_phone.event_of(6).find("for = \"starter\"") != std::string::npos);
}

TEST_CASE("a quick line without an amount is refused for that", "[page]") {
  Garage shop;
  Fields form = quick("");
  const Answer answer = shop.PageShop::post("/entry", form);
  CHECK(answer.status == 422);
  CHECK(read_aloud(answer).find("\namount: nothing is said, expected what was paid\n") != std::string::npos);
}

TEST_CASE("a quick line of nothing or less is refused, typed, from a phone and put right", "[page]") {
  Garage shop;
  const auto first_line = [](const Answer& answer) {
    const std::string text = read_aloud(answer);
    const std::size_t at = text.find('\n') + 1;
    return text.substr(at, text.find('\n', at) - at);
  };
  for (const char* amount : {"-5.00", "0.00"}) {
    const std::string reason = std::string("found an amount of ") + amount +
                               ", expected one above 0; money that comes back is entered where it is due, or "
                               "on its paper";
    const Answer answer = shop.PageShop::post("/entry", quick(amount));
    CHECK(answer.status == 422);
    CHECK(first_line(answer) == "receipt: " + reason);
    CHECK(shop.put("/entry/" + id, quick(amount)).body ==
          "{\n  \"state\": \"refused\",\n  \"entry\": null,\n  \"message\": \"receipt: " + reason +
              "\"\n}\n");
  }
  CHECK(shop.last() == 2);
  shop.PageShop::post("/entry", quick("5"));
  const Answer wrong = shop.PageShop::post("/correct/3", {{"amount", "-3"}});
  CHECK(wrong.status == 422);
  CHECK(
      first_line(wrong) ==
      "correct: found an amount of -3.00, expected one above 0; money that comes back is entered where it is "
      "due, or on its paper");
  CHECK(shop.last() == 3);
}

TEST_CASE("an entry is put right with a decimal comma, and with hours and minutes", "[page]") {
  Garage shop;
  shop.PageShop::post("/entry", quick("52.50"));
  CHECK(shop.PageShop::post("/correct/3", {{"amount", "98,00"}}).status == 303);
  CHECK(shop.event_of(5).find("total = 98.00, ") != std::string::npos);
  CHECK(shop.PageShop::post("/correct/2", {{"amount", "850,5"}}).status == 303);
  CHECK(shop.event_of(7).find("price = 850.50, ") != std::string::npos);
  shop.PageShop::post("/entry", {{"do", "hours"}, {"vehicle", "pip"}, {"own", "2"}, {"operation", "strip"}});
  CHECK(shop.PageShop::post("/correct/8", {{"amount", "1:30"}}).status == 303);
  CHECK(shop.event_of(10).find("own = 1.5") != std::string::npos);
  CHECK(read_aloud(shop.PageShop::post("/correct/10", {{"amount", "two"}}))
            .find("\nfound \"two\", expected a number of hours with at most 3 decimals, such as 2.25\n") !=
        std::string::npos);
  CHECK(read_aloud(shop.PageShop::post("/correct/5", {{"amount", "much"}}))
            .find("\namount: found \"much\", expected a number\n") != std::string::npos);
}

TEST_CASE("a second paper with the number of one that is there is asked about, and taken as another one",
          "[page]") {
  Garage shop;
  const auto paper = [](const std::string& unit) {
    return Fields{{"do", "receipt"},     {"next", "/tray"},      {"supplier", "Cleave Yard"},
                  {"number", "3071"},    {"line.1.what", "fan"}, {"line.1.unit", unit},
                  {"line.1.to", "pip"},  {"total", unit},        {"paid", "cash"},
                  {"date", "2025-06-20"}};
  };
  CHECK(shop.PageShop::post("/entry", paper("20.00")).location == "/tray?entry=3");
  Fields second = paper("30.00");
  CHECK(read_aloud(shop.PageShop::post("/entry", second)) ==
        "One question\nCleave Yard 3071 is in the book already (entry 3); is this another paper?\n"
        "[it is another one]\n<leave it out -> /tray>\n");
  second.emplace_back("again", "true");
  CHECK(shop.PageShop::post("/entry", second).location == "/tray?entry=4");
  // One that takes the place of a quick line is asked about as well.
  shop.PageShop::post("/entry", quick("40.00"));
  Fields third = paper("40.00");
  third.emplace_back("replaces", "5");
  CHECK(read_aloud(shop.PageShop::post("/entry", third))
            .find("\nCleave Yard 3071 is in the book already (entry 3); is this another paper?\n") !=
        std::string::npos);
  // From a phone, where nobody can be asked, it is taken and waits for a word.
  CHECK(shop.put("/entry/" + id, paper("50.00")).body ==
        "{\n  \"state\": \"in the book\",\n  \"entry\": 6,\n  \"message\": \"may be the same as entry "
        "3\"\n}\n");
}

TEST_CASE("what a paper's form cannot say is refused by the labels of its fields", "[page]") {
  Garage shop;
  const Fields whole = {{"do", "receipt"},     {"supplier", "Cleave Yard"}, {"line.1.what", "fan"},
                        {"line.1.unit", "20"}, {"line.1.to", "pip"},        {"total", "20.00"},
                        {"paid", "cash"}};
  const auto reason = [&](const std::string& key, const std::string& value) {
    Fields form = whole;
    std::erase_if(form, [&](const auto& each) { return each.first == key; });
    form.emplace_back(key, value);
    const std::string text = read_aloud(shop.PageShop::post("/entry", form));
    const std::size_t at = text.find('\n') + 1;
    return text.substr(at, text.find('\n', at) - at);
  };
  CHECK(reason("line.1.qty", "x") ==
        "line 1, pieces: found \"x\", expected a number of pieces with at most 3 decimals");
  CHECK(reason("line.1.unit", "cheap") ==
        "line 1, price of one: found \"cheap\", expected a price for one with at most 5 decimals");
  CHECK(reason("line.1.what", "") == "line 1, what: nothing is said, expected a few words");
  CHECK(reason("total", "1.234") ==
        "total, as printed: found \"1.234\", which may be 1234 or 1.234; write 1234 or 1.23");
  CHECK(reason("line.1.unit", "") ==
        "line 1, price of one: nothing is said, expected it, or the amount of all");
  CHECK(reason("total", "") == "total, as printed: nothing is said, expected an amount");
  CHECK(reason("date", "soon") == "day: found \"soon\", expected a day, such as 2026-05-02");
  CHECK(reason("supplier", "") == "supplier: nothing is said, expected who gave the paper");
  CHECK(reason("tax", "2.00") ==
        "there is a tax but no line is taxed; tick taxed on the lines that it lies on");
  CHECK(shop.last() == 2);
}

TEST_CASE("what a form leaves out is asked for by its label, typed and sent by a phone", "[page]") {
  Garage shop;
  const Fields hours = {{"do", "hours"}, {"vehicle", "pip"}, {"own", "2"}};
  CHECK(read_aloud(shop.PageShop::post("/entry", hours))
            .find("\nwhat was done: nothing is said, expected a few words\n") != std::string::npos);
  CHECK(shop.put("/entry/" + id, hours).body ==
        "{\n  \"state\": \"refused\",\n  \"entry\": null,\n  \"message\": \"what was done: nothing is said, "
        "expected a "
        "few words\"\n}\n");
  const std::string fee = read_aloud(shop.PageShop::post(
      "/entry",
      {{"do", "buy"}, {"vehicle", "wren"}, {"price", "90"}, {"purse", "cash"}, {"fees.1.amount", "5"}}));
  CHECK(fee.find("has no \"name\"") == std::string::npos);
  CHECK(fee.find(": nothing is said, expected a few words\n") != std::string::npos);
}

TEST_CASE("what has no room on the page is taken from no device", "[page]") {
  Garage shop;
  for (const char* event :
       {"close", "owner in", "owner out", "move", "count", "pay", "under", "tool deposit"}) {
    INFO(event);
    const Fields form = {{"do", event}, {"purse", "cash"}, {"amount", "5"}, {"why", "x"}};
    const Answer put = shop.put("/entry/" + id, form);
    CHECK(put.status == 422);
    CHECK(put.body.find(std::string(event) +
                        ": it is entered at the prompt only, on the machine that holds the book") !=
          std::string::npos);
    CHECK(shop.PageShop::post("/entry", form).status == 422);
  }
  CHECK(shop.last() == 2);
}

TEST_CASE(
    "a trip, a part sold off and a buyer's deposit are asked about when the same is there, and kept from a "
    "phone",
    "[page]") {
  const std::vector<Fields> forms = {
      {{"do", "trip"}, {"vehicle", "pip"}, {"distance", "34"}, {"why", "parts run"}},
      {{"do", "recover"}, {"vehicle", "pip"}, {"what", "old seat"}, {"amount", "25"}, {"purse", "cash"}},
      {{"do", "buyer deposit"}, {"vehicle", "pip"}, {"amount", "200"}, {"purse", "cash"}}};
  for (const Fields& form : forms) {
    Garage shop;
    CAPTURE(form.front().second);
    REQUIRE(shop.PageShop::post("/entry", form).status == 303);
    const Answer question = shop.PageShop::post("/entry", form);
    CHECK(says(question,
               "is in the book already, it seems (entry 3); is this another one?\n[it is another one]"));
    CHECK(shop.last() == 3);
    const Answer away = shop.put("/entry/" + id, form);
    CHECK(away.status == 201);
    CHECK(away.body.find("may be the same as entry 3") != std::string::npos);
    REQUIRE(book::may_be_the_same(shop.book()).size() == 1);
    Fields said = form;
    said.emplace_back("again", "true");
    CHECK(shop.PageShop::post("/entry", said).status == 303);
    CHECK(shop.last() == 5);
  }
}

TEST_CASE("a line that is planned once more is the same one, whatever its letters", "[page]") {
  Garage shop;
  const Fields form = {{"do", "plan"}, {"vehicle", "pip"}, {"name", "Radiator"}, {"amount", "60"}};
  Fields later = form;
  later[2].second = "radiator";
  shop.PageShop::post("/entry", form);
  shop.PageShop::post("/entry", later);
  CHECK(shop.event_of(4).find("name = \"Radiator\"") != std::string::npos);
}

TEST_CASE("a day that is none is refused by the label of its field where an entry is put right", "[page]") {
  Garage shop;
  const Answer answer = shop.PageShop::post("/correct/1", {{"date", "soon"}});
  CHECK(answer.status == 422);
  CHECK(says(answer, "day: found \"soon\""));
}
