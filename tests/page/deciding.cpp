// A car's job, go on or stop, selling, report, year and workbooks on the page: the same figures and words as the
// commands', and forms that make the same events.
#include <catch2/catch.hpp>

#include "answers/budget_sums.h"
#include "answers/where_it_went.h"
#include "answers/year.h"
#include "answers/year_sums.h"
#include "book/questions/figures.h"
#include "page/yard_shop.h"
#include "words/budget.h"
#include "words/year_sums.h"

using namespace nonrunner;
using namespace nonrunner::page;

TEST_CASE("the job says the break-even price first, and each open line has a button", "[page]") {
  YardShop shop;
  shop.book_job("sprat", "date = 2025-03-13");
  shop.today = Day(2025, 3, 12);
  const Answer page = shop.get("/car/sprat");
  const std::string read = read_aloud(page);
  INFO(read);
  CHECK(read.find("BREAK-EVEN PRICE\n") != std::string::npos);
  CHECK(read.find("<Go on or stop -> /go-on/sprat>") != std::string::npos);
  CHECK(read.find("[Done]") != std::string::npos);
  CHECK(read.find("pump impeller gone") != std::string::npos);
  // Lines bear their numbers, and what is booked adds up.
  CHECK(read.find("\nSums\n| expected | booked | to come\n") != std::string::npos);
  const auto budget = answers::budget_of(shop.book(), "sprat");
  REQUIRE(budget);
  const answers::BudgetSums sums = answers::sums_of(*budget);
  CHECK(read.find("money, all | " + sums.expected.shown(Currency{}) + " | " +
                  sums.booked.shown(Currency{})) != std::string::npos);
  Money booked = sums.under_no_heading;
  for (const answers::BudgetLine& line : budget->lines) {
    booked += line.booked;
    if (line.number > 0 && line.in_estimate && !line.finished())
      CHECK(read.find(std::to_string(line.number) + " " +
                      (words::is_certain(line) ? line.estimate.what : "")) != std::string::npos);
  }
  CHECK(booked == sums.booked);
  const Answer done = shop.post(
      "/entry",
      {{"do", "done"}, {"vehicle", "sprat"}, {"lines", "windscreen cracked across"}, {"next", "/car/sprat"}});
  CHECK(done.status == 303);
  CHECK(shop.event_of(shop.last()) ==
        "{ do = \"done\", date = 2025-03-12, vehicle = \"sprat\", lines = [\"windscreen cracked across\"] }");
}

TEST_CASE("what has to be put right before it is sold is not left by the way, all else can be not needed",
          "[page]") {
  YardShop shop;
  shop.book_job("sprat", "date = 2025-03-13");
  shop.today = Day(2025, 3, 12);
  const std::string read = read_aloud(shop.get("/car/sprat"));
  INFO(read);
  // By its appraisal the windscreen has to be put right; the headlamps need not be.
  const auto row_of = [&](const std::string& name) {
    const auto at = read.find("\n" + name + " | ");
    REQUIRE(at != std::string::npos);
    return read.substr(at, read.find("\n", read.find("[Done]", at)) - at);
  };
  CHECK(row_of("36 windscreen cracked across").find("[Not needed]") == std::string::npos);
  CHECK(row_of("44 headlamps yellowed").find("[Not needed]") != std::string::npos);
}

TEST_CASE("the first advert offers what is open, and closes what was not ticked", "[page]") {
  YardShop shop;
  shop.book_job("sprat", "date = 2025-03-13");
  shop.today = Day(2025, 3, 12);
  CHECK(read_aloud(shop.get("/sell/sprat"))
            .find("The first advert closes what is open, but for what is still to do:") != std::string::npos);
  CHECK(shop.post("/entry", {{"do", "advertised"},
                             {"vehicle", "sprat"},
                             {"price", "3490"},
                             {"still_to_do", "headlamps yellowed"}})
            .status == 200);
  const auto budget = answers::budget_of(shop.book(), "sprat");
  REQUIRE(budget);
  for (const answers::BudgetLine& line : budget->lines)
    if (line.in_estimate) CHECK(line.finished() == (line.estimate.what != "headlamps yellowed"));
  CHECK(read_aloud(shop.get("/sell/sprat")).find("The first advert closes") == std::string::npos);
}

TEST_CASE("go on or stop names the course to take first, and asks for the cause where none is noted",
          "[page]") {
  YardShop shop;
  shop.book_job("drayman", "date = 2025-09-14");
  shop.today = Day(2025, 9, 14);
  CHECK(says(shop.get("/go-on/drayman"), "Which cause it is decides: nobody noted one yet."));
  const std::string read = read_aloud(shop.get("/go-on/drayman?cause=rot+in+frame%2C+tank+and+lines"));
  INFO(read);
  CHECK(read.find("rot in frame, tank and lines\n") != std::string::npos);
  CHECK(read.find("from here it still brings:\n") != std::string::npos);
  CHECK(read.find("[Keep as a finding]") != std::string::npos);
  CHECK(shop.post("/entry", {{"do", "finding"},
                             {"vehicle", "drayman"},
                             {"text", "frame is through"},
                             {"cause", "rot in frame, tank and lines"}})
            .status == 303);
  CHECK(read_aloud(shop.get("/go-on/drayman")).find("from here it still brings:\n") != std::string::npos);
}

