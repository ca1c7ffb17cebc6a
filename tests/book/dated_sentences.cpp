// The bookkeeper by days against the sentences that it was written from, one test each, before it is held
// against the book.
#include <catch2/catch.hpp>

#include "book/dated_figures.h"
#include "book/dated_words.h"

using namespace dated;

namespace {

// What an amount is on each of some days: "2024-05-01 30, 2024-06-01 0".
struct Story {
  Bookkeeper keeper;
  explicit Story(std::initializer_list<Event> events) {
    for (const Event& each : events) keeper.type(each);
  }
  Number at(const std::string& on, const std::string& figure) const {
    const Figures all = figures_of(keeper, day(on));
    const auto found = all.find(figure);
    return found == all.end() ? 0 : found->second;
  }
  Number in(int year, const std::string& figure) const {
    const Figures all = year_of(keeper, year);
    const auto found = all.find(figure);
    return found == all.end() ? 0 : found->second;
  }
};

}  // namespace

TEST_CASE("by days: what was typed wrong counts on no day, what falls through counts until that day",
          "[dated]") {
  Story story{named("buy", buy("2024-01-10", "pip", 1000)), part("2024-01-20", "lamp", "pip", 30),
              part("2024-01-21", "seat", "pip", 50), never_was("2024-03-01", "lamp"),
              falls_through("2024-03-01", "seat")};
  CHECK(story.at("2024-01-20", "pip cost") == 1000);
  CHECK(story.at("2024-01-21", "pip cost") == 1050);
  CHECK(story.at("2024-02-29", "pip cost") == 1050);
  CHECK(story.at("2024-03-01", "pip cost") == 1000);
  CHECK(story.at("2024-03-01", "purse cash") == -1000);
}

TEST_CASE(
    "by days: a cost up to the day of the sale is before it, a later one after it, whatever was typed first",
    "[dated]") {
  Story story{part("2024-03-02", "late", "pip", 7), sell("2024-03-01", "pip", 2000),
              buy("2024-01-10", "pip", 1000), part("2024-03-01", "same day", "pip", 5)};
  CHECK(story.at("2024-03-02", "pip cost") == 1005);
  CHECK(story.at("2024-03-02", "pip late cost") == 7);
  CHECK(story.at("2024-03-02", "pip first result") == 995);
  CHECK(story.at("2024-03-02", "pip cash profit") == 988);
  CHECK(story.at("2024-02-29", "pip carried") == 1000);
  CHECK(story.at("2024-03-01", "pip carried") == 0);
}

TEST_CASE("by days: a car passed and not bought carries nothing; bought after all it carries its looking",
          "[dated]") {
  Story story{part("2024-01-01", "scan", "pip", 12), event("pass", "2024-01-02", "pip", 0),
              part("2024-01-03", "fuel", "pip", 9), buy("2024-02-01", "pip", 100)};
  CHECK(story.at("2024-01-01", "pip carried") == 12);
  CHECK(story.at("2024-01-02", "pip looking") == 12);
  CHECK(story.at("2024-01-03", "pip looking") == 21);
  CHECK(story.at("2024-01-03", "pip carried") == 0);
  CHECK(story.at("2024-02-01", "pip carried") == 121);
  CHECK(story.at("2024-02-01", "pip looking") == 0);
}

TEST_CASE("by days: a sale stands until the day before it falls through, and its other costs stay paid",
          "[dated]") {
  Event sale = named("sale", sell("2024-12-20", "pip", 1500, {{"advert", 20, "card"}, {"valet", 8, "cash"}}));
  sale.rate = 100;
  Story story{buy("2024-01-10", "pip", 1000), sale, falls_through("2025-01-05", "sale"),
              sell("2025-01-05", "pip", 1400)};
  CHECK(story.at("2025-01-04", "pip cash profit") == 1500 - 1000 - 28 - 150);
  CHECK(story.at("2025-01-05", "pip cash profit") == 1400 - 1000 - 28);
  CHECK(story.at("2025-01-05", "purse card") == -20);
  CHECK(story.in(2024, "result") == 322);
  CHECK(story.in(2025, "sales") == -100);
  CHECK(story.in(2025, "selling costs") == -150);
  CHECK(story.in(2025, "result") == 1372 - 1000 - 322);
  Story apart{buy("2024-01-10", "pip", 1000), sale, falls_through("2025-01-05", "sale", {{"valet"}})};
  CHECK(apart.at("2025-01-05", "pip selling costs") == 8);
  CHECK(apart.at("2025-01-05", "purse card") == 0);
  Story none{buy("2024-01-10", "pip", 1000), sale, never_was("2025-01-05", "sale")};
  CHECK(none.at("2024-12-20", "pip selling costs") == 0);
  CHECK(none.at("2024-12-31", "purse cash") == -1000);
}

