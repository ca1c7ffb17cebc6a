// The workbook of an appraisal that the book keeps gives the answer that the screen gives.
#include <nlohmann/json.hpp>

#include "appraisal/jobs.h"
#include "commands/session.h"
#include "words/kept_appraisal.h"

using namespace nonrunner;
using commands::Session;

TEST_CASE("the workbook of a kept appraisal knows the tests seen and answers as appraising it again does",
          "[commands]") {
  Session session;
  session.file("pip.toml", appraisal::small_job);
  const auto read_of = [&](const std::string& line) { return nlohmann::json::parse(session.type(line).out); };
  const auto unseen = read_of("appraise SHOP/pip.toml --json");
  session.type("start SHOP/shop.book --currency USD --distance mi");
  REQUIRE(session.type("appraise SHOP/pip.toml --seen 1=2 --keep").status == 0);
  const auto again = read_of("appraise pip --json");
  CHECK(again["walk_away"]["price"] != unseen["walk_away"]["price"]);
  const auto sheet =
      words::kept_appraisal_figures(book::Book::open(session.folder() / "shop.book"), "pip", session.today);
  CHECK(appraisal::cents(sheet.walk_away) == again["walk_away"]["price"]);
  REQUIRE(sheet.verdict);
  CHECK(appraisal::name_of(*sheet.verdict) == again["verdict"]);
  for (std::size_t i = 0; i < sheet.causes.size(); ++i)
    CHECK(fmt::format("{:.4g}", sheet.causes[i].probability) ==
          fmt::format("{:.4g}", again["posterior"][i]["probability"].get<double>()));
}
