// Whatever a name holds, the terminal stays as it was.
#include "commands/door.h"

#include <catch2/catch.hpp>
#include <sstream>

#include "commands/session.h"

using namespace nonrunner;
using namespace nonrunner::commands;

namespace {
std::string through(const std::string& text, Door::Kind kind, std::size_t pieces = 1000) {
  std::ostringstream behind;
  {
    Door door(behind, kind);
    std::ostream out(&door);
    for (std::size_t at = 0; at < text.size(); at += pieces) out << text.substr(at, pieces);
  }
  return behind.str();
}
}  // namespace

TEST_CASE("what is printed moves no cursor, hides nothing and turns no line around", "[commands]") {
  const std::string text = "Caf\u00E9\t\u5DE5 \x1b[2J \u202Eabc\u200B \xE9 end\n";
  const std::string clean =
      "Caf\u00E9\t\u5DE5  [2J \uFFFD"
      "abc\uFFFD \uFFFD end\n";
  for (const std::size_t pieces : {std::size_t{1000}, std::size_t{1}, std::size_t{2}, std::size_t{3}})
    CHECK(through(text, Door::Kind::text, pieces) == clean);
  CHECK(through("\r10 %", Door::Kind::text) == " 10 %");
  CHECK(through("\r10 %", Door::Kind::progress) == "\r10 %");
}

TEST_CASE("in JSON what nobody sees is written by its number, and nothing is lost", "[commands]") {
  CHECK(through("\"a\u202Eb\u009B\U000E0041\"\n", Door::Kind::json) ==
        "\"a\\u202eb\\u009b\\udb40\\udc41\"\n");
}

TEST_CASE("a stream that takes nothing more makes what is printed fail", "[commands]") {
  std::ostringstream behind;
  behind.setstate(std::ios::badbit);
  Door door(behind, Door::Kind::text);
  std::ostream out(&door);
  out << "a line" << std::flush;
  CHECK_FALSE(out.good());
}

TEST_CASE("a list in another encoding is refused by its line, and the book stays readable", "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("buy pip 900 --purse cash");
  session.file(
      "l.csv",
      "date,supplier,number,purse,what,amount,kind,to\n2026-01-02,Caf\xe9 Yard,1,cash,bolt,3.00,part,pip\n");
  const Said said = session.type("receipt --csv SHOP/l.csv");
  CHECK(said.status == 1);
  CHECK(session.masked(said.err) ==
        "nonrunner: SHOP/l.csv:2: the byte e9 in column 15 is not UTF-8, expected UTF-8 text; save the list "
        "as UTF-8 and "
        "try again\n");
  CHECK(session.type("export SHOP/out").status == 0);
  CHECK(session.type("comparable add --csv SHOP/l.csv").status == 1);
}
