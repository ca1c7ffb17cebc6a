// One entry, as it stands today: what it is about, what took its place, whether it is a quick line.
#pragma once
#include <optional>
#include <string>

#include "book/ledger/entry.h"

namespace nonrunner::book {

// The first car and the first purse that it is about; empty where it is about none.
std::string first_car_of(const Book&, EntryId);
std::string first_purse_of(const Book&, EntryId);

// The entry that takes it back; absent where it counts.
std::optional<EntryId> voided_by(const Book&, EntryId);
// What was entered when this one was taken back, in its place; absent where it counts, or nothing was.
std::optional<EntryId> put_in_its_place(const Book&, EntryId);
// The entry that stands in its place where it was put right or gave its place to its paper; else itself.
EntryId as_it_counts_now(const Book&, EntryId);

// Whether it is a quick line, which a paper may take the place of.
bool is_quick(const Book&, EntryId);
// Whether it is a quick line whose name is to come.
bool is_unnamed(const Book&, EntryId);
struct QuickLine {
  std::string what, car;
  Money amount;
  bool unnamed = false;  // kept without a word
};
// Absent for anything else, and for one that was taken back.
std::optional<QuickLine> quick_line_of(const Book&, EntryId);

}  // namespace nonrunner::book
