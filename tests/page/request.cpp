#include "page/request.h"

#include <catch2/catch.hpp>

#include "page/page_shop.h"

using namespace nonrunner;
using namespace nonrunner::page;

TEST_CASE("a form is read as the URL Standard has it", "[page]") {
  // The examples of the standard's application/x-www-form-urlencoded parser, from memory.
  const Form form = Form::read("a=b+c&d=%26%3D&&e&f=%zz&=g&h=%C3%A4");
  CHECK(form.fields == std::vector<std::pair<std::string, std::string>>{
                           {"a", "b c"}, {"d", "&="}, {"e", ""}, {"f", "%zz"}, {"", "g"}, {"h", "\xc3\xa4"}});
  CHECK(Form::read(form.encoded()).fields == form.fields);
  CHECK(form.get("a") == "b c");
  CHECK(Form::read("a=+x+").get("a") == "x");
}

TEST_CASE("a form of too many fields, of a long name or of no text is refused", "[page]") {
  const auto refused = [](const std::string& text) { return book::Shop::said([&] { Form::read(text); }); };
  CHECK(refused("a=%ff") == "form: found what is not UTF-8, expected text");
  CHECK(refused(std::string(201, 'x') + "=1") == "form: found a name of 201 bytes, expected at most 200");
  std::string many;
  for (int i = 0; i < 2001; ++i) many += "a=1&";
  CHECK(refused(many) == "form: found more than 2000 fields, expected fewer");
}
