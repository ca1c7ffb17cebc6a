// What the fuzz targets share: a book of their own in which nothing is ever kept, and the ends that are none
// of a crash.
#pragma once
#include <stdlib.h>

#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <string>

#include "book/care/export.h"
#include "book/care/read_back.h"
#include "book/events/post.h"
#include "book/ledger/book.h"
#include "book/questions/figures.h"
#include "book/questions/journal.h"
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

// Small books in a temporary folder, made once for all inputs: one that is recorded in, one in which it is made again.
inline book::Book& shop(bool again = false) {
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
  static book::Book first =
      book::Book::create(std::filesystem::path(folder) / "shop.book", Currency::of("USD"), "mi");
  static book::Book second =
      book::Book::create(std::filesystem::path(folder) / "again.book", Currency::of("USD"), "mi");
  return again ? second : first;
}

// What every account stands at, one line each.
inline std::string balances(const book::Book& book) {
  std::string all;
  auto& rows = book.query(
      "SELECT a.kind, a.name, b.amount, b.quantity FROM balance b JOIN account a USING (account) WHERE "
      "b.amount <> 0 OR "
      "b.quantity <> 0 ORDER BY 1, 2");
  while (rows.executeStep())
    for (int i = 0; i < 4; ++i) all += rows.getColumn(i).getString() + (i < 3 ? " " : "\n");
  return all;
}

// What was accepted is shown, written out as events, read again and recorded again: to the same balances, entries,
// postings and details, row by row.
inline void comes_out_again() {
  std::string events = "event = [\n";
  book::journal(shop(), "");
  const auto averages = book::averages_of(shop());
  book::each_event(shop(), [&](book::EntryId, const std::string& kept) {
    std::string event = kept;
    book::renumber(event, averages);
    events += "  " + event + ",\n";
  });
  book::Recording recording(shop(true), "2026-03-01T10:00:00Z", Day(2026, 3, 1));
  try {
    book::post(recording, events + "]\n", "again.toml", "/nonexistent", {});
  } catch (const Refusal& refusal) {
    std::fprintf(stderr, "refused: %s\n%s", refusal.what(), events.c_str());
    must(false, "what was accepted once is accepted again");
  }
  must(balances(shop(true)) == balances(shop()), "what was made again stands at the same");
  for (const std::string& apart : book::journals_apart(shop(), shop(true))) {
    std::fprintf(stderr, "%s\n%s", apart.c_str(), events.c_str());
    must(false, "what was made again is the same, row by row");
  }
}

// Whatever was recorded, the accounts add up to zero, and it comes out again; then all of it is taken back.
template <class Record>
void recorded(Record record) {
  answered([&] {
    book::Recording recording(shop(), "2026-03-01T10:00:00Z", Day(2026, 3, 1));
    record(recording);
    try {
      must(is_zero(book::trial_balance(shop())), "the trial balance is zero");
      comes_out_again();
    } catch (const Refusal& refusal) {
      must(false, refusal.what());
    }
  });
}

}  // namespace nonrunner::fuzzed
