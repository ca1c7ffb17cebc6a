// What of a book can be read page by page where SQLite reads nothing of it any more: the description of its tables
// (sqlite_schema) is spread over the file, and of a file that was cut off, or that lost a page of it, not one row comes
// out through SQL. Entries and settings are known by what their rows look like, wherever they stand.
//
// Source: "Database File Format" of SQLite (sqlite.org/fileformat2.html, sections 1.3, 1.5, 1.6, 2 and 4.2), from memory;
// held by a test that reads the rows of a sound book in both ways. Nothing outside the file is read, whatever its
// bytes say.
#pragma once
#include <filesystem>
#include <map>
#include <optional>
#include <string>

#include "book/ledger/entry.h"

namespace nonrunner::book {

struct LeftEntry {
  std::string day, kind, event, recorded, previous, hash;
  bool money = false;
  std::optional<EntryId> voids;
};

struct LeftRows {
  std::map<EntryId, LeftEntry> entries;
  std::map<std::string, std::string> settings;
};

// Empty where nothing is there. Of the log beside the file (-wal) the pages of writes that ended are read
// as well: they are the later ones.
LeftRows rows_left(const std::filesystem::path&);

}  // namespace nonrunner::book
