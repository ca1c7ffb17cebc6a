#include "page/files.h"

#include <catch2/catch.hpp>

#include "page/packed.h"

namespace nonrunner::page {

TEST_CASE("the page brings its style, its script and its mark, and nothing from elsewhere", "[page]") {
  for (const std::string name : {"style.css", "page.js", "icon.svg"}) {
    const WebFile* file = web_file("/" + name);
    INFO(name);
    REQUIRE(file != nullptr);
    CHECK(file->text.size() > 100);
    std::string text = file->text;
    for (const std::string ours : {"http://www.w3.org/2000/svg"})
      for (auto at = text.find(ours); at != std::string::npos; at = text.find(ours))
        text.erase(at, ours.size());
    CHECK(text.find("http:") == std::string::npos);
    CHECK(text.find("https:") == std::string::npos);
    CHECK(text.find("eval(") == std::string::npos);
  }
  CHECK(web_file("/style.css")->type == "text/css; charset=utf-8");
  CHECK(web_file("/page.js")->type == "text/javascript; charset=utf-8");
  CHECK(web_file("/icon.svg")->type == "image/svg+xml");
}

TEST_CASE("what only its authors read is not sent", "[page]") {
  for (const std::string name : {"style.css", "page.js", "away.js"}) {
    const std::string& text = web_file("/" + name)->text;
    INFO(name);
    CHECK(text.find("\n//") == std::string::npos);
    CHECK(text.find("  // ") == std::string::npos);
    CHECK(text.find("/*") == std::string::npos);
    CHECK(text.find("\n ") == std::string::npos);
    CHECK(text.find("\n\n") == std::string::npos);
  }
  // What a page may weigh is 60 KB as it is sent, with its own text.
  std::size_t sent = 0;
  for (const char* path : {"/style.css", "/page.js"}) {
    Answer file;
    file.type = web_file(path)->type;
    file.body = web_file(path)->text;
    pack(file);
    sent += file.body.size();
  }
  CHECK(sent < 20 << 10);
}

TEST_CASE("no other name finds a file of the page", "[page]") {
  for (const std::string path :
       {"", "/", "style.css", "//style.css", "/style.css/", "/photo.js", "/../style.css"}) {
    INFO(path);
    CHECK(web_file(path) == nullptr);
  }
}

TEST_CASE("a page asks for its files by what they hold", "[page]") {
  const std::string path = web_path("style.css");
  CHECK(path.substr(0, 11) == "/style.css?");
  CHECK(path.size() == 19);
  CHECK(web_path("page.js").substr(9) != path.substr(11));
  CHECK(web_path("none.css") == "/none.css");
}

}  // namespace nonrunner::page
