// A consistent copy of the book while it is in use, and the way back.
//
// backup: the whole book, by SQLite's online backup, and its attachments beside it. restore: a book from a
// backup, at a new place, looked through before it takes it. Either stands at its place whole or not at all.
//
// Refused: 1 something is at the new place already   2 (restore) what it comes from is no backup, or one that
// is not sound
#pragma once
#include <filesystem>
#include <functional>

#include "book/events/post.h"

namespace nonrunner::book {

void backup(const Book&, const std::filesystem::path& to,
            const std::function<void(std::size_t, std::size_t)>& tick = {});
void restore_backup(const std::filesystem::path& from, const std::filesystem::path& to,
                    const std::function<void(std::size_t, std::size_t)>& tick = {});
bool is_book(const std::filesystem::path&);  // by its first bytes

// Copies every page of one database into another, both open. Throws MachineFailure where another process does
// not let it come to an end.
void copy_pages(SQLite::Database& from, SQLite::Database& to,
                const std::function<void(std::size_t, std::size_t)>& tick = {});

}  // namespace nonrunner::book
