// What the fuzz targets share: a book of their own in which nothing is ever kept, and the ends that are none
// of a crash.
#pragma once
#include <stdlib.h>

#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <string>

#include "book/ledger/book.h"
#include "book/questions/figures.h"
#include "exact/ends.h"

namespace nonrunner::fuzzed {

// Runs `read`; a Refusal and a WrongUsage are answers, everything else that is thrown is a mistake and ends
// the run.
template <class Read>
void answered(Read read) {
  try {
    read();
  } catch (const Refusal&) {
  } catch (const WrongUsage&) {
  }
}

inline void must(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %s\n", what);
  std::abort();
}

// A small book in a temporary folder, made once for all inputs.
inline book::Book& shop() {
  static const std::string folder = [] {
    std::string name = (std::filesystem::temp_directory_path() / "nonrunner-fuzz-XXXXXX").string();
    must(::mkdtemp(name.data()) != nullptr, "a folder for the book can be made");
    return name;
  }();
  static const struct Gone {
    ~Gone() {
      std::error_code ignored;
      std::filesystem::remove_all(folder, ignored);
    }
  } gone;
  static book::Book book =
      book::Book::create(std::filesystem::path(folder) / "shop.book", Currency::of("USD"), "mi");
  return book;
}

// Whatever was recorded, the accounts add up to zero; then all of it is taken back.
template <class Record>
void recorded(Record record) {
  answered([&] {
    book::Recording recording(shop(), "2026-03-01T10:00:00Z", Day(2026, 3, 1));
    record(recording);
    must(is_zero(book::trial_balance(shop())), "the trial balance is zero");
  });
}

}  // namespace nonrunner::fuzzed
