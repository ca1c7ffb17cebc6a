#include "page/guards.h"

#include <catch2/catch.hpp>

#include "exact/ends.h"

using namespace nonrunner;
using namespace nonrunner::page;

namespace {

const Ours ours = ours_of("http", "127.0.0.1", 8417);

Head reading(const std::string& target = "/") {
  Head head;
  head.method = "GET";
  head.target = target;
  head.hosts = {"127.0.0.1:8417"};
  return head;
}

Head changing() {
  Head head = reading("/entry");
  head.method = "POST";
  head.origins = {"http://127.0.0.1:8417"};
  return head;
}

// "" where it passes, else "421 this is ...".
std::string ends(const Head& head) {
  const auto refused = guard(head, ours, Limits{});
  return refused ? std::to_string(refused->status) + " " + refused->says : "";
}

const std::string elsewhere = "421 this is not the house that was asked for";
const std::string another_site = "403 another site's page asks";

}  // namespace

TEST_CASE("exactly one host of ours is answered, whatever else is asked", "[page][guards]") {
  CHECK(ends(reading()) == "");
  for (const char* host :
       {"evil.example", "evil.example:8417", "127.0.0.1", "127.0.0.1:8418", "127.0.0.1:8417.",
        "127.0.0.1:8417.evil.example", "LOCALHOST:8417", "[::1]:8417", "0.0.0.0:8417", ""}) {
    INFO(host);
    Head head = reading();
    head.hosts = {host};
    CHECK(ends(head) == elsewhere);
    Head change = changing();
    change.hosts = {host};
    change.origins = {std::string("http://") + host};
    CHECK(ends(change) == elsewhere);
  }
  Head none = reading(), two = reading(), twice = reading();
  none.hosts.clear();
  two.hosts = {"127.0.0.1:8417", "evil.example"};
  twice.hosts = {"127.0.0.1:8417", "127.0.0.1:8417"};
  CHECK(ends(none) == elsewhere);
  CHECK(ends(two) == elsewhere);
  CHECK(ends(twice) == elsewhere);
  Head by_name = reading();
  by_name.hosts = {"localhost:8417"};
  CHECK(ends(by_name) == "");
  CHECK(ends(reading("http://evil.example/")) == elsewhere);
  CHECK(ends(reading("")) == elsewhere);
}

TEST_CASE("what changes something has exactly one origin of ours", "[page][guards]") {
  CHECK(ends(changing()) == "");
  for (const std::vector<std::string>& origins :
       std::vector<std::vector<std::string>>{{},
                                             {"null"},
                                             {""},
                                             {"http://evil.example"},
                                             {"https://127.0.0.1:8417"},
                                             {"http://127.0.0.1:8418"},
                                             {"http://127.0.0.1"},
                                             {"http://127.0.0.1:8417/"},
                                             {"http://127.0.0.1:8417", "http://evil.example"}}) {
    Head head = changing();
    head.origins = origins;
    CHECK(ends(head) == another_site);
    head.method = "PUT";
    CHECK(ends(head) == another_site);
  }
}

TEST_CASE("where a browser says that another site asks, only a link that was followed passes",
          "[page][guards]") {
  for (const char* site : {"cross-site", "same-site", "anything"}) {
    Head head = reading(), link = reading(), change = changing();
    head.site = link.site = change.site = site;
    head.mode = "no-cors";
    link.mode = change.mode = "navigate";
    CHECK(ends(head) == another_site);
    CHECK(ends(link) == "");
    CHECK(ends(change) == another_site);
  }
  for (const char* site : {"same-origin", "none"}) {
    Head head = reading(), change = changing();
    head.site = change.site = site;
    CHECK(ends(head) == "");
    CHECK(ends(change) == "");
  }
}

TEST_CASE("methods that no road has, other versions and packed bodies are refused", "[page][guards]") {
  for (const char* method : {"OPTIONS", "DELETE", "PATCH", "TRACE", "CONNECT", "get", ""}) {
    Head head = changing();
    head.method = method;
    CHECK(ends(head) == "405 nothing here is asked for so");
  }
  Head old = reading();
  old.version = 10;
  CHECK(ends(old) == "505 expected HTTP/1.1");
  Head packed = changing();
  packed.coding = "gzip";
  CHECK(ends(packed) == "415 what is sent is packed");
  CHECK(ends(reading("/" + std::string(2048, 'a'))) == "414 the address is too long");
}

