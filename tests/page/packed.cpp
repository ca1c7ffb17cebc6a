#include "page/packed.h"

#include <zlib.h>

#include <catch2/catch.hpp>

#include "page/files.h"
#include "page/page_shop.h"

using namespace nonrunner;
using namespace nonrunner::page;

namespace {

std::string unpacked(const std::string& bytes) {
  z_stream stream{};
  REQUIRE(inflateInit2(&stream, 15 + 16) == Z_OK);
  std::string out(1 << 20, '\0');
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
  stream.avail_in = static_cast<uInt>(bytes.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  const int end = inflate(&stream, Z_FINISH);
  out.resize(stream.total_out);
  inflateEnd(&stream);
  return end == Z_STREAM_END ? out : "";
}

}  // namespace

// RFC 9110, 12.5.3: codings by commas, each with a weight that may be 0.
TEST_CASE("a browser takes what is packed where it says so", "[page][outside]") {
  for (const char* yes : {"gzip", "gzip, deflate, br", "br;q=1.0, gzip;q=0.8, *;q=0.1", "deflate,  GZIP"}) {
    INFO(yes);
    CHECK(takes_gzip(yes));
  }
  for (const char* no : {"", "identity", "br", "gzip;q=0", "gzip;q=0.000, br", "x-gzipped"}) {
    INFO(no);
    CHECK_FALSE(takes_gzip(no));
  }
}

TEST_CASE("text is packed and comes out as it was; what is short, and what is no text, goes as it is",
          "[page]") {
  Answer page;
  for (int i = 0; i < 400; ++i) page.body += "<option value=\"pip\">pip</option>\n";
  const std::string was = page.body;
  pack(page);
  CHECK(page.is_packed);
  CHECK(page.body.size() < was.size() / 10);
  CHECK(unpacked(page.body) == was);
  Answer brief;
  brief.body = "ok";
  pack(brief);
  CHECK_FALSE(brief.is_packed);
  CHECK(brief.body == "ok");
  Answer photo;
  photo.type = "image/jpeg";
  photo.body = was;
  pack(photo);
  CHECK(photo.body == was);
  Answer file;
  file.type = web_file("/page.js")->type;
  file.is_fixed = true;
  for (int twice = 0; twice < 2; ++twice) {
    file.body = web_file("/page.js")->text;
    pack(file);
    CHECK(unpacked(file.body) == web_file("/page.js")->text);
  }
}

TEST_CASE("a page that a browser keeps goes packed as well, and what it was comes out", "[page]") {
  PageShop shop;
  for (const char* road : {"/away", "/device"}) {
    INFO(road);
    Answer shell = shop.get(road);
    REQUIRE(shell.is_shell);
    const std::string was = shell.body;
    pack(shell);
    CHECK(shell.is_packed);
    CHECK(shell.is_shell);
    CHECK(shell.body.size() < was.size());
    CHECK(unpacked(shell.body) == was);
  }
  // Filled from the device, the page has another hour at each asking: it is no file that is packed once for all.
  CHECK_FALSE(shop.get("/away").is_fixed);
  CHECK(shop.get(web_file("/page.js")->path).is_fixed);
}
