#include <catch2/catch.hpp>

#include "page/page_shop.h"

using namespace nonrunner;
using namespace nonrunner::page;

TEST_CASE("the page of what is on the device holds nothing of the book", "[page]") {
  PageShop shop;
  const Answer empty = shop.get("/device");
  CHECK(empty.is_shell);
  CHECK(empty.status == 200);
  shop.post("/entry", {{"do", "receipt"}, {"vehicle", "pip"}, {"amount", "12.50"}, {"new", "pip"}});
  const auto without_time = [](std::string text) {
    const auto at = text.find("data-as-of=\"");
    return text.erase(at, text.find('"', at + 12) - at);
  };
  CHECK(without_time(shop.get("/device").body) == without_time(empty.body));
}

TEST_CASE("the book says which ids it does not have", "[page]") {
  PageShop shop;
  const std::string one(32, 'a'), other(32, 'b');
  shop.put("/entry/" + one, {{"do", "receipt"},
                             {"vehicle", "pip"},
                             {"purse", "cash"},
                             {"amount", "5"},
                             {"kept", one},
                             {"day", "2025-06-04"}});
  const Answer told = shop.get("/known?id=" + one + "&id=" + other + "&id=x");
  CHECK(told.type == "application/json");
  CHECK(told.body == "{\n  \"now\": \"" + shop.now +
                         "\",\n  \"today\": \"2025-06-30\",\n  \"missing\": [\n    \"" + other +
                         "\"\n  ]\n}\n");
  CHECK(shop.get("/known").body ==
        "{\n  \"now\": \"" + shop.now + "\",\n  \"today\": \"2025-06-30\",\n  \"missing\": []\n}\n");
}