TEST_CASE("a target becomes a path and a query, and nothing in it a divider that was not one",
          "[page][guards]") {
  const auto path_of_target = [](const std::string& target) {
    Request request;
    read_target(target, request);
    return request.path;
  };
  CHECK(path_of_target("/car/pip?x=1&y=a+b") == "/car/pip");
  CHECK(path_of_target("/car/p%C3%A4p") == "/car/p\xc3\xa4p");
  CHECK(path_of_target("/car/..%2F..%2Fetc") ==
        "/car/..\xef\xbf\xbd..\xef\xbf\xbd"
        "etc");
  Request request;
  read_target("/car/pip?x=1&y=a+b", request);
  CHECK(request.query.get("y") == "a b");
  for (const char* bad : {"/%", "/%4", "/%zz"})
    CHECK_THROWS_WITH(path_of_target(bad),
                      "address: found a % that no two hexadecimal digits follow, expected them");
  for (const char* bad : {"/%00", "/%0d%0aSet-Cookie:x", "/%ff", "/%e2%80%ae"})
    CHECK_THROWS_WITH(path_of_target(bad), "address: found what is no text, expected the address of a page");
}

TEST_CASE("our cookie is found among others, and none where there are two", "[page][guards]") {
  Head head = reading();
  head.cookies = {"nonrunner-84=no; nonrunner-8417=yes; x=1"};
  CHECK(cookie_of(head, cookie_name(8417)) == "yes");
  head.cookies = {"x=nonrunner-8417=trap"};
  CHECK(cookie_of(head, cookie_name(8417)) == "");
  head.cookies = {"nonrunner-8417=a", "nonrunner-8417=b"};
  CHECK(cookie_of(head, cookie_name(8417)) == "");
}

TEST_CASE("a device changes thirty things at once and thirty a second after, another one its own",
          "[page][guards]") {
  Pace pace(30);
  int went = 0;
  for (int i = 0; i < 100; ++i) went += pace.goes("phone", 10);
  CHECK(went == 30);
  CHECK(pace.goes("laptop", 10));
  CHECK_FALSE(pace.goes("phone", 10.02));
  CHECK(pace.goes("phone", 10.06));
  went = 0;
  for (int i = 0; i < 100; ++i) went += pace.goes("phone", 1000);
  CHECK(went == 30);
}

// The signatures as the WHATWG's MIME Sniffing Standard has them (section 6.1, image type pattern matching), from
// memory.
TEST_CASE("a photo is known by its first bytes", "[page][guards]") {
  using namespace std::string_literals;
  CHECK(photo_type("\xff\xd8\xff\xe0\0\x10JFIF"s) == "image/jpeg");
  CHECK(photo_type("\x89PNG\r\n\x1a\n\0\0\0\x0d"s) == "image/png");
  CHECK(photo_type("RIFF\x24\0\0\0WEBPVP8 "s) == "image/webp");
  for (const std::string& other : {"<svg xmlns="s, "GIF89a......"s, "RIFF\x24\0\0\0WAVE"s, "%PDF-1.7...."s,
                                   "\xff\xd8"s, ""s, "<html>\xff\xd8\xff"s})
    CHECK(photo_type(other) == "");
}

TEST_CASE("an address has the names that lead to it and no others", "[page][guards]") {
  CHECK(ours_of("http", "127.0.0.1", 8417).hosts ==
        std::vector<std::string>{"127.0.0.1:8417", "localhost:8417"});
  CHECK(ours_of("http", "::1", 8417).hosts == std::vector<std::string>{"[::1]:8417", "localhost:8417"});
  CHECK(ours_of("https", "192.168.1.20", 8417).hosts == std::vector<std::string>{"192.168.1.20:8417"});
  CHECK(ours_of("https", "192.168.1.20", 443).origin() == "https://192.168.1.20");
}
