// The workbooks of a car and of the year agree on what has no paper, and a shop's credit counts once.
#include <catch2/catch.hpp>
#include <set>

#include "answers/profit.h"
#include "answers/year.h"
#include "commands/counter.h"

using namespace nonrunner;
using commands::Counter;

TEST_CASE("a shop's own list is taken with what its columns are called, semicolons and decimal commas",
          "[commands]") {
  commands::Counter counter("shop-list");
  counter.run({"owner", "in", "2500", "--purse", "card", "--date", "2026-04-01"});
  counter.run({"buy", "pip", "900", "--date", "2026-04-20"});
  const std::string list = counter.file("shop.csv",
                                        "Date;Invoice;Item;Price;Loyalty\n"
                                        "2026-04-22;A-17;brake pads;19,50;3\n"
                                        "2026-04-22;A-17;discs;44;7\n");
  const commands::Words words = {"receipt",
                                 "--csv",
                                 list,
                                 "--supplier",
                                 "Millgate Parts",
                                 "--purse",
                                 "card",
                                 "--kind",
                                 "part",
                                 "--to",
                                 "pip",
                                 "--columns",
                                 "Date=date,Invoice=number,item=what,PRICE=amount"};
  CHECK(counter.run(words) ==
        "row 2, 2026-04-22 Millgate Parts A-17, 63.50: added as entry 3\n1 paper added, 0 were there "
        "already\n");
  CHECK(counter.run({"receipt", "--csv", list}) ==
        "nonrunner: shop.csv:1: unknown column \"Invoice\"; see: nonrunner receipt --help\n");
  const std::string grouped = counter.file("grouped.csv", "date;what;amount\n2026-04-23;hoist;1,250\n");
  CHECK(counter.run({"receipt", "--csv", grouped, "--supplier", "x", "--purse", "card", "--kind", "part",
                     "--to", "pip"}) ==
        "nonrunner: grouped.csv:2: the column \"amount\": found \"1,250\", which may be thousands or "
        "thousandths; write it without the mark\n");
  CHECK(counter.run({"receipt", "pip", "5", "x", "--columns", "a=b"}) ==
        "nonrunner: receipt: found --columns without --csv, expected both; see: nonrunner receipt --help\n");
}

TEST_CASE("a car's entries say no paper where the year lists a receipt as missing, and nowhere else",
          "[commands]") {
  Counter counter("papers");
  const auto type = [&](commands::Words words) {
    counter.run(std::move(words));
    REQUIRE(counter.status == 0);
  };
  type({"buy", "pip", "900", "--fee", "title=62", "--purse", "cash", "--date", "2026-01-03"});
  type({"receipt", "pip", "45", "radiator", "--supplier", "Cleave Yard", "--whole", "--purse", "cash",
        "--date", "2026-01-05"});
  type({"receipt", "pip", "4", "cable ties", "--no-paper", "--purse", "cash", "--date", "2026-01-06"});
  type({"receipt", "pip", "31", "coolant pump", "--supplier", "Millgate Parts", "--purse", "cash", "--date",
        "2026-01-07"});
  type({"cost", "pip", "20", "advert", "--purse", "cash", "--date", "2026-01-08"});
  type({"sell", "pip", "2100", "--commission", "2%", "--cost", "forms=15", "--date", "2026-01-20"});
  const book::Book book = book::Book::open(counter.book());
  std::map<std::string, std::string> papers;
  std::set<std::int64_t> marked, listed;
  for (const auto& line : answers::profit_figures(book, "pip", counter.today).lines) {
    papers[line.what] = line.paper;
    if (line.without_paper) marked.insert(line.entry);
  }
  for (const auto& line : answers::year_figures(book, 2026, counter.today).without_paper)
    listed.insert(line.entry);
  CHECK(papers == std::map<std::string, std::string>{{"price paid", ""},
                                                     {"title", ""},
                                                     {"radiator", "Cleave Yard"},
                                                     {"cable ties", ""},
                                                     {"coolant pump", "Millgate Parts"},
                                                     {"advert", ""},
                                                     {"forms", ""},
                                                     {"commission", ""},
                                                     {"sale price", ""}});
  CHECK(marked == listed);
  CHECK(marked.size() == 2);
}

TEST_CASE("a shop's credit is a purse and due to the shop, and the year says how much of it is both",
          "[commands]") {
  Counter counter("credit");
  counter.run({"receipt", "pip", "45", "radiator", "--supplier", "Cleave Yard", "--id", "radiator", "--core",
               "8", "--whole", "--purse", "cash", "--date", "2026-01-05", "--new"});
  counter.run({"return", "radiator", "--purse", "yard-credit", "--date", "2026-01-09"});
  REQUIRE(counter.status == 0);
  const book::Book book = book::Book::open(counter.book());
  const auto figures = answers::year_figures(book, 2026, counter.today);
  Money due, credit;
  for (const auto& each : figures.due) due += each.amount;
  for (const auto& purse : figures.purses)
    if (purse.name == "yard-credit") credit = purse.closing;
  CHECK(credit.plain(Currency()) == "53.00");  // the deposit of the core that went back with its part
  CHECK(figures.credit_due == credit);
  CHECK(due == credit);
}
