// Stories in which a book that goes by the order of typing, or that forgets what it booked while a sale
// stood, shows wrong figures: each with its figures worked out by hand, asked of the bookkeeper by days and
// of the book. Amounts in cents of a currency; all invented.
#include <catch2/catch.hpp>

#include "book/dated_figures.h"
#include "book/dated_shop.h"
#include "book/questions/figures.h"

using namespace dated;

namespace {

struct Ask {
  std::string when;  // a day, or a calendar year
  std::string figure;
  Number expected;
};
struct Case {
  const char* name;
  std::vector<Event> events;
  std::vector<Ask> asks;
};

Event tool_paper(const std::string& on, const std::string& id, Number amount, bool kept) {
  Line tool = line("tool", "", amount);
  tool.tools_kept = kept;
  return paper(on, id, tool);
}
Event part_out(const std::string& on, const std::string& tag, Number amount) {
  return event("part out", on, tag, amount);
}

Event put_right(const std::string& name, Number amount) {
  Event made = event("correct", "2024-01-01", "", amount);
  made.names = name;
  return made;
}
Event no_paper(const std::string& on, const std::string& id, const std::string& tag, Number amount) {
  Event made = part(on, id, tag, amount);
  made.on_paper = false;
  return made;
}
Event driven(const std::string& name, Number distance) {
  Event made = put_right(name, distance);
  made.what = "distance";
  return made;
}
// One more quick line whose place the next paper takes.
Event gives_place(const std::string& on, const std::string& quick) {
  Event made = never_was(on, quick);
  made.makes_way = true;
  return made;
}

const std::vector<Case>& cases() {
  static const std::vector<Case> all = {
      {"a pump paid while a sale stood that fell through, sold again in the same year",
       // 1,000 + 30 put in, all of it sold: 1,400 - 1,030 = 370. Nothing is left, nothing is late.
       {buy("2024-03-01", "pip", 100000), named("sale", sell("2024-04-01", "pip", 150000)),
        part("2024-05-01", "pump", "pip", 3000), falls_through("2024-05-10", "sale"),
        sell("2024-06-01", "pip", 140000)},
       {{"2024-05-01", "pip late cost", 3000},
        {"2024-05-01", "pip cash profit", 47000},
        {"2024-05-10", "pip carried", 103000},
        {"2024-12-31", "pip cost", 103000},
        {"2024-12-31", "pip late cost", 0},
        {"2024", "cost of sales", 103000},
        {"2024", "closing", 0},
        {"2024", "result", 37000},
        {"2025", "opening", 0}}},
      {"the same, unsold at the year's end and sold in the next year",
       // What it carries at the end of the year is the inventory: 1,030. The result belongs to the next year.
       {buy("2024-03-01", "pip", 100000), named("sale", sell("2024-04-01", "pip", 150000)),
        part("2024-05-01", "pump", "pip", 3000), falls_through("2024-05-10", "sale"),
        sell("2025-02-01", "pip", 140000)},
       {{"2024-12-31", "pip carried", 103000},
        {"2024", "closing", 103000},
        {"2024", "result", 0},
        {"2024", "late cost", 0},
        {"2025", "opening", 103000},
        {"2025", "closing", 0},
        {"2025", "late cost", 0},
        {"2025", "result", 37000}}},
      {"a seat recovered while a sale stood that fell through",
       // 1,000 - 100 = 900 carried; no income of the year. Sold again at 1,400: 500.
       {buy("2024-03-01", "pip", 100000), named("sale", sell("2024-04-01", "pip", 150000)),
        recover("2024-05-01", "pip", 10000), falls_through("2024-05-10", "sale"),
        sell("2025-02-01", "pip", 140000)},
       {{"2024-12-31", "pip carried", 90000},
        {"2024-12-31", "pip recovered before", 10000},
        {"2024", "result", 0},
        {"2024", "closing", 90000},
        {"2024", "other income", 0},
        {"2025", "cost of sales", 90000},
        {"2025", "result", 50000}}},
      {"a tow and an axle while a write-off stood that was taken back",
       // 1,000 + 12 - 300 = 712 not yet recovered.
       {buy("2024-03-01", "pip", 100000), part_out("2024-03-02", "pip", 50000),
        named("gone", event("write off", "2024-04-01", "pip", 0)), part("2024-05-01", "tow", "pip", 1200),
        recover("2024-05-02", "pip", 30000), falls_through("2024-06-01", "gone")},
       {{"2024-05-02", "pip cash profit", -71200},
        {"2024-12-31", "pip carried", 71200},
        {"2024", "result", 0},
        {"2024", "closing", 71200}}},
      {"a scan while a pass stood that was taken back",
       // 30 + 12 looked for so far, of a car that is looked at still.
       {part("2024-03-01", "fluid", "pip", 3000), named("left", event("pass", "2024-04-01", "pip", 0)),
        part("2024-05-01", "scan", "pip", 1200), falls_through("2024-06-01", "left")},
       {{"2024-05-01", "pip looking", 4200},
        {"2024-05-01", "pip carried", 0},
        {"2024-12-31", "pip carried", 4200},
        {"2024", "closing", 4200},
        {"2024", "result", 0}}},
      {"a quick line while a sale stood that fell through, its paper after the next sale",
       // The paper takes the quick line's place from the earlier of both days, which lies before the resale:
       // 1,033 put in, nothing late, 1,400 - 1,033 = 367.
       {buy("2024-03-01", "pip", 100000), named("sale", sell("2024-04-01", "pip", 150000)),
        quick("2024-05-01", "quick", "pip", 3000), falls_through("2024-05-10", "sale"),
        sell("2024-06-01", "pip", 140000), replacing("quick", part("2024-06-10", "paper", "pip", 3300))},
       {{"2024-05-09", "pip late cost", 3300},
        {"2024-12-31", "pip cost", 103300},
        {"2024-12-31", "pip late cost", 0},
        {"2024-12-31", "pip cash profit", 36700},
        {"2024-12-31", "pip first result", 36700},
        {"2024", "closing", 0}}},
      {"a paper of January typed before the sale of December",
       // It is late cost of the next year: on the last day of December 1,500 - 1,000 = 500.
       {buy("2024-03-01", "pip", 100000), part("2025-01-05", "kindness", "pip", 3000),
        sell("2024-12-28", "pip", 150000)},
       {{"2024-12-31", "pip carried", 0},
        {"2024-12-31", "pip cash profit", 50000},
        {"2025-12-31", "pip cost", 100000},
        {"2025-12-31", "pip late cost", 3000},
        {"2025-12-31", "pip first result", 50000},
        {"2024", "closing", 0},
        {"2024", "cost of sales", 100000},
        {"2024", "result", 50000},
        {"2025", "result", -3000}}},
      {"a forgotten paper of November typed after the sale of January",
       // It is cost of the sale: 1,030 at the year's end, then 1,500 - 1,030 = 470.
       {buy("2024-03-01", "pip", 100000), sell("2025-01-05", "pip", 150000),
        part("2024-11-05", "pump", "pip", 3000)},
       {{"2024-12-31", "pip carried", 103000},
        {"2025-12-31", "pip cost", 103000},
        {"2025-12-31", "pip late cost", 0},
        {"2025-12-31", "pip first result", 47000},
        {"2024", "closing", 103000},
        {"2024", "result", 0},
        {"2024", "late cost", 0},
        {"2025", "result", 47000}}},
      {"a quick line and a sale of December, the paper of January",
       // The paper counts from the quick line's day: 52 are out of the purse at the year's end, and
       // 1,400 - 1,052 = 348.
       {buy("2024-03-01", "pip", 100000), quick("2024-12-30", "quick", "pip", 5000),
        sell("2024-12-31", "pip", 140000), replacing("quick", part("2025-01-02", "paper", "pip", 5200))},
       {{"2024-12-31", "purse cash", 34800},
        {"2024-12-31", "pip cash profit", 34800},
        {"2024-12-31", "pip carried", 0},
        {"2025-12-31", "pip late cost", 0},
        {"2024", "closing", 0},
        {"2024", "result", 34800},
        {"2025", "result", 0}}},
      {"the same with the year closed in between",
       // Then the year keeps the 50 of the quick line; the 2 more are late cost of the first open day.
       {buy("2024-03-01", "pip", 100000), quick("2024-12-30", "quick", "pip", 5000),
        sell("2024-12-31", "pip", 140000), closing("2024-12-31"),
        replacing("quick", part("2025-01-02", "paper", "pip", 5200))},
       {{"2024-12-31", "purse cash", 35000},
        {"2024", "result", 35000},
        {"2025-01-01", "pip cost", 105000},
        {"2025-01-01", "pip late cost", 200},
        {"2025", "result", -200}}},
      {"a sale of a closed year that is put right, and a tow between it and the close",
       // The tow came after the sale and stays late: the new year has the 100 more that was got, and nothing else.
       {buy("2024-03-01", "pip", 100000), named("sale", sell("2024-10-01", "pip", 150000)),
        part("2024-11-01", "tow", "pip", 4000), closing("2024-12-31"), put_right("sale", 160000)},
       {{"2024-12-31", "pip first result", 50000},
        {"2024-12-31", "pip late cost", 4000},
        {"2024", "result", 46000},
        {"2025-01-01", "pip cost", 100000},
        {"2025-01-01", "pip late cost", 4000},
        {"2025-01-01", "pip first result", 60000},
        {"2025-01-01", "pip cash profit", 56000},
        {"2025", "cost of sales", 0},
        {"2025", "late cost", 0},
        {"2025", "result", 10000}}},
      {"a sale of a closed year that is put right, and an advert and a deposit kept between it and the close",
       // They came after the sale: none of both is in its first result.
       {buy("2024-03-01", "pip", 100000), event("buyer deposit", "2024-09-01", "pip", 7000),
        named("sale", sell("2024-10-01", "pip", 150000)), event("selling cost", "2024-11-01", "pip", 3000),
        event("deposit kept", "2024-11-02", "pip", 7000), closing("2024-12-31"), put_right("sale", 160000)},
       {{"2024-12-31", "pip first result", 50000},
        {"2025-01-01", "pip first result", 60000},
        {"2025-01-01", "pip cash profit", 64000},
        {"2025", "result", 10000}}},
      {"a sale of a closed year and a tow after it, put right twice, and a wheel sold in between",
       // It ends under the day of the first sale still: 10 of the wheel are income of 2025.
       {buy("2024-03-01", "pip", 100000), named("sale", sell("2024-10-01", "pip", 150000)),
        part("2024-11-01", "tow", "pip", 4000), closing("2024-12-31"), put_right("sale", 160000),
        recover("2025-02-01", "pip", 1000), closing("2025-12-31"), put_right("sale", 155000)},
       {{"2025-12-31", "pip recovered after", 1000},
        {"2025", "result", 11000},
        {"2026-01-01", "pip recovered before", 0},
        {"2026-01-01", "pip recovered after", 1000},
        {"2026-01-01", "pip late cost", 4000},
        {"2026-01-01", "pip first result", 55000},
        {"2026", "cost of sales", 0},
        {"2026", "other income", 0},
        {"2026", "result", -5000}}},
      {"one paper for two quick lines of a closed year, both before the sale",
       // 50 and 30 stay cost of the sale; the 2 more are late cost of the first open day.
       {buy("2024-03-01", "pip", 100000), quick("2024-11-01", "one", "pip", 5000),
        quick("2024-11-10", "other", "pip", 3000), sell("2024-11-15", "pip", 140000), closing("2024-12-31"),
        gives_place("2025-01-01", "other"), replacing("one", part("2025-01-09", "paper", "pip", 8200))},
       {{"2024-12-31", "purse cash", 32000},
        {"2024", "result", 32000},
        {"2025-01-01", "pip cost", 108000},
        {"2025-01-01", "pip late cost", 200},
        {"2025-01-01", "purse cash", 31800},
        {"2025-01-01", "quick lines", 0},
        {"2025", "cost of sales", 0},
        {"2025", "result", -200}}},
      {"one paper for two quick lines of which the one that it names came after the sale",
       // It takes the place of both from the earlier day on, which lies before the sale.
       {buy("2024-03-01", "pip", 100000), quick("2024-04-10", "early", "pip", 3000),
        sell("2024-04-20", "pip", 140000), quick("2024-05-01", "late", "pip", 5000),
        gives_place("2024-05-09", "early"), replacing("late", part("2024-05-09", "paper", "pip", 8200))},
       {{"2024-04-10", "pip cost", 108200},
        {"2024-12-31", "pip late cost", 0},
        {"2024-12-31", "pip cash profit", 31800},
        {"2024-12-31", "quick lines", 0}}},
      {"a trip of a closed year that is put right, twice, and one that is taken back",
       // The closed year stays at 40 and 7. The first open one has the 10 more and the 7 less, the next the 5 less.
       {buy("2024-03-01", "pip", 100000), named("way", trip("2024-10-01", "pip", 40000)),
        named("round", trip("2024-10-02", "pip", 7000)), closing("2024-12-31"), driven("way", 50000),
        falls_through("2025-02-01", "round"), closing("2025-12-31"), driven("way", 45000)},
       {{"2024", "driven", 47000},
        {"2025", "driven", 3000},
        {"2026", "driven", -5000},
        {"2024-12-31", "pip distance", 47000},
        {"2025-12-31", "pip distance", 50000},
        {"2026-01-01", "pip distance", 45000}}},
      {"what has no paper of a closed year, put right, and a quick line whose paper came",
       // 2024 keeps its 20 and 50. In 2025 5 more have none, and the 50 of the quick line have one.
       {buy("2024-03-01", "pip", 100000), no_paper("2024-10-01", "clips", "pip", 2000),
        quick("2024-12-30", "quick", "pip", 5000), closing("2024-12-31"), put_right("clips", 2500),
        replacing("quick", part("2025-01-09", "paper", "pip", 5000))},
       {{"2024", "without a paper", 7000}, {"2025", "without a paper", -4500}}},
      {"a tool kept as an asset, charged to a car and returned",
       // No money is out and the car has no tool: it stands at its 1,000.
       {buy("2024-03-01", "pip", 100000), tool_paper("2024-03-02", "puller", 5000, true),
        transfer("2024-03-03", "tools", "pip", 5000, "puller"), goes_back("2024-03-04", "puller", 1, 5000)},
       {{"2024-03-03", "pip cost", 105000},
        {"2024-12-31", "pip cost", 100000},
        {"2024-12-31", "tools kept", 0}}},
      {"a tool that was an expense, charged to a car and returned",
       {buy("2024-03-01", "pip", 100000), tool_paper("2024-03-02", "puller", 5000, false),
        transfer("2024-03-03", "tools", "pip", 5000, "puller"), goes_back("2024-03-04", "puller", 1, 5000)},
       {{"2024-03-03", "tools", 0},
        {"2024-12-31", "pip cost", 100000},
        {"2024-12-31", "tools", 0},
        {"2024", "result", 0}}},
      {"ten cheap pieces and ten dear ones on the shelf, of which the dear ones go back",
       // They go at their own 30.00; ten at 1.00 are left and nobody has earned anything.
       {paper("2024-03-01", "cheap", stock("oil", 1000, 10)),
        paper("2024-03-02", "dear", stock("oil", 3000, 10)), goes_back("2024-03-03", "dear", 10, 3000)},
       {{"2024-03-02", "shelf oil", 4000},
        {"2024-12-31", "shelf oil", 1000},
        {"2024-12-31", "overhead", 0},
        {"2024", "result", 0}}},
      {"a part sold off for more than the car cost, then a pump",
       // 150 against 130 put in: 20 of income, nothing carried, and no price below zero.
       {buy("2024-03-01", "pip", 10000), recover("2024-04-01", "pip", 15000),
        part("2024-05-01", "pump", "pip", 3000)},
       {{"2024-04-30", "pip carried", 0},
        {"2024-12-31", "pip carried", 0},
        {"2024-12-31", "pip break-even", 0},
        {"2024", "other income", 2000},
        {"2024", "result", 2000}}},
      {"an advert paid by card for a sale that fell through",
       // The advert was paid: the card stands as its statement says.
       {buy("2024-03-01", "pip", 100000),
        named("sale", sell("2024-04-01", "pip", 150000, {{"advert", 2000, "card"}})),
        falls_through("2024-05-10", "sale")},
       {{"2024-12-31", "purse card", -2000},
        {"2024-12-31", "purse cash", -100000},
        {"2024-12-31", "pip selling costs", 2000},
        {"2024", "result", -2000}}},
      {"a tool that was an expense of one year, charged to a car in the next",
       // The expense stays in its year; what is charged to the car comes off the expenses of the next.
       {buy("2024-03-01", "pip", 100000), tool_paper("2024-03-02", "puller", 5000, false),
        transfer("2025-03-03", "tools", "pip", 5000, "puller")},
       {{"2024", "result", -5000}, {"2025", "result", 5000}, {"2025-12-31", "pip carried", 105000}}},
      {"a car sold at no price with a commission by share",
       // 100 / (1 - 0.10) = 111.111...: 111.12.
       {buy("2024-03-01", "pip", 10000),
        [] {
          Event sale = sell("2024-04-01", "pip", 0);
          sale.rate = 100;
          return sale;
        }()},
       {{"2024-12-31", "pip break-even", 11112}, {"2024-12-31", "pip cash profit", -10000}}},
  };
  return all;
}

template <class DayFigures, class YearFigures>
std::string wrong(const Case& each, DayFigures of_day, YearFigures of_year) {
  Figures found, expected;
  for (const Ask& ask : each.asks) {
    const Figures all = ask.when.size() == 4 ? of_year(std::stoi(ask.when)) : of_day(day(ask.when));
    const std::string name = ask.when + " " + ask.figure;
    found[name] = all.contains(ask.figure) ? all.at(ask.figure) : 0;
    expected[name] = ask.expected;
  }
  return apart(found, expected);
}

}  // namespace

