// What an events file says, said by forms: each event of the reference is the same tree, and the sample jobs, entered
// form by form, are the same book.
#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "book/events/post.h"
#include "book/questions/board.h"
#include "page/form_event.h"
#include "page/page_shop.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::page;

namespace {

std::string text_of(const Value& value) {
  if (value.kind == Value::Kind::flag) return value.flag ? "true" : "false";
  return value.kind == Value::Kind::day ? value.day.iso() : value.text;
}

// "line.1.what" = "radiator": a table as the fields of a form.
void flatten(const Value& value, const std::string& key, Fields& fields) {
  if (value.kind == Value::Kind::table) {
    for (const auto& [name, each] : value.entries)
      flatten(each, key.empty() ? name : key + "." + name, fields);
  } else if (value.kind == Value::Kind::array) {
    int row = 0;
    for (const Value& item : value.items)
      flatten(item, item.kind == Value::Kind::table ? key + "." + std::to_string(++row) : key, fields);
  } else {
    fields.emplace_back(key, text_of(value));
  }
}

bool is_number(const Value& value) {
  return value.kind == Value::Kind::whole || value.kind == Value::Kind::real;
}

// The same but for the order of keys and for zeros behind a decimal.
bool same(const Value& a, const Value& b) {
  if (is_number(a) || is_number(b)) return is_number(a) && is_number(b) && a.real == b.real;
  if (a.kind != b.kind || a.items.size() != b.items.size() || a.entries.size() != b.entries.size())
    return false;
  if (!std::equal(a.items.begin(), a.items.end(), b.items.begin(), same)) return false;
  for (const auto& [name, value] : a.entries) {
    const Value* other = b.find(name);
    if (!other || !same(value, *other)) return false;
  }
  return a.kind == Value::Kind::table || a.kind == Value::Kind::array || text_of(a) == text_of(b);
}

std::vector<Value> events_of(const std::string& sample) {
  const std::string file = NONRUNNER_SOURCE "/sample-jobs/" + sample + "/events.toml";
  std::vector<Value> events;
  const Value whole = parse_toml(read_file(file), file);
  for (Value event : whole.find("event")->items) {
    // A job file lies beside an events file, and has a room of its own on the page.
    std::erase_if(event.entries, [](const auto& each) { return each.first == "job"; });
    events.push_back(event);
  }
  return events;
}

std::string without_id(std::string event) {
  const std::size_t at = event.find(", kept_as = ");
  if (at != std::string::npos) event.erase(at, event.find("\"", event.find("\"", at) + 1) + 1 - at);
  return event;
}

}  // namespace

TEST_CASE("a form says each event of the reference as its file does", "[page]") {
  PageShop shop;
  for (const book::EventWord& word : book::events_described()) {
    const std::string text = "e = { do = \"" + word.name + "\", date = 2026-04-05, " + word.example + " }";
    INFO(text);
    const Value whole = parse_toml(text, "example");
    Form form;
    flatten(*whole.find("e"), "", form.fields);
    const answers::Entering entering = entering_of(shop.book(), form, shop.today);
    CHECK(same(entering.event, *whole.find("e")));
  }
}

TEST_CASE("a form takes a share as people write it", "[page]") {
  PageShop shop;
  const auto commission = [&](const std::string& typed) {
    Form form;
    form.fields = {
        {"do", "sell"}, {"date", "2026-04-05"}, {"vehicle", "pip"}, {"price", "2000"}, {"commission", typed}};
    return entering_of(shop.book(), form, shop.today).event.find("commission")->text;
  };
  CHECK(commission("3%") == "0.03");
  CHECK(commission("0.03") == "0.03");
  CHECK(commission("60") == "60");
}