TEST_CASE("by days: the shelf's average follows days, all draws of a day at one average", "[dated]") {
  // 10 at 1.00 and 10 at 2.00 make 1.50; 5 and 5 drawn on one day are 7.50 each, whichever was typed first.
  Story story{draw("2024-02-03", "pip", "oil", 5), paper("2024-02-01", "cheap", stock("oil", 1000, 10)),
              draw("2024-02-03", "osprey", "oil", 5), paper("2024-02-02", "dear", stock("oil", 2000, 10))};
  CHECK(story.at("2024-02-03", "pip cost") == 750);
  CHECK(story.at("2024-02-03", "osprey cost") == 750);
  CHECK(story.at("2024-02-03", "shelf oil") == 1500);
  // Typed later with an earlier day: 10 more at 3.00 make 2.00 of the average.
  story.keeper.type(paper("2024-02-02", "third", stock("oil", 3000, 10)));
  CHECK(story.at("2024-02-03", "pip cost") == 1000);
  CHECK(story.at("2024-02-02", "shelf oil") == 6000);
  // Ties of a cent go by tag: 0.03 over two equal draws.
  Story odd{paper("2024-02-01", "few", stock("nuts", 3, 2)), draw("2024-02-02", "wren", "nuts", 1),
            draw("2024-02-02", "dunlin", "nuts", 1)};
  CHECK(odd.at("2024-02-02", "dunlin cost") == 2);
  CHECK(odd.at("2024-02-02", "wren cost") == 1);
}

TEST_CASE("by days: pieces go back at their own line's cost, never at more than the shelf stands at",
          "[dated]") {
  Story story{paper("2024-02-01", "cheap", stock("oil", 1000, 10)),
              paper("2024-02-02", "dear", stock("oil", 3000, 10)), goes_back("2024-02-03", "dear", 10, 3000)};
  CHECK(story.at("2024-02-03", "shelf oil") == 1000);
  CHECK(story.at("2024-02-03", "overhead") == 0);
  // 15 drawn at 2.00 leave 5 at 10.00; the five dear ones that go back leave nothing behind: 10.00 of 15.00.
  Story short_of{paper("2024-02-01", "cheap", stock("oil", 1000, 10)),
                 paper("2024-02-02", "dear", stock("oil", 3000, 10)), draw("2024-02-03", "pip", "oil", 15),
                 goes_back("2024-02-04", "dear", 4, 1200), goes_back("2024-02-05", "dear", 1, 300)};
  CHECK(short_of.at("2024-02-04", "shelf oil") == 0);
  CHECK(short_of.at("2024-02-04", "overhead") == -200);
  CHECK(short_of.at("2024-02-05", "overhead") == -500);
}

TEST_CASE("by days: a count is the last of its day and stands against what lies there then", "[dated]") {
  Story story{paper("2024-02-01", "oil", stock("oil", 1000, 10)), count("2024-02-05", "oil", 4),
              draw("2024-02-05", "pip", "oil", 5)};
  CHECK(story.at("2024-02-05", "overhead") == 100);
  CHECK(story.at("2024-02-05", "shelf oil") == 400);
  story.keeper.type(draw("2024-02-03", "pip", "oil", 1));
  CHECK(story.at("2024-02-05", "overhead") == 0);
  CHECK(story.at("2024-02-05", "pieces of oil") == 4000);
}

TEST_CASE("by days: a full paper takes the place of its quick line from the earlier of both days",
          "[dated]") {
  Story story{buy("2024-12-01", "pip", 1000), quick("2024-12-30", "quick", "pip", 50),
              sell("2024-12-31", "pip", 1400), replacing("quick", part("2025-01-02", "paper", "pip", 52))};
  CHECK(story.at("2024-12-30", "pip cost") == 1052);
  CHECK(story.at("2024-12-31", "pip cash profit") == 348);
  CHECK(story.at("2024-12-31", "quick lines") == 0);
  // Once voided the paper does not bring the quick line back.
  story.keeper.type(never_was("2025-01-03", "paper"));
  CHECK(story.at("2024-12-30", "pip cost") == 1000);
}

TEST_CASE("by days: a quick line in a closed period counts until the first open day", "[dated]") {
  Story story{buy("2024-12-01", "pip", 1000), quick("2024-12-30", "quick", "pip", 50),
              sell("2024-12-31", "pip", 1400)};
  story.keeper.close(day("2024-12-31"));
  story.keeper.type(replacing("quick", part("2025-01-09", "paper", "pip", 52)));
  CHECK(story.at("2024-12-31", "pip cash profit") == 350);
  CHECK(story.at("2024-12-31", "purse cash") == 350);
  CHECK(story.at("2025-01-01", "pip cost") == 1050);
  CHECK(story.at("2025-01-01", "pip late cost") == 2);
  CHECK(story.at("2025-01-01", "pip first result") == 350);
  CHECK(story.at("2025-01-01", "purse cash") == 348);
  // What comes after a closing counts from the first open day; what is taken back in it stays until then.
  story.keeper.type(part("2024-12-15", "forgotten", "pip", 9));
  CHECK(story.at("2024-12-31", "pip cost") == 1050);
  CHECK(story.at("2025-01-01", "pip late cost") == 11);
}

