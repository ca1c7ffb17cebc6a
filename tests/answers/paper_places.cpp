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

TEST_CASE("a paper of several cars' lines asks of none that is shared, goes back, or was said already",
          "[answers]") {
  Pip pip;
  book::ReceiptLine shared = line("set of seals"), back = line("set of seals"), said = line("set of seals"),
                    fee = line("carriage", "fee"), other = line("plain washer");
  shared.shares = {{"pip", 500}, {"teal", 500}};
  back.return_of = "1.1";
  said.under["pip"] = "";
  CHECK(places_to_ask(pip.book(), paper({shared, back, said})).empty());
  // A fee goes with the line before it; what is said of a line decides what that is.
  book::ReceiptLine wing = line("panel");
  wing.under["pip"] = "wing";
  const auto places = places_to_ask(pip.book(), paper({wing, fee, other}));
  REQUIRE(places.size() == 1);
  CHECK(places[0].line == 1);
  CHECK(places[0].follows == "panel");
}

TEST_CASE("one quick line alone gives its place, to a line that has none of its own", "[answers]") {
  Pip pip;
  const book::EntryId wing = pip.bought("assembly", "43.20", "itemised = false", ", for = \"wing\"");
  const book::EntryId set = pip.bought("kit", "40.00", "itemised = false", ", for = \"set\"");
  book::Receipt own = paper({line("set")});
  carry_place(pip.book(), own, {wing});
  CHECK(own.lines[0].under.empty());
  book::Receipt of_both = paper({line("panel, left")});
  carry_place(pip.book(), of_both, {wing, set});
  CHECK(of_both.lines[0].under.empty());
}

TEST_CASE("pieces are counted with those that are there, and of what is poured or closed none are",
          "[answers]") {
  std::string job = appraisal::with(certain_job(), "name = \"set\", qty = 1", "name = \"set\", qty = 2");
  job = appraisal::with(job, "takes_off = 50\n",
                        "takes_off = 50\nconsumables = [{ name = \"oil\", qty = 4, price = 6 }]\n");
  Pip pip(job);
  const auto apart = [&](const std::vector<book::ReceiptLine>& lines) {
    std::string all;
    for (const PiecesApart& each : pieces_apart(pip.book(), paper(lines)))
      all += fmt::format("{} {}: {} of {}{}\n", each.line, each.name, each.bought.shown(),
                         each.planned.shown(), each.may_be_all ? ", may be all" : "");
    return all;
  };
  CHECK(apart({line("oil", "consumable", 5)}).empty());
  CHECK(apart({line("set"), line("set", "part", 2)}) == "1 set: 3 of 2\n");
  pip.post(
      "{ do = \"receipt\", date = 2025-06-05, supplier = \"Tessel\", number = \"1\", paid = \"cash\", total "
      "= 40.00, "
      "line = [{ what = \"set\", qty = 1, unit = 40.00, kind = \"part\", to = \"pip\" }] }");
  CHECK(apart({line("set", "part", 2)}) == "0 set: 3 of 2\n");
  pip.post("{ do = \"done\", date = 2025-06-06, vehicle = \"pip\", lines = [\"set\"] }");
  CHECK(apart({line("set", "part", 2)}).empty());
}
