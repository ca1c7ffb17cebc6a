// What is said of a line of the budget on the page, and what it is bought for.
#include <catch2/catch.hpp>

#include "page/files.h"
#include "page/yard_shop.h"

using namespace nonrunner;
using namespace nonrunner::page;

TEST_CASE("a line that is done or not needed is named where it is said to be in the book", "[page]") {
  YardShop shop;
  shop.book_job("sprat", "date = 2025-03-13");
  shop.today = Day(2025, 3, 12);
  const auto said_after = [&](Fields more) {
    Fields form = {{"do", "done"}, {"vehicle", "sprat"}, {"next", "/car/sprat"}};
    form.insert(form.end(), more.begin(), more.end());
    const std::string read = read_aloud(shop.get(shop.post("/entry", form).location));
    const std::size_t at = read.find("In the book: ");
    return read.substr(at, read.find('\n', at) - at);
  };
  const auto put_right = [&] {
    const std::string entry = std::to_string(shop.last());
    return " <Put it right -> /correct/" + entry + ">";
  };
  const std::string done = said_after({{"lines", "windscreen cracked across"}});
  CHECK(done == "In the book: entry " + std::to_string(shop.last()) +
                    ", done: sprat, windscreen cracked across." + put_right());
  const std::string left = said_after({{"lines", "headlamps yellowed"}, {"says", "not needed"}});
  CHECK(left == "In the book: entry " + std::to_string(shop.last()) +
                    ", done: sprat, headlamps yellowed, not needed." + put_right());
  // Two buttons for one line are far enough apart for a thumb.
  CHECK(web_file("/style.css")->text.find("td form { display: flex; flex-wrap: wrap; gap: .75rem; }") !=
        std::string::npos);
  CHECK(web_file("/style.css")
            ->text.find("td button { display: inline-block; width: auto; margin: 0; "
                        "min-height: 44px; padding: .125rem .75rem; }") != std::string::npos);
}

TEST_CASE("a line is done, or not needed, once the car is bought", "[page]") {
  YardShop shop;
  shop.today = Day(2025, 3, 5);
  shop.look_at("sprat");
  const std::string looked_at = read_aloud(shop.get("/car/sprat"));
  CHECK(looked_at.find("\nwhat | expected | booked | to come\n") != std::string::npos);
  CHECK(looked_at.find("[Done]") == std::string::npos);
  CHECK(looked_at.find("[Not needed]") == std::string::npos);
  shop.Shop::post(R"({ do = "owner in", date = 2025-03-05, purse = "cash", amount = 3000.00 },
    { do = "buy", date = 2025-03-05, vehicle = "sprat", price = 900.00, purse = "cash" })");
  const std::string owned = read_aloud(shop.get("/car/sprat"));
  CHECK(owned.find("\nwhat | expected | booked | to come | done?\n") != std::string::npos);
  CHECK(owned.find("[Done] [Not needed]") != std::string::npos);
}

TEST_CASE("a deposit on top is asked for at home and away, beside a price without it", "[page]") {
  YardShop shop;
  shop.book_job("sprat", "date = 2025-03-06");
  shop.today = Day(2025, 3, 5);
  const std::string home = read_aloud(shop.get("/shopping"));
  INFO(home);
  CHECK(home.find(
            "price paid, tax included, without the deposit [46.00]\ndeposit on top [18.00]\nwhere []\n") !=
        std::string::npos);
  const std::string away = shop.get("/away.json").body;
  INFO(away);
  CHECK(away.find("      \"what\": \"coolant pump with gasket\",\n      \"amount\": \"46.00\",\n      "
                  "\"core\": \"18.00\",\n") != std::string::npos);
  CHECK(away.find("      \"what\": \"new glass, fitted\",\n      \"amount\": \"205.00\",\n      "
                  "\"core\": \"\",\n") != std::string::npos);
  CHECK(web_file("/away.js")->text.find("labelled('deposit on top', moneyField('core', line.core))") !=
        std::string::npos);
}
