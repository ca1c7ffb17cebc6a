// Names of lines, and what is close to them: the examples are those of common words that must not be taken for a
// line, and of slips of the pen that must.
#include "answers/links.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

std::vector<LineName> names() {
  std::vector<LineName> all;
  const auto add = [&](const std::string& name, bool is_hours, std::vector<std::string> also = {}) {
    all.push_back({name, is_hours, std::move(also), Day(2026, 4, 1), static_cast<int>(all.size()) + 1});
  };
  add("starter", false);
  add("water pump with gasket", false);
  add("thermostat with housing seal", false);
  add("pressure-test and skim the head", false);
  add("radiator", false);
  add("engine oil, qt", false);
  add("engine, complete", false);
  add("dirty inside and out", true, {"cleaned at home"});
  add("driver's seat cloth torn", false, {"seat from the yard", "seat cover"});
  add("strip to the head", true);
  return all;
}

// The names that these words are close to, among money or hours.
std::vector<std::string> close(const std::string& words, bool is_hours = false) {
  static const std::vector<LineName> all = names();
  std::vector<std::string> found;
  for (const LineName* each : close_names(all, words, is_hours)) found.push_back(each->name);
  return found;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("one common word is close to nothing", "[answers]") {
  for (const std::string word : {"clean", "oil", "pump", "strip", "head", "change", "a", "12", ""}) {
    INFO(word);
    CHECK(close(word).empty());
    CHECK(close(word, true).empty());
  }
}

TEST_CASE("a name said a little otherwise, and a slip of the pen, are close to one line", "[answers]") {
  CHECK(close("starter motor") == Names{"starter"});
  CHECK(close("Water Pump") == Names{"water pump with gasket"});
  CHECK(close("thermostat") == Names{"thermostat with housing seal"});
  CHECK(close("skim the head") == Names{"pressure-test and skim the head"});
  CHECK(close("radiatr") == Names{"radiator"});
  CHECK(close("radiators, two") == Names{"radiator"});
  CHECK(close("engine oil") == Names{"engine oil, qt", "engine, complete"});  // two: put first in a list
  CHECK(close("driver's seat") == Names{"driver's seat cloth torn"});
  CHECK(close("seat") == Names{"driver's seat cloth torn"});  // one of the first two words of the fault
  CHECK(close("cover").empty());
}

TEST_CASE("a head of one word is no ground for Enter", "[answers]") {
  CHECK(words_in_head("radiator hose") == 2);
  CHECK(words_in_head("radiator") == 1);
  CHECK(words_in_head("water pump with gasket") == 2);
  CHECK(words_in_head("engine, complete") == 1);
  CHECK(words_in_head("3 of the 4") == 0);
}

TEST_CASE("a name as it is written comes before one that differs in its letters alone", "[answers]") {
  std::vector<LineName> all = names();
  all.push_back({"Radiator", false, {}, Day(2026, 4, 1), 11});
  CHECK(name_meant(all, "Radiator", false) == "Radiator");
  CHECK(name_meant(all, "radiator", false) == "radiator");
  CHECK(name_meant(all, "RADIATOR", false) == "radiator");
}

TEST_CASE("a name is meant by its number, by itself, or by how a fault is put right", "[answers]") {
  const auto all = names();
  CHECK(name_meant(all, "2", false) == "water pump with gasket");
  CHECK(name_meant(all, "Engine oil, QT", false) == "engine oil, qt");
  CHECK(name_meant(all, "seat cover", false) == "driver's seat cloth torn");
  CHECK(name_meant(all, "cleaned at home", true) == "dirty inside and out");
  CHECK_FALSE(name_meant(all, "seat covers", false));
  CHECK_FALSE(name_meant(all, "99", false));
  CHECK(same_name("front brake-disc", "Front brake disc"));
  CHECK_FALSE(same_name("engine out", "engine in"));
}

TEST_CASE("a plural's s is no letter of a short word, and one letter is a slip in long words alone",
          "[answers]") {
  std::vector<LineName> all = {{"gas line", false, {}, Day(2026, 4, 1), 1},
                               {"belt", false, {}, Day(2026, 4, 1), 2},
                               {"bearing", false, {}, Day(2026, 4, 1), 3}};
  const auto close_to = [&](const std::string& words) {
    std::string found;
    for (const LineName* each : close_names(all, words, false)) found += each->name + ";";
    return found;
  };
  CHECK(close_to("gas line") == "gas line;");
  CHECK(close_to("ga line").empty());
  CHECK(close_to("felt").empty());        // four letters: another word
  CHECK(close_to("bearingets").empty());  // two more
  CHECK(close_to("bearinge") == "bearing;");
}

TEST_CASE("an alias that two lines have means neither, and a beginning that two have neither", "[answers]") {
  const std::vector<LineName> all = {{"left seat", false, {"cover"}, Day(2026, 4, 1), 1},
                                     {"left lamp", false, {"cover"}, Day(2026, 4, 1), 2},
                                     {"right lamp", false, {"bulb"}, Day(2026, 4, 1), 3}};
  CHECK_FALSE(name_meant(all, "cover", false));
  CHECK(name_meant(all, "bulb", false) == "right lamp");
  CHECK_FALSE(line_meant(all, "left", false));
  CHECK(line_meant(all, "RIGHT", false) == "right lamp");
  CHECK(line_meant(all, "left s", false) == "left seat");
}

TEST_CASE("numbers go on in the order in which lines came to be known, whatever was planned in between",
          "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"plan\", date = 2025-06-03, vehicle = \"pip\", name = \"mats\", amount = 20.00, hours = 1 }");
  pip.record([&](book::Recording& recording) {
    book::keep_appraisal(recording, "pip", Day(2025, 6, 4), 0,
                         {appraisal::with(certain_job(), "name = \"set\"", "name = \"kit\""), "", ""});
  });
  std::string numbers;
  for (const LineName& each : line_names(pip.book(), "pip"))
    numbers += fmt::format("{} {}{}; ", each.number, each.name, each.is_hours ? " h" : "");
  CHECK(numbers ==
        "1 fees; 2 opening up; 3 set; 4 operation 1 h; 5 operation 2 h; 6 opening up h; 7 wing; 8 wing h; "
        "9 mats; 10 mats h; 11 kit; ");
  CHECK(words_meant(pip.book(), "receipt", "pip", "3", false) == "set");
  CHECK(words_meant(pip.book(), "receipt", "pip", "41253", false) == "41253");  // a maker's number
  CHECK(
      book::Shop::said([&] { words_meant(pip.book(), "receipt", "pip", "99", false); })
          .starts_with("receipt: found \"99\", expected words, or the number of a line of pip's budget, such "
                       "as 1 fees, 2 opening up"));
  // The number of a part is no work; that of the opening up, which is both, is.
  CHECK(
      book::Shop::said([&] { words_meant(pip.book(), "hours", "pip", "3", true); })
          .starts_with("hours: found \"3\", expected words, or the number of a line of pip's budget, such as "
                       "4 operation 1"));
  CHECK(words_meant(pip.book(), "hours", "pip", "2", true) == "opening up");
}

