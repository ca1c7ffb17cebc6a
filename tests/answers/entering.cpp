// What is asked before an event is recorded, one question after the other, and what is settled where nobody is asked.
#include "answers/entering.h"

#include "answers/pip.h"
#include "text/made_value.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

Entering entering(const std::string& event) {
  Entering all;
  all.event = *parse_toml("e = " + event, "form").find("e");
  return all;
}
std::string quick(const std::string& what, const std::string& amount, const std::string& more = "") {
  return "{ do = \"receipt\", date = 2025-06-06, total = " + amount + ", itemised = false" + more +
         ", line = [{ what = \"" + what + "\", amount = " + amount + ", kind = \"part\", to = \"pip\" }] }";
}
std::string paper(const std::string& lines, const std::string& total, const std::string& more = "") {
  return "{ do = \"receipt\", date = 2025-06-06, supplier = \"Tessel\", number = \"7\", total = " + total +
         more + ", line = [" + lines + "] }";
}
std::string part(const std::string& what, const std::string& amount) {
  return "{ what = \"" + what + "\", amount = " + amount + ", kind = \"part\", to = \"pip\" }";
}
std::string asked(Pip& pip, const std::string& event) {
  Entering all = entering(event);
  return told(to_ask(pip.book(), all, pip.today));
}
// The purse that was filled in.
std::string purse_of(Pip& pip, const std::string& event, const char* key) {
  Entering all = entering(event);
  to_ask(pip.book(), all, pip.today);
  return text_at(all.event, key);
}
const std::string second_purse =
    "{ do = \"owner in\", date = 2025-06-02, purse = \"card\", amount = 500.00 }, "
    "{ do = \"receipt\", date = 2025-06-05, supplier = \"Harrow\", number = \"1\", paid = \"card\", total = "
    "3.00, "
    "line = [{ what = \"clip\", amount = 3.00, kind = \"part\", to = \"pip\" }] }";

}  // namespace

TEST_CASE("a purse is filled in where it is known, and only where the event has to say one", "[answers]") {
  Pip pip;
  CHECK(purse_of(pip, quick("rope", "5.00"), "paid") == "cash");
  pip.post(second_purse);
  // Of two the one that went to this shop, or by this kind of event, last.
  CHECK(purse_of(pip, paper(part("rope", "5.00"), "5.00"), "paid") == "card");
  CHECK(purse_of(pip, paper(part("rope", "5.00"), "5.00", ", on_account = true"), "paid").empty());
  CHECK(purse_of(pip, paper(part("rope", "0.00"), "0.00"), "paid").empty());  // it moves nothing
  const std::string hours = "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"weld\", ";
  CHECK(purse_of(pip, hours + "own = 1 }", "purse").empty());
  CHECK(asked(pip, hours + "paid = 1, rate = 10.00 }") ==
        "hours: which purse does the money go through?\n1: cash (purse cash)\n2: card (purse card)");
  CHECK(asked(pip, "{ do = \"sell\", date = 2025-06-06, vehicle = \"pip\", price = 1000.00 }")
            .starts_with("sell: which purse does the money go through?"));
}

TEST_CASE("what is there already is asked about until it is said to be another one", "[answers]") {
  Pip pip;
  const book::EntryId there = pip.bought("set", "118.00");
  const std::string one = quick("set", "118.00", ", again = true");
  const std::string like =
      "{ do = \"receipt\", date = 2025-06-05, total = 118.00, paid = \"cash\", itemised = false, ";
  const std::string rest =
      "line = [{ what = \"set\", amount = 118.00, kind = \"part\", to = \"pip\", for = \"set\" }] }";
  CHECK(asked(pip, like + rest).starts_with("receipt: 118.00 on 2025-06-05 is in the book already"));
  CHECK(asked(pip, like + "again = true, " + rest) == "nothing");
  // Many hours are asked about once.
  Entering many =
      entering("{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"weld\", own = 17 }");
  REQUIRE(told(to_ask(pip.book(), many, pip.today))
              .starts_with("hours: 17 own hours on 2025-06-06, more than 16"));
  answer(many, "long_day", "");
  CHECK(told(to_ask(pip.book(), many, pip.today)) == "nothing");
  static_cast<void>(there);
}

