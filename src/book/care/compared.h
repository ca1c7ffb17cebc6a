// Rows of two books compared: those of one question, asked of both.
#pragma once
#include <functional>
#include <string>

#include "book/ledger/book.h"
#include "book/ledger/entry.h"
#include "book/ledger/query.h"

namespace nonrunner::book {

struct Compared {
  std::string what;  // "entries"
  std::string sql;
  int columns;
  bool by_entry = true;  // whether the first column is an entry's number
};

// The first entry that is read by days; 1 in a book that no older version began.
EntryId first_by_days(const Book&);
// Which entries are compared, in SQL: an older version kept the end of a closed period as a setting; entered again it is
// an entry, the last one.
std::string but_for_its_closing(const Book&);

// As it is compared: what is no text in an export is replaced in it, and so is the same here. From the column `from` on.
std::string text_of(const Row&, int columns, int from = 0);
// Two texts, each from a little before the place where they part.
std::string parting(const std::string& text, const std::string& other);

// The first row that is another one; empty: all are the same. `tick` is told how many were looked at.
std::string apart(const Book&, const Book& again, const Compared&,
                  const std::function<void(std::size_t, std::size_t)>& tick);

}  // namespace nonrunner::book
