// May it be in the book already? Whole questions, as each front end asks them.
#include "answers/doubles.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

book::Receipt paper(const std::string& total, const std::string& number = "7") {
  book::Receipt receipt;
  receipt.day = Day(2025, 6, 6);
  receipt.supplier = "Tessel";
  receipt.number = number;
  receipt.paid = {{"cash", book::usd(total)}};
  receipt.total = book::usd(total);
  book::ReceiptLine line;
  line.what = "set, with seals";
  line.amount = book::usd(total);
  line.kind = "part";
  line.shares = {{"pip", 1000}};
  receipt.lines = {line};
  return receipt;
}

}  // namespace

TEST_CASE("a paper is asked whether it takes the place of a quick line that it fits", "[answers]") {
  Pip pip;
  CHECK(told(whose_place(pip.book(), paper("118.00"))) == "nothing");
  pip.bought("set", "118.00");
  CHECK(told(whose_place(pip.book(), paper("118.00"))) ==
        "receipt: 118.00 from Tessel may be the paper of a quick line in the tray?\n"
        "3: it takes the place of entry 3: set, 118.00 on 2025-06-05 (replaces 3)\n"
        "a: it is another one (again)\n"
        "[3]");
  // Near it, not the same: nothing is usual.
  CHECK(told(whose_place(pip.book(), paper("117.50"))) ==
        "receipt: 117.50 from Tessel may be the paper of a quick line in the tray?\n"
        "3: it takes the place of entry 3: set, 118.00 on 2025-06-05 (replaces 3)\n"
        "a: it is another one (again)");
  CHECK(told(whose_place(pip.book(), paper("90.00"))) == "nothing");
}

TEST_CASE("a paper that has the words of a quick line is asked about whatever it comes to", "[answers]") {
  Pip pip;
  pip.bought("Mirror glass", "40.00", "itemised = false, supplier = \"Tessel\"");
  book::Receipt with_entrance = paper("43.25");
  with_entrance.lines.front().what = "mirror glass";
  CHECK(told(whose_place(pip.book(), with_entrance)) ==
        "receipt: 43.25 from Tessel may be the paper of a quick line in the tray?\n"
        "3: it takes the place of entry 3: Mirror glass, 40.00 on 2025-06-05 (replaces 3)\n"
        "a: it is another one (again)");
  // Dearer than the whole paper: it is not on it.
  with_entrance.total = book::usd("39.00");
  CHECK(told(whose_place(pip.book(), with_entrance)) == "nothing");
  // Cheaper by its discount it is the same.
  with_entrance.discount = book::usd("1.00");
  CHECK(told(whose_place(pip.book(), with_entrance)) != "nothing");
  // A bill over several days.
  pip.post(
      "{ do = \"receipt\", date = 2025-06-03, paid = \"cash\", total = 7.25, itemised = false, line = [{ "
      "what = "
      "\"hose\", amount = 7.25, kind = \"part\", to = \"pip\" }] }");
  book::Receipt bill = paper("47.25");
  bill.lines.front().what = "mirror glass";
  bill.lines.push_back(bill.lines.front());
  bill.lines.back().what = "hose";
  CHECK(told(whose_place(pip.book(), bill)) ==
        "receipt: 47.25 from Tessel may be the paper of a quick line in the tray?\n"
        "4,3: it takes the place of entries 4,3: hose and Mirror glass, 47.25 of 2025-06-03 to 2025-06-05 "
        "(replaces 4,3)\n"
        "a: it is another one (again)\n"
        "[4,3]");
}

