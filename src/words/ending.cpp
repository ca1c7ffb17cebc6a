#include "words/ending.h"

#include <SQLiteCpp/Exception.h>
#include <fmt/format.h>

#include <new>

#include "answers/price.h"
#include "book/ledger/book.h"
#include "words/why_not.h"

namespace nonrunner::words {

namespace {

std::optional<Hint> hint_of(const std::exception& error) {
  const auto* more = dynamic_cast<const Hinted*>(&error);
  return more ? std::optional(more->hint()) : std::nullopt;
}

}  // namespace

Ending ending_of(const std::exception_ptr& thrown, const std::filesystem::path& book) {
  using Kind = Ending::Kind;
  try {
    try {
      std::rethrow_exception(thrown);
    } catch (const SQLite::Exception&) {
      book::rethrow_database_error(book);
    }
  } catch (const WrongUsage& error) {
    return {Kind::wrong_usage, error.what(), hint_of(error)};
  } catch (const answers::NotSoldRunning& error) {
    if (!error.because()) return {Kind::refused, error.what(), error.hint()};
    return {Kind::refused,
            fmt::format("{}, since {}{}", error.that(), in_words(*error.because()), error.expected),
            error.hint()};
  } catch (const Refusal& error) {
    return {Kind::refused, error.what(), hint_of(error)};
  } catch (const MachineFailure& error) {
    return {Kind::failed, error.what(), hint_of(error)};
  } catch (const std::bad_alloc&) {
    return {Kind::failed, "memory ran out; nothing was recorded", {}};
  } catch (const std::filesystem::filesystem_error& error) {
    return {Kind::failed,
            fmt::format("{}: {}; nothing was recorded", error.path1().string(), error.code().message()),
            {}};
  } catch (const std::exception& error) {
    return {Kind::failed,
            fmt::format("a mistake of this program, not yours: {}; look whether it was recorded before you "
                        "enter it again",
                        error.what()),
            {}};
  } catch (...) {
    return {Kind::failed,
            "a mistake of this program, not yours; look whether it was recorded before you enter it again",
            {}};
  }
}

}  // namespace nonrunner::words
