#include "reports/sheet.h"

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <csignal>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "exact/ends.h"
#include "reports/folder.h"

using namespace nonrunner;
using namespace nonrunner::reports;
namespace fs = std::filesystem;

namespace {

void write_one(const fs::path& out) {
  Workbook book(out, Currency(), {"one", "", Day(2026, 1, 2)});
  book.sheet("One").text({0, 0}, "a");
  book.close();
}

}  // namespace

TEST_CASE("a workbook appears whole under its name, and an old one stays until then", "[reports]") {
  const Folder folder;
  const fs::path out = folder.path / "out.xlsx";
  std::ofstream(out) << "the old one";
  {
    Workbook book(out, Currency(), {"one", "", Day(2026, 1, 2)});
    book.sheet("One").text({0, 0}, "a");
    // left without close()
  }
  CHECK(fs::file_size(out) == 11);
  CHECK(files_in(folder.path) == 1);
  write_one(out);
  CHECK(fs::file_size(out) > 1'000);
  CHECK(files_in(folder.path) == 1);
}

TEST_CASE("a workbook that cannot be written says which and why, and leaves nothing", "[reports]") {
  const Folder folder;
  const std::string missing = (folder.path / "none" / "out.xlsx").string();
  CHECK_THROWS_AS(write_one(missing), MachineFailure);
  CHECK_THROWS_WITH(write_one(missing), missing +
                                            ": the workbook could not be written: No such file or directory; "
                                            "nothing was kept, choose another place or make room");
  CHECK_THROWS_WITH(write_one(folder.path), folder.path.string() +
                                                ": the workbook could not be written: a folder stands there; "
                                                "nothing was kept, choose another place or make room");
  CHECK(files_in(folder.path) == 0);
}

namespace {

void write_long_one(const fs::path& out, bool long_rows) {
  Workbook book(out, Currency(), {"one", "", Day(2026, 1, 2)}, long_rows);
  Sheet& sheet = book.sheet("One");
  for (std::uint32_t row = 0; row < 2'000; ++row) {
    sheet.text({row, 0}, "brake cleaner");
    sheet.whole({row, 1}, row);
    sheet.rows_done(row);
  }
  book.close();
}

// Writes in a process of its own that may make files of so many bytes and no more, which stands for a full
// disk. 0: written; 1: MachineFailure that names the file; others: something else.
int written_within(std::uint64_t bytes, const fs::path& out, const fs::path& told, bool long_rows) {
  const pid_t child = ::fork();
  if (child == 0) {
    ::signal(SIGXFSZ, SIG_IGN);
    if (!::freopen(told.c_str(), "w", stderr)) ::_exit(5);
    const rlimit limit{bytes, bytes};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    int status = 0;
    try {
      write_long_one(out, long_rows);
    } catch (const MachineFailure& failure) {
      status =
          std::string(failure.what()).rfind(out.string() + ": the workbook could not be written: ", 0) == 0
              ? 1
              : 3;
    } catch (...) {
      status = 4;
    }
    ::_exit(status);
  }
  int status = 0;
  if (child < 0 || ::waitpid(child, &status, 0) != child || !WIFEXITED(status)) return 6;
  return WEXITSTATUS(status);
}

}  // namespace

TEST_CASE(
    "a workbook that the disk has no room for is a failure of the machine, told once, and leaves nothing",
    "[reports]") {
  const bool long_rows = GENERATE(false, true);
  const Folder folder;
  const fs::path out = folder.path / "out.xlsx", told = folder.path / "told",
                 whole = folder.path / "whole.xlsx";
  write_long_one(whole, long_rows);
  int written = 0, failed = 0;
  // Up to the size of the sheet before it is packed: the packed file alone has room long before.
  for (std::uint64_t bytes = 0; bytes < 400'000; bytes += 7'919) {
    INFO("files of at most " << bytes << " bytes");
    const int status = written_within(bytes, out, told, long_rows);
    REQUIRE((status == 0 || status == 1));
    CHECK(fs::file_size(told) == 0);
    if (status == 0) {
      REQUIRE(fs::file_size(out) == fs::file_size(whole));
      fs::remove(out);
      ++written;
    } else {
      ++failed;
    }
    REQUIRE(files_in(folder.path) == 2);
  }
  CHECK(written > 0);
  CHECK(failed > 10);
}

TEST_CASE("numbers of cells are the nearest ones to the money, and days those of the 1900 date system",
          "[reports]") {
  CHECK(number_of(Money::of_minor(105), Currency()) == 1.05);
  CHECK(number_of(Money::of_minor(-1'999), Currency::of("JPY")) == -1999.0);
  CHECK(number_of(Money::of_minor(1'234), Currency::of("KWD")) == 1.234);
  CHECK(number_of(Price::parse("15.755", Currency()), Currency()) == 15.755);
  // ECMA-376 part 1, 18.17.4.1: 1900-03-01 is 61; from memory: 2000-01-01 is 36526.
  CHECK(number_of(Day(1900, 3, 1)) == 61);
  CHECK(number_of(Day(2000, 1, 1)) == 36526);
  CHECK_THROWS_AS(number_of(Day(1900, 2, 28)), std::logic_error);
}

TEST_CASE("a row that was given up is not written again", "[reports]") {
  const Folder folder;
  Workbook book(folder.path / "out.xlsx", Currency(), {"one", "", Day(2026, 1, 2)}, true);
  Sheet& sheet = book.sheet("One");
  sheet.text({0, 0}, "a");
  sheet.rows_done(0);
  CHECK_THROWS_WITH(sheet.text({0, 1}, "b"), "sheet One: B1 was given up already");
  sheet.text({1, 0}, "c");
  CHECK_NOTHROW(book.close());
}

TEST_CASE("no cell takes a number that is none", "[reports]") {
  const Folder folder;
  Workbook book(folder.path / "out.xlsx", Currency(), {"one", "", Day(2026, 1, 2)});
  Sheet& sheet = book.sheet("One");
  CHECK_THROWS_AS(sheet.decimal({0, 0}, 0.0 / 0.0), std::logic_error);
  CHECK_THROWS_AS(sheet.formula({0, 0}, "1/0", 1e308 * 10, look::decimal), std::logic_error);
}
