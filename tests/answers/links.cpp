// Names of lines, and what is close to them: the examples are those of common words that must not be taken for a
// line, and of slips of the pen that must.
#include "answers/links.h"

#include <catch2/catch.hpp>

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
