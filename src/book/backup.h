// A consistent copy of the book while it is in use, and the way back.
//
// backup: the whole book, by SQLite's online backup, under a temporary name first and renamed when it is complete and on
// the disk; its attachments beside it. restore: a book from a backup, or from an export's events, at a new place.
//
// Refused: 1 something is at the new place already   2 (restore) what it comes from is no backup and no export
#pragma once
#include <filesystem>
#include <functional>

#include "book/post.h"

namespace nonrunner::book {

void backup(const Book&, const std::filesystem::path& to, const std::function<void(std::size_t, std::size_t)>& tick = {});
void restore_backup(const std::filesystem::path& from, const std::filesystem::path& to);
bool is_book(const std::filesystem::path&);  // by its first bytes

}  // namespace nonrunner::book
