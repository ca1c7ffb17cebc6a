#include <catch2/catch.hpp>

#include "commands/counter.h"
#include "text/toml.h"

using namespace nonrunner;
using Catch::Matchers::Equals;
using commands::Counter;

TEST_CASE("what a kind of workbook does not have is refused, and nothing is written", "[commands]") {
  Counter counter("has-none");
  const std::string out = counter.file("out.xlsx", "");
  for (const auto& [words, found] : std::map<std::vector<std::string>, std::string>{
           {{"job", "sprat", out, "--short"}, "--short with job, expected it with profit"},
           {{"year", "2025", out, "--short"}, "--short with year, expected it with profit"},
           {{"shopping", out, "--short"}, "--short with shopping, expected it with profit"},
           {{"appraisal", "sprat", out, "--short"}, "--short with appraisal, expected it with profit"},
           {{"job", "sprat", out, "--initials"}, "--initials with job, expected it with profit or year"},
           {{"shopping", out, "--initials"}, "--initials with shopping, expected it with profit or year"},
           {{"appraisal", "sprat", out, "--initials"},
            "--initials with appraisal, expected it with profit or year"}}) {
    std::vector<std::string> all{"workbook"};
    all.insert(all.end(), words.begin(), words.end());
    CHECK_THAT(counter.run(all),
               Equals("nonrunner: workbook: found " + found + " only; see: nonrunner workbook --help\n"));
    CHECK(counter.status == 2);
  }
  CHECK(read_file(out).empty());
}

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
  // Saved by another program since: every part of it bears another day.
  std::string saved = read_file(fresh);
  for (std::size_t at = saved.find("PK\x01\x02"); at != std::string::npos;
       at = saved.find("PK\x01\x02", at + 4))
    saved[at + 14] = 'b';
  const std::string changed = counter.file("changed.xlsx", saved);
  CHECK_THAT(
      counter.run({"workbook", "shopping", changed}),
      Equals("nonrunner: changed.xlsx: the workbook at this place was changed since, or made by another "
             "program, expected a new name; to write over it all the same: --over\n"));
  CHECK(counter.status == 1);
  CHECK(read_file(changed) == saved);
  counter.run({"workbook", "shopping", changed, "--over"});
  CHECK(counter.status == 0);
  CHECK(read_file(changed) != saved);
}
