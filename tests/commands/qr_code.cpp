#include "commands/qr_code.h"

#include <catch2/catch.hpp>
#include <sstream>
#include <vector>

#include "text/unicode.h"

using namespace nonrunner;

// ISO/IEC 18004, 6.3.3 (from memory): a finder is 7 modules of dark, a ring of light and 3 x 3 of dark; three corners
// have one.
TEST_CASE("a pairing address is a picture of 41 columns and 21 lines with its three finders", "[commands]") {
  std::istringstream lines(commands::qr_in_half_blocks("http://192.168.1.20:8417/pair#0123456789abcdef"));
  std::vector<std::vector<bool>> light;  // two rows a line
  for (std::string line; std::getline(lines, line);) {
    CHECK(shown_width(line) == 41);
    std::vector<bool> upper, lower;
    for (std::size_t at = 0; at < line.size();) {
      const char32_t block = next_character(line, at);
      upper.push_back(block == U'\u2588' || block == U'\u2580');
      lower.push_back(block == U'\u2588' || block == U'\u2584');
    }
    light.push_back(upper);
    light.push_back(lower);
  }
  REQUIRE(light.size() == 42);
  for (const auto& [top, left] : std::vector<std::pair<std::size_t, std::size_t>>{{4, 4}, {4, 30}, {30, 4}})
    for (std::size_t y = 0; y < 7; ++y)
      for (std::size_t x = 0; x < 7; ++x) {
        const bool ring = (x == 1 || x == 5 || y == 1 || y == 5) && x > 0 && x < 6 && y > 0 && y < 6;
        CHECK(light[top + y][left + x] == ring);
      }
  for (std::size_t at = 0; at < 41; ++at)
    CHECK((light[0][at] && light[3][at] && light[at][0] && light[at][40]));
}
