// How deep a file may go, whoever wrote it: a reader never runs out of room.
#include "text/toml.h"

#include <catch2/catch.hpp>

#include "exact/ends.h"

using namespace nonrunner;

namespace {
std::string refused(const std::string& text) {
  try {
    parse_toml(text, "f.toml");
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "read";
}
std::string many(const std::string& part, int times) {
  std::string all;
  for (int i = 0; i < times; ++i) all += part;
  return all;
}
}  // namespace

TEST_CASE("a key of more parts than any file has is refused before the parser goes down into it", "[text]") {
  const std::string deep = "f.toml:2: a key has more than 8 parts, expected one such as \"price\" or \"a.b\"";
  CHECK(refused("x = 1\n" + many("a.", 12'000) + "a = 1") == deep);
  CHECK(refused("x = 1\n[" + many("a.", 12'000) + "a]") == deep);
  CHECK(refused("x = 1\n" + many("\"a\" . ", 12'000) + "a = 1") == deep);
  CHECK(refused("x = 1\n" + many("'a'.", 12'000) + "a = 1") == deep);
  CHECK(refused("a.b.c.d.e.f.g.h = 1") == "read");
}

TEST_CASE("dots that stand in texts, numbers and comments are no parts of a key", "[text]") {
  CHECK(refused("a = \"1.2.3.4.5.6.7.8.9.10.11\"\nb = '1.2.3.4.5.6.7.8.9.10'") == "read");
  CHECK(refused("a = \"\"\"1.2.3.4.5.6.7.8.9\n1.2.3.4.5.6.7.8.9.10\\\"\"\"\"\n# 1.2.3.4.5.6.7.8.9.10.11") ==
        "read");
  CHECK(refused("a = [1.5, 2.5, 3.5, 4.5, 5.5, 6.5, 7.5, 8.5, 9.5, 10.5]") == "read");
  CHECK(refused("a = \"it's\" # it's\nb = 'a \"quote'") == "read");
}

TEST_CASE("lists and tables in one another are bounded as well", "[text]") {
  CHECK(refused("a = " + many("[", 100'000)) ==
        "f.toml:1: lists and tables stand more than 32 deep in one another, expected a few");
  CHECK(refused("a = " + many("{ b = ", 100'000)) ==
        "f.toml:1: lists and tables stand more than 32 deep in one another, expected a few");
  CHECK(refused("a = " + many("[", 30) + many("]", 30)) == "read");
}

TEST_CASE("a table of thousands of keys is refused before each is looked for among all", "[text]") {
  std::string keys;
  for (int i = 0; i < 5001; ++i) keys += "a" + std::to_string(i) + " = 1\n";
  CHECK(refused("[t]\n" + keys) == "f.toml:1: a table has 5001 keys, expected at most 5000");
}
