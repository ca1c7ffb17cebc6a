// How a request ends other than well, as every front end takes it.
#include "words/ending.h"

#include <SQLiteCpp/Exception.h>
#include <sqlite3.h>

#include <catch2/catch.hpp>
#include <new>

#include "commands/hints.h"

using namespace nonrunner;
using words::Ending;
using words::ending_of;
using Kind = Ending::Kind;

namespace {

template <class Thrown>
Ending end_by(const Thrown& thrown) {
  return ending_of(std::make_exception_ptr(thrown), "shop.book");
}

}  // namespace

TEST_CASE("each kind of error ends a request in its own way, with its message as it is", "[words]") {
  CHECK(end_by(Refusal("sell: no")).kind == Kind::refused);
  CHECK(end_by(Refusal("sell: no")).message == "sell: no");
  CHECK(end_by(WrongUsage("sell: what?")).kind == Kind::wrong_usage);
  CHECK(end_by(MachineFailure("disk full")).kind == Kind::failed);
  CHECK_FALSE(end_by(Refusal("sell: no")).hint);
}

TEST_CASE("a hint stands apart from the message, and the command line says what to type", "[words]") {
  const Ending ending = end_by(
      hinted<Refusal>("sell: pip is considered, expected a car that was bought; enter the purchase first",
                      {Action::buy, {{"tag", "pip"}}}));
  CHECK(ending.kind == Kind::refused);
  CHECK(ending.message ==
        "sell: pip is considered, expected a car that was bought; enter the purchase first");
  REQUIRE(ending.hint);
  CHECK(ending.hint->action == Action::buy);
  CHECK(commands::in_shell_words(*ending.hint) == ": nonrunner buy pip PRICE");
  CHECK(end_by(hinted<MachineFailure>("shop.book: damaged", {Action::restore, {}})).kind == Kind::failed);
}

TEST_CASE("a refusal that is said anew with its place keeps its hint", "[words]") {
  const auto refusal = hinted<Refusal>("draw: there is no \"oil\" on the shelf", {Action::list_stock, {}});
  try {
    refuse_as("events.toml:7: draw: there is no \"oil\" on the shelf", refusal);
  } catch (const Refusal& again) {
    CHECK(commands::with_hint(again) ==
          "events.toml:7: draw: there is no \"oil\" on the shelf; see: nonrunner stock");
  }
  try {
    refuse_as("events.toml:7: no", Refusal("no"));
  } catch (const Refusal& again) {
    CHECK(commands::with_hint(again) == "events.toml:7: no");
  }
}

TEST_CASE("what libraries throw becomes one line that says what is kept", "[words]") {
  CHECK(end_by(std::bad_alloc()).message == "memory ran out; nothing was recorded");
  CHECK(
      end_by(std::logic_error("a sum")).message ==
      "a mistake of this program, not yours: a sum; look whether it was recorded before you enter it again");
  CHECK(ending_of(std::make_exception_ptr(7), "shop.book").message ==
        "a mistake of this program, not yours; look whether it was recorded before you enter it again");
  const Ending damaged = end_by(SQLite::Exception("not a database", SQLITE_NOTADB));
  CHECK(damaged.kind == Kind::failed);
  CHECK(damaged.message.starts_with("shop.book: "));
  REQUIRE(damaged.hint);
  CHECK(damaged.hint->action == Action::restore);
  const std::filesystem::filesystem_error lost("x", "there.xlsx",
                                               std::make_error_code(std::errc::permission_denied));
  CHECK(end_by(lost).message == "there.xlsx: Permission denied; nothing was recorded");
}
