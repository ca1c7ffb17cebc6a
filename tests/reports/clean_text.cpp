#include "reports/clean_text.h"

#include <catch2/catch.hpp>

#include "reports/cell.h"

using namespace nonrunner::reports;

TEST_CASE("text that is fit for a cell stays as it is", "[reports]") {
  for (const char* text : {"", " ", "=1+1", "coolant, gal", "two\nlines", "a\ttab", "\xF0\x9F\x9A\x97",
                           "\xD7\xA9\xD7\x9C", "_x_", "_x00G1_"})
    CHECK(clean_text(text) == text);
}

TEST_CASE("what is no text is shown as unreadable and never dropped in silence", "[reports]") {
  CHECK(clean_text("a\x07z") == "a\xEF\xBF\xBDz");
  CHECK(clean_text(std::string_view("a\0z", 3)) == "a\xEF\xBF\xBDz");
  CHECK(clean_text("\xC3") == "\xEF\xBF\xBD");
  CHECK(clean_text("\xC3(") == "\xEF\xBF\xBD(");
  CHECK(clean_text("\xC0\xAF") == "\xEF\xBF\xBD\xEF\xBF\xBD");                  // an overlong slash
  CHECK(clean_text("\xED\xA0\x80") == "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");  // a surrogate
  CHECK(clean_text("\xEF\xBF\xBF") == "\xEF\xBF\xBD");  // U+FFFF, which XML 1.0 does not allow
  CHECK(clean_text("\xC2\x85") == "\xEF\xBF\xBD");      // a control character of the second block
}

TEST_CASE("the ends of lines of all systems become a line feed", "[reports]") {
  CHECK(clean_text("a\r\nb\rc\nd\r") == "a\nb\nc\nd\n");
}

TEST_CASE("what readers would take for an escape is escaped", "[reports]") {
  CHECK(clean_text("_x0041_") == "_x005F_x0041_");
  CHECK(clean_text("a_xAbCd_b_x0041_") == "a_x005F_xAbCd_b_x005F_x0041_");
}

TEST_CASE("a text longer than a cell is cut between characters and says so", "[reports]") {
  CHECK(clean_text(std::string(32'767, 'x')).size() == 32'767);
  CHECK(clean_text(std::string(32'768, 'x')) == std::string(32'766, 'x') + "\xE2\x80\xA6");
  CHECK(clean_text("abcdef", 4) == "abc\xE2\x80\xA6");
  CHECK(clean_text("ab\xF0\x9F\x9A\x97", 4) == "ab\xF0\x9F\x9A\x97");  // a character of two units
  CHECK(clean_text("ab\xF0\x9F\x9A\x97"
                   "d",
                   4) == "ab\xE2\x80\xA6");
  CHECK(clean_text("_x0041_y", 14) == "_x005F_x0041_y");
  CHECK(clean_text("_x0041_y", 13) == "_x005F_x0041\xE2\x80\xA6");
}

TEST_CASE("columns are lettered as spreadsheets letter them", "[reports]") {
  CHECK(letters(0) == "A");
  CHECK(letters(25) == "Z");
  CHECK(letters(26) == "AA");
  CHECK(letters(701) == "ZZ");
  CHECK(letters(702) == "AAA");
  CHECK(letters(16'383) == "XFD");  // the last one of the file format
  CHECK(here({6, 1}) == "B7");
  CHECK(fixed({6, 1}) == "$B$7");
}
