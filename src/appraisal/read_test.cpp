#include "appraisal/read_test.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "appraisal/job_keys.h"
#include "appraisal/read_amount.h"
#include "exact/nearest.h"

namespace nonrunner::appraisal {

namespace {

constexpr double sum_tolerance = 1e-9;

std::vector<double> row_of(const Table& given, const std::string& test, const std::string& under,
                           std::size_t outcomes) {
  const std::string expected =
      fmt::format("a list of {} chances from 0 to 1, one for each outcome, that add up to 1", outcomes);
  const Value* row = given.find(under);
  if (!row)
    given.refuse_whole(
        fmt::format("test {} has no chances under \"{}\" in \"given\", expected {}", test, under, expected));
  if (row->kind != Value::Kind::array || row->items.size() != outcomes) given.refuse(under, expected);
  std::vector<double> chances;
  double sum = 0;
  for (const Value& item : row->items) {
    const bool number = item.kind == Value::Kind::whole || item.kind == Value::Kind::real;
    if (!number || item.real < 0 || item.real > 1) given.refuse(under, expected);
    chances.push_back(item.real);
    sum += item.real;
  }
  if (std::abs(sum - 1) > sum_tolerance)
    given.refuse_whole(
        fmt::format("test {}: the chances under \"{}\" add up to {:.10g}, expected 1", test, under, sum),
        under);
  return chances;
}

Test test_of(Table& table, const Currency& currency, const Names& causes, const Names& troubles) {
  table.only(job_keys("test"));
  Test test;
  test.name = table.text("name");
  const std::string shown = table.find("name")->shown();
  test.cash = money_amount_or_zero(table, "cash", currency);
  test.hours = amount_of_or_zero(table, "hours", "hours");
  test.outcomes = table.texts("outcomes");
  if (test.outcomes.size() < 2) table.refuse("outcomes", "at least two outcomes");
  if (std::set<std::string>(test.outcomes.begin(), test.outcomes.end()).size() != test.outcomes.size())
    table.refuse("outcomes", "outcomes that differ from each other");
  if (table.has("about")) test.trouble = troubles.find(table, "about", table.text("about"));

  const std::vector<std::string> under =
      test.trouble ? std::vector<std::string>{"present", "absent"} : causes.all();
  const std::string rows =
      test.trouble ? "a table with the rows present and absent" : "a table with a row for every cause";
  if (table.has("given") && table.find("given")->kind != Value::Kind::table) table.refuse("given", rows);
  const auto given = table.table("given", fmt::format("\"given\" of [[test]] {}", shown));
  if (!given) table.refuse("given", rows);
  for (const auto& [key, value] : given->value().entries)
    if (std::find(under.begin(), under.end(), key) == under.end())
      given->refuse_whole(fmt::format("test {}: \"given\" has a row for \"{}\", expected {}{}", shown, key,
                                      test.trouble ? "\"present\" and \"absent\"" : "the name of a [[cause]]",
                                      did_you_mean(key, under)),
                          key);
  for (const std::string& each : under)
    test.given.push_back(row_of(*given, shown, each, test.outcomes.size()));

  if (table.has("gone")) {
    constexpr auto expected = "a chance of 0 or more and at most 1";
    test.gone = number_from(table, "gone", 0, expected);
    if (*test.gone > 1) table.refuse("gone", expected);
  }
  test.spoiled = table.flag_or("spoiled", false);
  if (table.has("seen")) {
    const std::string seen = table.text("seen");
    const auto found = std::find(test.outcomes.begin(), test.outcomes.end(), seen);
    if (found == test.outcomes.end()) {
      std::string listed;
      for (const std::string& each : test.outcomes) listed += (listed.empty() ? "\"" : ", \"") + each + "\"";
      table.refuse("seen", "one of its outcomes: " + listed);
    }
    test.seen = static_cast<std::size_t>(found - test.outcomes.begin());
  }
  return test;
}

}  // namespace

std::vector<Test> read_tests(const Table& root, const Currency& currency, const Names& causes,
                             const Names& troubles) {
  Names names("[[test]]");
  std::vector<Test> all;
  for (Table& table : root.tables("test", "[[test]]")) {
    names.add(table);
    all.push_back(test_of(table, currency, causes, troubles));
  }
  return all;
}

}  // namespace nonrunner::appraisal