TEST_CASE("selling shows the advert's price first; a sale that falls through counts until its day",
          "[page]") {
  YardShop shop;
  shop.book_job("sprat", "do = \"sell\"");
  shop.today = Day(2025, 4, 15);
  const std::string read = read_aloud(shop.get("/sell/sprat"));
  INFO(read);
  CHECK(read.find("[Advertise]") != std::string::npos);
  CHECK(read.find("[Sold]") != std::string::npos);
  CHECK(read.find("A buyer's deposit is held: 200.00") != std::string::npos);
  const Answer sold = shop.post("/entry", {{"do", "sell"},
                                           {"vehicle", "sprat"},
                                           {"price", "3250"},
                                           {"purse", "bank"},
                                           {"deposit_used", "200.00"},
                                           {"next", "/report/sprat"}});
  CHECK(sold.status == 303);
  const auto sale = shop.last();
  const std::string after = read_aloud(shop.get("/sell/sprat"));
  CHECK(after.find("[It fell through]") != std::string::npos);
  shop.today = Day(2025, 4, 20);
  CHECK(shop.post("/entry", {{"do", "void"},
                             {"entry", std::to_string(sale)},
                             {"later", "true"},
                             {"date", "2025-04-20"},
                             {"why", "his money did not come"}})
            .status < 400);
  CHECK(shop.show("sprat", Day(2025, 4, 18)).life.state == book::State::sold);
  CHECK(shop.show("sprat", Day(2025, 4, 20)).life.state == book::State::owned);
}

TEST_CASE("where no price can be said, selling says why, and takes the advert and the sale all the same",
          "[page]") {
  YardShop shop;
  shop.Shop::post(
      R"({ do = "owner in", date = 2025-06-01, purse = "cash", amount = 2000.00 },
         { do = "buy", date = 2025-06-02, vehicle = "pip", price = 900.00, purse = "cash" })");
  const Answer page = shop.get("/sell/pip");
  CHECK(page.status == 200);
  const std::string read = read_aloud(page);
  INFO(read);
  CHECK(read.find("pip: sell\nprice: no appraisal of pip is kept") == 0);
  CHECK(read.find("\nbreak-even price\n900.00\n") != std::string::npos);
  CHECK(read.find("[Advertise]") != std::string::npos);
  CHECK(read.find("[Sold]") != std::string::npos);
}

TEST_CASE("the report says the profit to the cent, and where the money went adds up to it", "[page]") {
  YardShop shop;
  shop.book_job("sprat");
  const book::VehicleFigures figures = shop.show("sprat");
  REQUIRE(figures.cash_profit);
  Money sum;
  for (const answers::OfKind& each : answers::where_it_went(shop.book(), "sprat")) sum += each.amount;
  CHECK(sum == *figures.cash_profit);
  const auto stood = answers::cash_over_time(shop.book(), "sprat");
  CHECK(stood.back().sum == *figures.cash_profit);
  const Answer page = shop.get("/report/sprat");
  const std::string read = read_aloud(page);
  INFO(read);
  CHECK(read.find("CASH PROFIT\n" + figures.cash_profit->shown(Currency{}) + "\n") != std::string::npos);
  CHECK(read.find("<profit workbook -> /workbook/profit/sprat>") != std::string::npos);
  // A picture says what it shows in words, and has its figures in a table under it.
  CHECK(page.body.find("<svg viewBox=\"0 0 320.0") != std::string::npos);
  CHECK(page.body.find(
            "<title>Where the money went</title><desc>it sold for 3,250.00; the largest that it went "
            "into is ") != std::string::npos);
  CHECK(page.body.find("style=") == std::string::npos);
}

TEST_CASE("a car that was not bought has no report", "[page]") {
  YardShop shop;
  shop.look_at("drayman");
  CHECK(says(shop.get("/report/drayman"),
             "report: drayman was not bought, expected a car that was: it has no profit and no loss"));
}

TEST_CASE("the year's account adds up to its result", "[page]") {
  YardShop shop;
  shop.book_job("sprat");
  const figures::YearFigures figures = answers::year_figures(shop.book(), 2025, shop.today);
  Money sum;
  for (const words::YearRow& each : words::how_it_comes_about(answers::sums_of(figures))) sum += each.amount;
  CHECK(sum == figures.result);
  const std::string read = read_aloud(shop.get("/year/2025"));
  INFO(read);
  CHECK(read.find("result of 2025, before own hours and before tax\n") != std::string::npos);
  CHECK(read.find("<sprat -> /report/sprat>") != std::string::npos);
  CHECK(says(shop.get("/year/soon"), "year: found \"soon\", expected a year, such as 2026"));
}

