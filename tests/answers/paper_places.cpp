// The lines of a paper, and where they stand in the budget.
#include "answers/paper_places.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

book::ReceiptLine line(const std::string& what, const std::string& kind = "part", std::int64_t pieces = 1) {
  book::ReceiptLine each;
  each.what = what;
  each.kind = kind;
  each.quantity = Quantity::of(1000 * pieces);
  each.amount = book::usd("10.00");
  each.shares = {{"pip", 1000}};
  return each;
}
book::Receipt paper(std::vector<book::ReceiptLine> lines) {
  book::Receipt receipt;
  receipt.day = Day(2025, 6, 6);
  receipt.lines = std::move(lines);
  return receipt;
}

}  // namespace

TEST_CASE("a line that is close to one of the budget is asked about, and work goes with the part before it",
          "[answers]") {
  Pip pip;
  book::Receipt receipt =
      paper({line("wing"), line("painting", "sublet"), line("set of seals"), line("rope")});
  const std::vector<PaperPlace> places = places_to_ask(pip.book(), receipt);
  REQUIRE(places.size() == 2);
  CHECK(places[0].line == 1);
  CHECK(places[0].tag == "pip");
  CHECK(places[0].follows == "wing");
  CHECK(told(question_of(places[0], receipt)) ==
        "receipt: \"painting\" goes with \"wing\": does it stand under line 7, wing?\n"
        "y: it stands under that line (for 7)\nn: it stands under none (for none)\n[y]");
  CHECK(places[1].line == 2);
  CHECK(places[1].follows.empty());
  CHECK(told(question_of(places[1], receipt)) ==
        "receipt: \"set of seals\": is that line 3, set?\n"
        "y: it stands under that line (for 3)\nn: it stands under none (for none)");
  answer(places[0], 1, receipt);  // no: nothing is said
  CHECK(receipt.lines[1].under.empty());
  answer(places[0], 0, receipt);
  CHECK(receipt.lines[1].under.at("pip") == "wing");
  answer(places[1], 1, receipt);
  CHECK(receipt.lines[2].under.at("pip").empty());  // under none
  receipt.itemised = false;
  CHECK(places_to_ask(pip.book(), receipt).empty());
}

TEST_CASE("a paper of one line stands where the quick line stood whose place it takes", "[answers]") {
  Pip pip;
  const book::EntryId quick = pip.bought("assembly", "43.20", "itemised = false", ", for = \"wing\"");
  book::Receipt receipt = paper({line("panel, left")});
  carry_place(pip.book(), receipt, {});
  CHECK(receipt.lines[0].under.empty());
  carry_place(pip.book(), receipt, {quick});
  CHECK(receipt.lines[0].under.at("pip") == "wing");
  book::Receipt of_two = paper({line("panel, left"), line("rope")});
  carry_place(pip.book(), of_two, {quick});
  CHECK(of_two.lines[0].under.empty());
}

TEST_CASE("more pieces than are planned, and one pair where two pieces are, are told apart", "[answers]") {
  Pip pip(appraisal::with(certain_job(), "name = \"set\", qty = 1", "name = \"set\", qty = 2"));
  const auto apart = [&](const book::ReceiptLine& one) {
    std::string all;
    for (const PiecesApart& each : pieces_apart(pip.book(), paper({one})))
      all += fmt::format("{} {} {}: {} of {}, {} too many{}\n", each.line, each.tag, each.name,
                         each.bought.shown(), each.planned.shown(), each.too_many.shown(),
                         each.may_be_all ? ", may be all" : "");
    return all;
  };
  CHECK(apart(line("set", "part", 2)).empty());
  CHECK(apart(line("set", "part", 1)).empty());
  CHECK(apart(line("set", "part", 3)) == "0 pip set: 3 of 2, 1 too many\n");
  book::ReceiptLine pair = line("a pair of seals", "part", 1);
  pair.under["pip"] = "set";
  CHECK(apart(pair) == "0 pip set: 1 of 2, 0 too many, may be all\n");
}
