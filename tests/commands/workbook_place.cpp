#include <catch2/catch.hpp>

#include "commands/counter.h"
#include "text/toml.h"

using namespace nonrunner;
using Catch::Matchers::Equals;
using commands::Counter;

TEST_CASE("a workbook takes the place of nothing but an earlier workbook", "[commands]") {
  Counter counter("place");
  const std::string job = NONRUNNER_SOURCE "/sample-jobs/sprat/job.toml";
  const std::string text = read_file(job);
  const std::string mine = counter.file("mine.toml", text), notes = counter.file("notes.xlsx", "my notes"),
                    fresh = counter.file("fresh.xlsx", "");
  CHECK_THAT(
      counter.run({"appraise", mine, "--workbook", mine}),
      Equals("nonrunner: appraise: found \"mine.toml\", expected a name that ends in .xlsx; see: nonrunner "
             "appraise --help\n"));
  CHECK(counter.status == 2);
  CHECK(read_file(mine) == text);
  CHECK_THAT(
      counter.run({"workbook", "shopping", counter.book().string()}),
      Equals("nonrunner: workbook: found \"shop.book\", expected a name that ends in .xlsx; see: nonrunner "
             "workbook --help\n"));
  CHECK(book::Book::open(counter.book()).path() == counter.book());
  CHECK_THAT(
      counter.run({"workbook", "shopping", notes}),
      Equals(
          "nonrunner: notes.xlsx: there is something at this place already that is no workbook, expected a "
          "new name or an earlier workbook; nothing was overwritten\n"));
  CHECK(counter.status == 1);
  CHECK(read_file(notes) == "my notes");
  counter.run({"workbook", "shopping", fresh});
  CHECK(counter.status == 0);
  counter.run({"workbook", "shopping", fresh});  // and again in its own place
  CHECK(counter.status == 0);
  CHECK(read_file(fresh).substr(0, 2) == "PK");
}