TEST_CASE(
    "the year says hours in all, the result an hour and what has no paper, and no result of a car unsold",
    "[page]") {
  YardShop shop;
  shop.Shop::post(
      R"({ do = "owner in", date = 2025-01-01, purse = "cash", amount = 3000.00 },
         { do = "buy", date = 2025-01-02, vehicle = "pip", price = 900.00, purse = "cash" },
         { do = "buy", date = 2025-01-02, vehicle = "wren", price = 700.00, purse = "cash" },
         { do = "hours", date = 2025-01-03, vehicle = "pip", operation = "strip", own = 8 },
         { do = "hours", date = 2025-01-03, vehicle = "wren", operation = "wash", own = 2 },
         { do = "receipt", date = 2025-01-04, paid = "cash", total = 12.00, paper = false, line = [
           { what = "hose", amount = 12.00, kind = "part", to = "wren" }] },
         { do = "sell", date = 2025-02-01, vehicle = "pip", price = 1500.00, purse = "cash" })");
  const Answer page = shop.get("/year/2025");
  INFO(read_aloud(page));
  CHECK(says(page, "own hours: 10"));
  CHECK(says(page, "result an hour: 60.00 result / own hours"));
  CHECK(says(page, "1 thing bought without a paper"));
  CHECK(says(page, "<pip -> /report/pip> | sold | 600.00 | 8 | 75.00"));
  CHECK(says(page, "<wren -> /report/wren> | owned | | 2"));
}

TEST_CASE("every workbook is a download that goes when it was sent", "[page]") {
  YardShop shop;
  shop.book_job("sprat");
  for (const char* path : {"/workbook/profit/sprat", "/workbook/job/sprat", "/workbook/appraisal/sprat",
                           "/workbook/year/2025", "/workbook/shopping"}) {
    INFO(path);
    const Answer answer = shop.get(path);
    REQUIRE(answer.status == 200);
    CHECK(answer.file_goes);
    std::string first(2, ' ');
    std::ifstream(answer.file, std::ios::binary).read(first.data(), 2);
    CHECK(first == "PK");
    std::filesystem::remove(answer.file);
  }
  CHECK(shop.get("/workbook/profit/sprat").save_as == "sprat-profit.xlsx");
  CHECK(says(shop.get("/workbook/profits/sprat"),
             "workbook: found \"profits\", expected appraisal, profit, job, year or shopping, "
             "and of what, did you mean \"profit\"?"));
}

TEST_CASE("a short workbook and initials are had of the page too, and refused where a kind has no such thing",
          "[page]") {
  YardShop shop;
  shop.book_job("sprat");
  std::map<std::string, std::uintmax_t> size;
  for (const char* path : {"/workbook/profit/sprat", "/workbook/profit/sprat?short=1",
                           "/workbook/profit/sprat?short=1&initials=1", "/workbook/year/2025?initials=1"}) {
    INFO(path);
    const Answer answer = shop.get(path);
    REQUIRE(answer.status == 200);
    size[path] = std::filesystem::file_size(answer.file);
    std::filesystem::remove(answer.file);
  }
  CHECK(size["/workbook/profit/sprat?short=1"] < size["/workbook/profit/sprat"]);
  CHECK(says(shop.get("/workbook/job/sprat?short=1"),
             "workbook: found short with job, expected it with profit only"));
  CHECK(says(shop.get("/workbook/year/2025?short=1&initials=1"),
             "workbook: found short with year, expected it with profit only"));
  CHECK(says(shop.get("/workbook/shopping?initials=1"),
             "workbook: found initials with shopping, expected it with profit or year only"));
  CHECK(says(shop.get("/workbook/profit/sprat?brief=1"),
             "workbook: found \"brief=1\", expected short=1 or initials=1"));
}

TEST_CASE("the advert says what it closed, and what was closed with nothing booked on it", "[page]") {
  YardShop shop;
  shop.book_job("sprat", "date = 2025-03-13");
  shop.today = Day(2025, 3, 12);
  const Answer advert = shop.post("/entry", {{"do", "advertised"}, {"vehicle", "sprat"}, {"price", "3490"}});
  const std::string read = read_aloud(advert);
  INFO(read);
  CHECK(read.find("it is ready with that, and nothing more of these is to come: ") != std::string::npos);
  CHECK(read.find("it has to be put right before it is sold, and nothing is booked on it: ") !=
        std::string::npos);
}

TEST_CASE("of one cause alone no word is asked before it is weighed", "[page]") {
  YardShop shop;
  shop.keep(YardShop::sample("five-cars/wren.toml"));
  shop.Shop::post(
      R"({ do = "owner in", date = 2025-06-01, purse = "cash", amount = 3000.00 },
         { do = "buy", date = 2025-06-02, vehicle = "wren", price = 400.00, purse = "cash" })");
  CHECK(read_aloud(shop.get("/go-on/wren")).find("from here it still brings:\n") != std::string::npos);
}
