// Rows that are added beside entries of before, when a book is brought up to date.
#pragma once
#include <functional>
#include <span>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

using TableNames = std::span<const char* const>;

// The entries are closed: these tables are opened while `fill` runs, within the transaction that is open, and closed again. A
// failure leaves them open: the transaction is not kept then.
void while_open(Book&, TableNames, const std::function<void()>& fill);
void add_older_row(const Book&, EntryId, const Detail&);

void sort_by_table(std::vector<Detail>&);
// As the book holds them now, in the order of these tables.
std::vector<Detail> rows_beside(const Book&, EntryId, TableNames);

}  // namespace nonrunner::book