TEST_CASE("by days: the refund of k pieces after g went back is what the steps of the whole are", "[dated]") {
  Line hose = line("part", "pip", 3000, 3);
  CHECK(refund_of(hose, 1000, 2000).goods == 2000);
  hose.amount = 1000;
  CHECK(refund_of(hose, 0, 1000).goods == 333);
  CHECK(refund_of(hose, 1000, 1000).goods == 334);
  CHECK(refund_of(hose, 2000, 1000).goods == 333);
  Event discounted = paper("2024-01-01", "hose", line("part", "pip", 10000, 1), 0, 1000);
  work_out(discounted);
  CHECK(refund_of(discounted.lines.front(), 0, 1000).goods == 9000);
}

TEST_CASE("by days: recoveries and costs are set against each other down to zero", "[dated]") {
  Story story{buy("2024-01-01", "pip", 100), recover("2024-01-02", "pip", 150),
              part("2024-01-03", "pump", "pip", 30)};
  CHECK(story.at("2024-01-02", "pip carried") == 0);
  CHECK(story.in(2024, "other income") == 20);
  CHECK(story.in(2024, "closing") == 0);
  CHECK(story.at("2024-01-03", "pip break-even") == 0);
}

TEST_CASE("by days: a tool goes back out of the car that it was charged to, the rest out of the tools",
          "[dated]") {
  for (const bool kept : {true, false}) {
    Line tool = line("tool", "", 50);
    tool.tools_kept = kept;
    const std::string account = kept ? "tools kept" : "tools";
    Story story{buy("2024-01-01", "pip", 1000), paper("2024-01-02", "puller", tool),
                transfer("2024-01-03", "tools", "pip", 30, "puller"),
                goes_back("2024-01-04", "puller", 1, 50)};
    CHECK(story.at("2024-01-03", "pip cost") == 1030);
    CHECK(story.at("2024-01-03", account) == 20);
    CHECK(story.at("2024-01-04", "pip cost") == 1000);
    CHECK(story.at("2024-01-04", account) == 0);
  }
}

TEST_CASE("by days: what is short of a core is cost under the day of the hand-over", "[dated]") {
  Line pump = line("part", "pip", 46, 1);
  pump.core_each = 18;
  Story story{buy("2024-01-01", "pip", 100), paper("2024-01-02", "pump", pump),
              sell("2024-01-03", "pip", 300), core_back("2024-01-04", "pump", 1, 10)};
  CHECK(story.at("2024-01-03", "core of pump") == 18);
  CHECK(story.at("2024-01-04", "core of pump") == 0);
  CHECK(story.at("2024-01-04", "pip late cost") == 8);
  // A part whose core is still out takes its deposit with it.
  Story travels{buy("2024-01-01", "pip", 100), paper("2024-01-02", "pump", pump)};
  Event back = goes_back("2024-01-03", "pump", 1, 46);
  back.cores = 1000;
  back.deposit = 18;
  travels.keeper.type(back);
  CHECK(travels.at("2024-01-03", "purse cash") == -100);
  CHECK(travels.at("2024-01-03", "core of pump") == 0);
}

TEST_CASE("by days: what cannot be so is named", "[dated]") {
  const auto fault = [](std::initializer_list<Event> events) { return Story(events).keeper.fault(0); };
  CHECK(fault({buy("2024-01-01", "pip", 1), named("a", sell("2024-01-05", "pip", 2)),
               sell("2024-01-09", "pip", 2)}) == "pip ended twice");
  CHECK(fault({buy("2024-01-01", "pip", 1), named("a", sell("2024-01-05", "pip", 2)),
               falls_through("2024-01-09", "a"), sell("2024-01-08", "pip", 2)}) == "pip ended twice");
  CHECK(fault({buy("2024-01-01", "pip", 1), named("a", sell("2024-01-05", "pip", 2)),
               falls_through("2024-01-09", "a"), sell("2024-01-09", "pip", 2)}) == "");
  CHECK(fault({buy("2024-01-02", "pip", 1), sell("2024-01-01", "pip", 2)}) ==
        "pip ended before its purchase");
  CHECK(fault({draw("2024-01-01", "pip", "oil", 1), paper("2024-01-02", "can", stock("oil", 1, 1))}) ==
        "more of oil was drawn than is on the shelf");
  CHECK(fault({paper("2024-01-02", "can", stock("oil", 1, 1)), goes_back("2024-01-01", "can", 1, 1)}) ==
        "line can is named on a day on which its paper does not count");
  CHECK(fault({part("2024-01-01", "lamp", "pip", 5), transfer("2024-01-02", "pip", "osprey", 6)}) ==
        "less than nothing was put into pip");
  CHECK(fault({event("buyer deposit", "2024-01-01", "pip", 5),
               event("deposit kept", "2024-01-02", "pip", 6)}) == "more than the deposit held for pip");
  CHECK(fault({recover("2024-01-02", "pip", 5), event("recover back", "2024-01-01", "pip", 5)}) ==
        "less than nothing was recovered from pip");
}
