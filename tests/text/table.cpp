#include "text/table.h"

#include <catch2/catch.hpp>

#include "exact/ends.h"
#include "text/toml.h"

using namespace nonrunner;
using Catch::Matchers::Equals;

namespace {
std::string refusal_of(const std::string& toml, void (*read)(const Table&)) {
  try {
    const Value root = parse_toml(toml, "pip.toml");
    read(Table(root, "pip.toml", "the file"));
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "accepted";
}
}  // namespace

TEST_CASE("a mistake in a file is named with file, line, key, what was found and what was expected",
          "[text]") {
  const auto shop = [](const Table& root) { root.table("shop", "[shop]")->only({"wait_days", "hour"}); };
  CHECK_THAT(refusal_of("[shop]\nhour = 1\nwalk_days = 4\n", shop),
             Equals("pip.toml:3: unknown key \"walk_days\" in [shop], did you mean \"wait_days\"?"));
  const auto fees = [](const Table& root) { root.money("fees", Currency{}); };
  CHECK_THAT(refusal_of("\nfees = 1.005", fees), Equals("pip.toml:2: \"fees\" in the file is 1.005, expected "
                                                        "an amount of money in USD with at most 2 decimals"));
  CHECK_THAT(refusal_of("fees = \"x\"", fees), Equals("pip.toml:1: \"fees\" in the file is \"x\", expected "
                                                      "an amount of money in USD with at most 2 decimals"));
  CHECK_THAT(refusal_of("fee = 1", fees), Equals("pip.toml:1: the file has no \"fees\", expected an amount "
                                                 "of money in USD with at most 2 decimals"));
  CHECK_THAT(refusal_of("fees = nan", fees),
             Equals("pip.toml:1: \"fees\" in the file is not a number, expected an amount of money in USD "
                    "with at most 2 decimals"));
  CHECK(refusal_of("a = 1\nb = = 2\n", fees).rfind("pip.toml:2: not TOML: ", 0) == 0);
}

TEST_CASE("keys keep the order of the file", "[text]") {
  const Value root = parse_toml("share = { teal = 1, sprat = 2, a = 3 }", "x");
  const auto& entries = root.find("share")->entries;
  REQUIRE(entries.size() == 3);
  CHECK(entries[0].first == "teal");
  CHECK(entries[1].first == "sprat");
  CHECK(entries[2].first == "a");
}
