#include "page/house_log.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

#include "book/fixture.h"

using namespace nonrunner;
using namespace nonrunner::page;

namespace {
std::string bytes(const std::filesystem::path& file) {
  std::stringstream text;
  text << std::ifstream(file).rdbuf();
  return text.str();
}
}  // namespace

TEST_CASE("the log has a line a request, whatever a device is called", "[page]") {
  book::TemporaryFolder folder;
  const auto file = folder.path() / "shop.book.log";
  {
    HouseLog log(file);
    log.line("2026-05-02T10:00:00Z", "kitchen phone", "GET", "/car/*", 200, 1.25);
    log.line("2026-05-02T10:00:01Z", "a\" GET /x 200\nb", "", "", 400, 0);
  }
  HouseLog(file).line("2026-05-02T10:00:02Z", "", "PUT", "/entry/*", 201, 12);
  CHECK(bytes(file) ==
        "2026-05-02T10:00:00Z \"kitchen phone\" GET /car/* 200 1.2\n"
        "2026-05-02T10:00:01Z \"a' GET /x 200 b\" - - 400 0.0\n"
        "2026-05-02T10:00:02Z \"-\" PUT /entry/* 201 12.0\n");
}

TEST_CASE("the log is begun anew before it is larger than 1 MB", "[page]") {
  book::TemporaryFolder folder;
  const auto file = folder.path() / "shop.book.log";
  HouseLog log(file);
  std::uintmax_t largest = 0;
  for (int i = 0; i < 30'000; ++i) {
    log.line("2026-05-02T10:00:00Z", "kitchen phone", "GET", "/car/*", 200, i);
    if (i % 100 == 0) largest = std::max(largest, std::filesystem::file_size(file));
  }
  CHECK(largest > 900'000);
  CHECK(largest <= HouseLog::most);
  CHECK(std::filesystem::file_size(file) < 900'000);
}

TEST_CASE("a log that cannot be written keeps nobody from the book", "[page]") {
  book::TemporaryFolder folder;
  HouseLog nowhere(folder.path() / "no" / "folder.log");
  nowhere.line("2026-05-02T10:00:00Z", "phone", "GET", "/", 200, 1);
  std::ofstream(folder.path() / "elsewhere") << "kept\n";
  std::filesystem::create_symlink(folder.path() / "elsewhere", folder.path() / "link.log");
  HouseLog(folder.path() / "link.log").line("2026-05-02T10:00:00Z", "phone", "GET", "/", 200, 1);
  CHECK(bytes(folder.path() / "elsewhere") == "kept\n");
}
