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
