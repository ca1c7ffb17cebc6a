#include "page/serving.h"

#include <fstream>

#include "book/fixture.h"

using namespace nonrunner;
using namespace nonrunner::page;

TEST_CASE("a book is served once, and the second learns where", "[page]") {
  book::TemporaryFolder folder;
  const auto book = folder.path() / "shop.book";
  CHECK(Serving::where(book) == "");
  {
    Serving first(book);
    first.at("http://127.0.0.1:8417");
    CHECK(Serving::where(book) == "http://127.0.0.1:8417");
    CHECK(book::Shop::said([&] { Serving second(book); }) ==
          "serve: " + book.string() +
              " is served already at http://127.0.0.1:8417; use that one, or end it first");
    Serving other(folder.path() / "other.book");
  }
  CHECK(Serving::where(book) == "");
  CHECK(book::Shop::said([&] { Serving again(book); }) == "accepted");
  std::filesystem::create_symlink(folder.path() / "elsewhere", folder.path() / "linked.book.serving");
  CHECK(book::Shop::said([&] { Serving linked(folder.path() / "linked.book"); }) ==
        (folder.path() / "linked.book.serving").string() +
            ": Too many levels of symbolic links; nothing is served");
}

TEST_CASE("what is left of photos is swept, and nothing else", "[page]") {
  book::TemporaryFolder folder;
  const auto book = folder.path() / "shop.book";
  const auto upload = upload_place(book);
  CHECK(upload.filename().string().size() == std::string("shop.book.photo-").size() + 16);
  CHECK(upload != upload_place(book));
  const auto names = {"shop.book", "shop.book.photo-short", "shop.book.photo-0123456789abcdef0",
                      "other.book.photo-0123456789abcdef", "photo.jpg"};
  std::ofstream(upload) << "half";
  for (const char* name : names) std::ofstream(folder.path() / name) << "kept";
  std::filesystem::create_directory(folder.path() / "shop.book.photo-fedcba9876543210");
  sweep_uploads(book);
  CHECK_FALSE(std::filesystem::exists(upload));
  for (const char* name : names) CHECK(std::filesystem::exists(folder.path() / name));
  CHECK(std::filesystem::exists(folder.path() / "shop.book.photo-fedcba9876543210"));
}