TEST_CASE("a quick line and hours are asked under which line they stand, a paper line by line", "[answers]") {
  Pip pip;
  const std::string set =
      "is that line 3, set?\ny: it stands under that line (for set)\nn: it stands under none (for none)";
  CHECK(asked(pip, quick("set of seals", "5.00")) == "receipt: \"set of seals\": " + set);
  CHECK(asked(pip,
              "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"wing, left\", own = 1, "
              "for = \"wing\" }") == "nothing");
  Entering whole = entering(paper(part("rope", "5.00") + ", " + part("set of seals", "6.00"), "11.00"));
  CHECK(told(to_ask(pip.book(), whole, pip.today)) ==
        "receipt: \"set of seals\": is that line 3, set?\ny: it stands under that line (for.2 set)\n"
        "n: it stands under none (for.2 none)");
  answer(whole, "for.2", "set");
  CHECK(told(to_ask(pip.book(), whole, pip.today)) == "nothing");
  CHECK(text_at(whole.event.find("line")->items[1], "for") == "set");
  CHECK(text_at(whole.event.find("line")->items[0], "for").empty());
  // Work that goes with the line before it is not asked about here.
  CHECK(asked(pip, paper(part("wing", "5.00") +
                             ", { what = \"painting\", amount = 6.00, kind = \"sublet\", to = \"pip\" }",
                         "11.00")) == "nothing");
}

TEST_CASE("a paper says which quick lines it takes the place of, and stands where they stood", "[answers]") {
  Pip pip;
  const book::EntryId first = pip.bought("assembly", "43.20", "itemised = false", ", for = \"wing\"");
  Entering one = entering(paper(part("panel, left", "43.20"), "43.20"));
  REQUIRE(told(to_ask(pip.book(), one, pip.today))
              .starts_with("receipt: 43.20 from Tessel may be the paper of a quick line"));
  answer(one, "replaces", std::to_string(first));
  CHECK(told(to_ask(pip.book(), one, pip.today)) == "nothing");
  CHECK(text_at(one.event.find("line")->items[0], "for") == "wing");
  Entering several = entering(paper(part("panel, left", "43.20"), "43.20"));
  answer(several, "replaces", "38,39");
  CHECK(several.event.find("replaces")->text == "38");
  CHECK(several.also_replaced == std::vector<book::EntryId>{39});
  answer(several, "replaces", "");
  CHECK(several.event.find("replaces")->text == "38");  // nothing was said
  CHECK(
      book::Shop::said([&] { answer(several, "replaces", "x"); }) ==
      "receipt: found \"x\", expected the number of the quick line whose place it takes, or several, 38,39");
}

TEST_CASE("where nobody is asked it is taken as another one, and what it may be is told", "[answers]") {
  Pip pip;
  pip.post(second_purse);
  const book::EntryId there = pip.bought("assembly", "43.20", "itemised = false", ", for = \"wing\"");
  const auto settled = [&](const std::string& event) {
    Entering all = entering(event);
    const auto like = settle_unasked(pip.book(), all);
    return std::string(flag_at(all.event, "again") ? "again" : "new") + ", paid " +
           text_at(all.event, "paid") + ", like " + (like ? std::to_string(*like) : "none");
  };
  CHECK(settled(paper(part("rope", "9.00"), "9.00")) == "new, paid cash, like none");
  CHECK(settled(paper(part("panel", "43.20"), "43.20")) == "again, paid cash, like " + std::to_string(there));
  CHECK(settled(paper(part("panel", "43.20"), "43.20", fmt::format(", replaces = {}", there))) ==
        "new, paid cash, like none");
  Entering carried = entering(paper(part("panel", "43.20"), "43.20", fmt::format(", replaces = {}", there)));
  settle_unasked(pip.book(), carried);
  CHECK(text_at(carried.event.find("line")->items[0], "for") == "wing");
  // The same paper, itemised, no quick line left that fits it.
  const book::EntryId whole = pip.bought("lamp", "9.00", "supplier = \"Tessel\", number = \"7\"");
  CHECK(settled(paper(part("lamp", "9.00"), "9.00")) == "again, paid cash, like " + std::to_string(whole));
  // What the phone keeps beside the event is none of its keys.
  Entering kept = entering(
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"weld\", own = 1, "
      "done = true, kept_as = \"0 1\" }");
  CHECK_FALSE(settle_unasked(pip.book(), kept));
}

TEST_CASE("a quick line whose place a paper takes is taken back for that", "[answers]") {
  Pip pip;
  const book::EntryId quick_line = pip.bought("assembly", "43.20");
  pip.record([&](book::Recording& recording) { take_places(recording, Day(2025, 6, 7), {quick_line}); });
  const book::Entry reversal = book::load_entry(pip.book(), quick_line + 1);
  CHECK(reversal.event.find("replaced by the full paper") != std::string::npos);
}