TEST_CASE("the bookkeeper by days has the worked figures of each story", "[dated]") {
  for (const Case& each : cases()) {
    INFO(each.name);
    Bookkeeper keeper;
    for (const Event& event : each.events) tell(keeper, event);
    CHECK(wrong(
              each, [&](int day) { return figures_of(keeper, day); },
              [&](int year) { return year_of(keeper, year); }) == "");
    CHECK(keeper.fault(0) == "");
    for (const int year : {2024, 2025, 2026})
      CHECK(identities(keeper, day(std::to_string(year) + "-01-01"), day(std::to_string(year) + "-12-31")) ==
            "");
  }
}

TEST_CASE("the book has the worked figures of each story", "[book][days]") {
  for (const Case& each : cases()) {
    INFO(each.name);
    ToldShop told;
    for (const Event& event : each.events) CHECK(told.tell(event) == "");
    const auto& book = told.shop.book();
    CHECK(wrong(
              each, [&](int day) { return figures_of(book, {"pip"}, day); },
              [&](int year) { return year_of(book, year); }) == "");
    CHECK(told.shop.health().findings.empty());
  }
}

TEST_CASE("what goes back is refunded at what was paid for it, whatever came back for the others",
          "[book][days]") {
  nonrunner::book::Shop shop;
  // Three at 10.00, of which one came back for 8.00: the other two are 20.00, not 22.00. One at 100.00
  // with 10.00 off the paper: 90.00 were paid.
  shop.post(R"(
  { do = "receipt", date = 2025-03-01, supplier = "Cleave Yard", paid = "cash", total = 30.00, back_by = 2025-06-30, line = [
    { id = "hose", what = "hose", qty = 3, unit = 10.00, kind = "part", to = "pip" } ] },
  { do = "receipt", date = 2025-03-02, supplier = "Cleave Yard", paid = "cash", discount = 10.00, total = 90.00, back_by = 2025-06-30, line = [
    { id = "lamp", what = "lamp", amount = 100.00, kind = "part", to = "pip" } ] },
  { do = "return", date = 2025-03-10, line = "hose", qty = 1, goods = 8.00, purse = "cash" })");
  const auto refund_on = [&](const std::string& day, const std::string& line) {
    nonrunner::Money refund;
    for (const auto& each : nonrunner::book::may_go_back(shop.book(), nonrunner::book::on(day)))
      if (each.line == line) refund = each.refund;
    return refund;
  };
  CHECK(refund_on("2025-03-10", "hose") == nonrunner::book::usd("20.00"));
  CHECK(refund_on("2025-03-10", "lamp") == nonrunner::book::usd("90.00"));
  // On an earlier day what came back later was still there, and what was bought later was not.
  CHECK(refund_on("2025-03-09", "hose") == nonrunner::book::usd("30.00"));
  CHECK(refund_on("2025-03-01", "lamp") == nonrunner::Money{});
}