TEST_CASE("the same paper, a receipt alike and hours alike are asked about, and leaving them out is a choice",
          "[answers]") {
  Pip pip;
  pip.bought("set", "118.00", "supplier = \"Tessel\", number = \"7\"");
  CHECK(told(another_paper(pip.book(), paper("118.00"))) ==
        "receipt: Tessel 7 is in the book already (entry 3); is this another paper?\n"
        "y: it is another one (again)\n"
        "n: leave it out");
  CHECK(told(another_paper(pip.book(), paper("118.00", "8"))) == "nothing");
  book::Receipt alike = paper("118.00", "");
  alike.day = Day(2025, 6, 5);
  alike.itemised = false;
  CHECK(told(another_one(pip.book(), alike)) ==
        "receipt: 118.00 on 2025-06-05 is in the book already, it seems (entry 3); is this another one?\n"
        "y: it is another one (again)\n"
        "n: leave it out");
  pip.post("{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"strip\", own = 9 }");
  book::Labour labour;
  labour.day = Day(2025, 6, 6);
  labour.vehicle = "pip";
  labour.operation = "strip";
  labour.own = Hours::parse("9");
  CHECK(told(another_one(pip.book(), labour)) ==
        "hours: 9 hours on pip for \"strip\" on 2025-06-06 are in the book already (entry 4); are these "
        "others?\n"
        "y: they are others (again)\n"
        "n: leave it out");
  labour.own = Hours::parse("8");
  CHECK(told(another_one(pip.book(), labour)) == "nothing");
}

TEST_CASE("more than sixteen own hours on a day are asked about, more than twenty-four refused",
          "[answers]") {
  Pip pip;
  pip.post("{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"strip\", own = 9 }");
  const Day day(2025, 6, 6);
  CHECK(told(so_many(pip.book(), day, Hours::parse("7"))) == "nothing");
  CHECK(told(so_many(pip.book(), day, Hours::parse("7.1"))) ==
        "hours: 7.1 own hours on 2025-06-06 beside 9 that are there, more than 16; were they so many?\n"
        "y: they were (long_day)\n"
        "n: leave it out");
  CHECK(told(so_many(pip.book(), day, Hours::parse("15"))) ==
        "hours: 15 own hours on 2025-06-06 beside 9 that are there, more than 16; were they so many?\n"
        "y: they were (long_day)\n"
        "n: leave it out");
  CHECK(book::Shop::said([&] { so_many(pip.book(), day, Hours::parse("15.1")); }) ==
        "hours: 15.1 own hours on 2025-06-06 beside 9 that are there, expected at most 24 on one day");
}

TEST_CASE(
    "no more than five quick lines are offered, each with what it is, and a paper that is there is not asked "
    "of",
    "[answers]") {
  Pip pip;
  for (int i = 0; i < 6; ++i)
    pip.bought("set " + std::to_string(i), "118.00", "again = true, itemised = false");
  const auto question = whose_place(pip.book(), paper("118.00"));
  REQUIRE(question);
  REQUIRE(question->choices.size() == 6);
  CHECK(question->choices[0].words == "it takes the place of entry 3: set 0, 118.00 on 2025-06-05");
  CHECK(question->choices[5].key == "a");
  pip.post(
      "{ do = \"receipt\", date = 2025-06-06, supplier = \"Tessel\", number = \"7\", paid = \"cash\", total "
      "= "
      "118.00, again = true, line = [{ what = \"seals\", amount = 118.00, kind = \"part\", to = \"pip\" }] "
      "}");
  CHECK(told(whose_place(pip.book(), paper("118.00"))) == "nothing");  // refused for that
}

TEST_CASE("a paper that takes the place of the one that is there is no double, and helpers' hours count",
          "[answers]") {
  Pip pip;
  const book::EntryId there = pip.bought("set", "118.00", "supplier = \"Tessel\", number = \"7\"");
  book::Receipt again = paper("118.00");
  again.replaces = there;
  CHECK(told(another_paper(pip.book(), again)) == "nothing");
  CHECK(told(another_paper(pip.book(), paper("118.00"))) != "nothing");
  pip.post(
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"weld\", paid = 2, rate = 10, "
      "purse "
      "= \"cash\" }");
  book::Labour labour;
  labour.day = Day(2025, 6, 6);
  labour.vehicle = "pip";
  labour.operation = "weld";
  labour.paid = Hours::parse("2");
  CHECK(
      told(another_one(pip.book(), labour)).starts_with("hours: 2 hours on pip for \"weld\" on 2025-06-06"));
  CHECK(told(so_many(pip.book(), Day(2025, 6, 7), Hours::parse("17"))) ==
        "hours: 17 own hours on 2025-06-07, more than 16; were they so many?\n"
        "y: they were (long_day)\n"
        "n: leave it out");
}