TEST_CASE(
    "fees of the purchase and of the fortnight after it stand under the fees, a line that has another "
    "name now under that, and what goes back where it was bought",
    "[answers]") {
  Pip pip;
  const auto fee = [&](const char* day, const char* what) {
    pip.post(std::string("{ do = \"receipt\", date = ") + day +
             ", paid = \"cash\", total = 9.00, itemised = false, line = [{ what = \"" + what +
             "\", amount = 9.00, kind = \"fee\", to = \"pip\" }] }");
  };
  fee("2025-06-16", "title");
  fee("2025-06-17", "late title");
  pip.post(
      "{ do = \"receipt\", date = 2025-06-05, supplier = \"Cleave\", paid = \"cash\", total = 30.00, line = "
      "[{ "
      "id = \"seals\", what = \"seals\", amount = 30.00, kind = \"part\", to = \"pip\", for = \"set\" }] }, "
      "{ do = \"return\", date = 2025-06-08, line = \"seals\", goods = 30.00, purse = \"cash\" }, "
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"operation 1\", own = 1 }, "
      "{ do = \"finding\", date = 2025-06-09, vehicle = \"pip\", text = \"renamed\", same = "
      "[\"set=kit\", \"operation 1=head\"] }");
  const auto money = book::money_of(pip.book(), "pip");
  const auto worked = book::work_of(pip.book(), "pip");
  const Links links = links_of(pip.book(), "pip", line_names(pip.book(), "pip"), money, worked, {});
  std::string all;
  for (std::size_t i = 0; i < money.size(); ++i)
    all += money[i].what + " " + shown(money[i].amount) + ": " + links.money[i].value_or("none") + "\n";
  CHECK(all ==
        "price paid -900.00: none\n"
        "seals -30.00: kit\n"
        "seals went back 30.00: kit\n"
        "title -9.00: fees\n"
        "late title -9.00: none\n");
  REQUIRE(links.worked.size() == 1);
  CHECK(links.worked[0] == "head");
}
