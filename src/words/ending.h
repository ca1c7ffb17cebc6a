// How a request ended other than well: an exception as every front end takes it. The four kinds of exact/ends.h,
// and what the libraries throw, become a kind, one line and, apart from it, a hint.
#pragma once
#include <exception>
#include <filesystem>
#include <optional>
#include <string>

#include "exact/hint.h"

namespace nonrunner::words {

struct Ending {
  // In the order of the exit statuses 1 to 3; our own mistakes count with the machine's.
  enum class Kind { refused, wrong_usage, failed } kind = Kind::failed;
  std::string message;  // without what the hint says
  std::optional<Hint> hint;
};

// `book`: where the book of the request lies, for what the database says. Takes every exception.
Ending ending_of(const std::exception_ptr&, const std::filesystem::path& book);

}  // namespace nonrunner::words
