// Dated copies of a book in a folder, and since when there was none.
//
// When a book was last copied is kept beside the heads (book/care/heads.h), in a file of its own: the book itself
// does not change by being copied. Where that file is lost or cannot be written, nothing is reminded of.
#pragma once
#include <filesystem>
#include <functional>
#include <optional>

#include "book/ledger/entry.h"

namespace nonrunner::book {

constexpr int copies_kept = 10;

// Copies the book into the folder as STEM-2026-05-02.book (a second one of the day as STEM-2026-05-02-2.book). Of the
// dated copies of this very book (the same first entry) the last ten stay. Throws what backup() throws.
struct DatedCopy {
  std::filesystem::path file;
  std::vector<std::filesystem::path> removed;
};
DatedCopy backup_dated(const Book&, const std::filesystem::path& folder, Day today,
                       const std::function<void(std::size_t, std::size_t)>& tick = {});

void remember_backup(const Book&, const std::filesystem::path& folder, Day today) noexcept;
// How many days ago the last copy was made (of a book never copied: its first entry), where it is more than a week and
// nothing was said today; from then on it was said today.
struct NoBackup {
  int days;
  bool ever;  // there was one
};
std::optional<NoBackup> no_backup_for_a_week(const Book&, const std::filesystem::path& folder,
                                             Day today) noexcept;

}  // namespace nonrunner::book
