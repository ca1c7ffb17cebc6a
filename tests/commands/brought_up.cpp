// What is said when a book that an older version made is opened.
#include "commands/brought_up.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <fstream>
#include <iterator>
#include <regex>

#include "appraisal/jobs.h"
#include "book/ledger/migrations.h"
#include "commands/counter.h"

using namespace nonrunner;
namespace fs = std::filesystem;

namespace {

// tests/book/older_book.sql, with an appraisal kept for gull, on which a helper was paid and a tool was charged.
void make_older_book(const fs::path& file) {
  fs::remove(file);
  SQLite::Database old(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  std::ifstream in(NONRUNNER_SOURCE "/tests/book/older_book.sql");
  old.exec(std::string{std::istreambuf_iterator<char>(in), {}});
  SQLite::Statement keep(old, "INSERT INTO appraisal VALUES (1, 'gull', '2024-06-01', NULL, ?, '{}')");
  keep.bind(1, appraisal::with(appraisal::small_job, "tag = \"pip\"", "tag = \"gull\""));
  keep.exec();
}

}  // namespace

TEST_CASE(
    "a book that was brought up to date says once where it lies as it was, and what is still to be placed",
    "[commands][migration]") {
  commands::Counter counter("brought-up");
  make_older_book(counter.book());
  // Broken where the place of the book is long.
  const std::string said = std::regex_replace(counter.run({"vehicles"}), std::regex("\n +"), " ");
  CHECK(counter.status == 0);
  const std::string aside = "shop.book.before-" + fmt::format("{:04}", book::migrations().size());
  CHECK(
      said.starts_with("shop.book: brought up to date; as it was it lies in " + aside +
                       " what it shows otherwise now stands in " + aside +
                       ".txt what was entered stands under a line of its car's budget where both have the "
                       "same name; the rest is "
                       "asked about one by one, each at a terminal: nonrunner under TAG --sort, for gull\n"));
  for (const std::string& each : {aside, aside + ".txt"})
    CHECK(fs::exists(counter.book().parent_path() / each));
  CHECK(counter.run({"vehicles"}).find("brought up to date") == std::string::npos);
}