TEST_CASE("the sample jobs entered form by form are the book that their events files make", "[page]") {
  for (const char* sample : {"sprat", "drayman"}) {
    PageShop by_file, by_form;
    by_file.today = by_form.today = Day(2026, 6, 30);
    int number = 0;
    for (const Value& event : events_of(sample)) {
      Fields fields;
      flatten(event, "", fields);
      {
        book::Recording recording(by_file.book(), by_file.now, by_file.today);
        book::record_event(recording, Table(event, "events.toml", "the event"), ".", {});
        recording.keep();
      }
      const std::string id = fmt::format("{:032x}", ++number);
      const Answer answer = by_form.put("/entry/" + id, fields);
      if (answer.body.find("at the prompt only") != std::string::npos) {
        book::Recording recording(by_form.book(), by_form.now, by_form.today);
        book::record_event(recording, Table(event, "events.toml", "the event"), ".", {});
        recording.keep();
        continue;
      }
      INFO(answer.body);
      REQUIRE(answer.status == 201);
    }
    REQUIRE(by_form.last() == by_file.last());
    for (book::EntryId entry = 1; entry <= by_file.last(); ++entry)
      CHECK(without_id(by_form.event_of(entry)) == by_file.event_of(entry));
    const auto one = book::board(by_file.book(), by_file.today),
               two = book::board(by_form.book(), by_form.today);
    REQUIRE(one.size() == two.size());
    for (std::size_t i = 0; i < one.size(); ++i) {
      CHECK(one[i].tag == two[i].tag);
      CHECK(one[i].cost == two[i].cost);
      CHECK(one[i].cash_profit == two[i].cash_profit);
    }
    CHECK(by_form.health().findings.empty());
  }
}

TEST_CASE("what is refused says the label of its field and what to do, and no key of a file", "[page]") {
  PageShop shop;
  shop.Shop::post(R"({ do = "owner in", date = 2025-06-01, purse = "cash", amount = 3000.00 },
    { do = "buy", date = 2025-06-02, vehicle = "pip", price = 900.00, purse = "cash" },
    { do = "buy", date = 2025-06-02, vehicle = "wren", price = 700.00, purse = "cash" },
    { do = "sell", date = 2025-06-20, vehicle = "wren", price = 900.00, purse = "cash" })");
  const auto said = [&](Fields form) {
    const Answer answer = shop.PageShop::post("/entry", form);
    CHECK(answer.status == 422);
    const std::string text = read_aloud(answer);
    const std::size_t from = text.find('\n') + 1;
    return text.substr(from, text.find('\n', from) - from);
  };
  const Fields receipt = {{"do", "receipt"}, {"purse", "cash"}, {"what", "lamp"}};
  const auto with = [](Fields form, Fields more) {
    form.insert(form.end(), more.begin(), more.end());
    return form;
  };
  CHECK(said(with(receipt, {{"amount", "12"}})) ==
        "car: nothing is said, expected the car that it is for, or tools, overhead or owner");
  CHECK(said(with(receipt, {{"vehicle", "pip"}, {"amount", "12"}, {"core", "-3"}})) ==
        "deposit: found -3, expected 0 or more; an old part that was handed in is entered where it is due");
  CHECK(said(with(receipt, {{"vehicle", "pip"}, {"amount", "99999999999999999999"}})) ==
        "amount: found \"99999999999999999999\", expected an amount in USD with at most 2 decimals, such as "
        "1250.00");
  const Fields sale = {{"do", "sell"}, {"vehicle", "pip"}, {"price", "1200"}, {"purse", "cash"}};
  CHECK(said(with(sale, {{"commission", "letters"}})) == "commission: found \"letters\", expected a number");
  CHECK(said(with(sale, {{"commission", "-3"}})) ==
        "commission: found -3, expected a share of the price below 1, such as 0.03, or an amount of money");
  CHECK(said({{"do", "draw"}, {"vehicle", "pip"}, {"qty", "1"}}) ==
        "item of the shelf: nothing is said, expected a few words");
  // Its way out is said whole, on a phone as well, which has no link for it.
  const std::string sold = "sell: wren was sold on 2025-06-20 (entry 4); to take that back open entry 4";
  CHECK(said({{"do", "sell"}, {"vehicle", "wren"}, {"price", "1200"}, {"purse", "cash"}}) == sold);
  CHECK(shop.put("/entry/0123456789abcdef0123456789abcdef",
                 {{"do", "sell"}, {"vehicle", "wren"}, {"price", "1200"}, {"purse", "cash"}})
            .body.find("\"" + sold + "\"") != std::string::npos);
}
