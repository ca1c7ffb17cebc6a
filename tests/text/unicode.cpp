// UTF-8 as the Unicode standard has it, and what of a text may reach a terminal or a book.
#include "text/unicode.h"

#include <catch2/catch.hpp>

using namespace nonrunner;

// The Unicode Standard 15.0, chapter 3, table 3-7 "Well-Formed UTF-8 Byte Sequences": the ends of each row,
// and the bytes just outside it (from memory, agreeing with RFC 3629 section 4).
TEST_CASE("UTF-8 is what table 3-7 of the Unicode standard allows, and nothing else", "[text][outside]") {
  for (const char* well :
       {"", "plain", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xE0\xBF\xBF", "\xE1\x80\x80", "\xEC\xBF\xBF",
        "\xED\x80\x80", "\xED\x9F\xBF", "\xEE\x80\x80", "\xEF\xBF\xBF", "\xF0\x90\x80\x80",
        "\xF0\xBF\xBF\xBF", "\xF1\x80\x80\x80", "\xF3\xBF\xBF\xBF", "\xF4\x80\x80\x80", "\xF4\x8F\xBF\xBF",
        "eight bytes and \xC3\xA9 more"})
    CHECK_FALSE(broken_utf8(well));
  for (const char* broken : {"\x80", "\xBF", "\xC0\xAF", "\xC1\xBF", "\xC2", "\xC2\x41", "\xE0\x9F\xBF",
                             "\xE1\x80", "\xED\xA0\x80", "\xED\xBF\xBF", "\xF0\x8F\xBF\xBF",
                             "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFE", "\xFF"})
    CHECK(broken_utf8(broken) == std::size_t{0});
  CHECK(broken_utf8("eight bytes, then Caf\xE9 Yard") == std::size_t{21});
}

TEST_CASE("what is shown moves no cursor and hides nothing", "[text]") {
  CHECK(printable("a\x1b[2Jb\nc\x7f") == "a [2Jb c ");
  CHECK(printable("\xC2\x9B"
                  "2J") ==
        "\xEF\xBF\xBD"
        "2J");  // one byte of the 8-bit controls
  CHECK(printable("Caf\xE9 Yard") == "Caf\xEF\xBF\xBD Yard");
  for (const char* hidden : {"\u202E", "\u200B", "\u200F", "\u2066", "\uFEFF", "\u00AD", "\u2028"})
    CHECK(printable(hidden) == "\uFFFD");
  CHECK(printable("Caf\u00E9, \u00A31, \u2588, \u5DE5, a\u0301") ==
        "Caf\u00E9, \u00A31, \u2588, \u5DE5, a\u0301");
}

TEST_CASE("what nobody sees is named by its number", "[text]") {
  CHECK_FALSE(unseen("Caf\u00E9 17\" \u5DE5"));
  CHECK(code_point(unseen("a\u202Eb").value()) == "U+202E");
  CHECK(code_point(unseen("a\tb").value()) == "U+0009");
  CHECK_FALSE(unseen("a\tb\n", Lines::many));
  CHECK(code_point(unseen("a\x1b", Lines::many).value()) == "U+001B");
  CHECK(code_point(unseen("a\xE9").value()) == "U+FFFD");
}

TEST_CASE("columns count what stands in them", "[text]") {
  CHECK(shown_width("abc") == 3);
  CHECK(shown_width("Caf\u00E9") == 4);
  CHECK(shown_width("\u5DE5\u5834") == 4);
  CHECK(shown_width("e\u0301") == 1);
  CHECK(cut_to("radiator", 8) == "radiator");
  CHECK(cut_to("radiators", 8) == "radia...");
  CHECK(cut_to("\u5DE5\u5834\u5DE5\u5834\u5DE5", 8) == "\u5DE5\u5834...");
  CHECK(cut_to("abc", 2) == "..");
}

TEST_CASE("names that look alike have the same likeness", "[text]") {
  CHECK(likeness("Cash") == "cash");
  CHECK(likeness("c\u0430sh") == "cash");   // a of Cyrillic
  CHECK(likeness("cash\u200B") == "cash");  // a blank of no width
  CHECK(likeness("\uFF43ash") == "cash");   // a wide c
  CHECK(likeness("Cafe\u0301") == likeness("CAF\u00C9"));
  CHECK(likeness("cash 2") != likeness("cash"));
}
