#include "page/html.h"

#include <catch2/catch.hpp>

#include "page/visit.h"

using namespace nonrunner::page;

TEST_CASE("what was typed cannot become markup", "[page]") {
  CHECK(html("<p title=\"{}\">{}</p>", "\"><script>", std::string("a & b's")).text() ==
        "<p title=\"&quot;&gt;&lt;script&gt;\">a &amp; b&#39;s</p>");
  CHECK(html("<b>{}</b>", html("<i>{}</i>", "<")).text() == "<b><i>&lt;</i></b>");
  CHECK(safe("a\x1b[2J\nb").text() == "a\xef\xbf\xbd[2J\nb");
}

TEST_CASE("only the roads of the table lead anywhere", "[page]") {
  std::vector<std::string> stars;
  bool known = false;
  for (const Road& road : roads()) {
    std::string path = road.path;
    for (std::size_t at; (at = path.find('*')) != std::string::npos;) path.replace(at, 1, "pip");
    INFO(road.method << " " << path);
    CHECK(road_of(road.method, path, stars, known) == &road);
    CHECK(road_of("DELETE", path, stars, known) == nullptr);
    CHECK(known);
    CHECK(road_of(road.method, path + "/further/off", stars, known) == nullptr);
  }
  CHECK(road_of("GET", "/../etc", stars, known) == nullptr);
  CHECK_FALSE(known);
}

TEST_CASE("entries are all that the page changes: copies, devices and settings stay at the prompt",
          "[page]") {
  std::vector<std::string> changing;
  for (const Road& road : roads())
    if (std::string(road.method) != "GET") changing.push_back(std::string(road.method) + " " + road.path);
  CHECK(changing == std::vector<std::string>{"POST /entry", "PUT /entry/*", "PUT /entry/*/photo",
                                             "POST /undo", "POST /tray", "POST /correct/*",
                                             "POST /seller/*"});
  std::vector<std::string> stars;
  for (const char* path : {"/backup", "/export", "/restore", "/mend", "/settings", "/purses", "/devices",
                           "/serve", "/book", "/log"}) {
    INFO(path);
    bool known = true;
    CHECK(road_of("GET", path, stars, known) == nullptr);
    CHECK_FALSE(known);
  }
}
