// An export read back before it is said that it was written: entered again into a book of its own, and what stands in
// both compared row by row: entries, postings and every table of details, what is on each account, and the desk. What
// bears the moment or the place of writing (when it was recorded, seals, notes of the desk, clocks) is left out, and
// so are the postings of entries of the older layout, which are posted anew.
//
// Takes as long as a restore, and as much room as the book beside the export until it is done.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "book/care/restore.h"

namespace nonrunner::book {

struct ReadBack {
  bool made = true;                      // it can be entered again
  std::vector<std::string> differences;  // one for each table that differs, or why it cannot be entered
  // Of a book that an older version began: what differs besides, and not by its age (older_apart.h). `differences` are
  // those by its age then.
  std::vector<std::string> later;
};
// `at`: where the other book is made for as long as it is needed; nothing of it is left. One line for each table that
// differs, or one that says why the export cannot be entered again; empty: they are the same.
ReadBack read_back(const Book&, const std::filesystem::path& folder, const std::filesystem::path& at,
                   const RestoreWith&);

// Where two books hold other entries, one line for each table: what the journal holds, the desk aside.
std::vector<std::string> journals_apart(const Book&, const Book& again);

}  // namespace nonrunner::book
