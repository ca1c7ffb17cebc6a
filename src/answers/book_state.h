// What the book is when a workbook is made of it: its last entry, the seal of that, and how its papers are
// printed.
#pragma once
#include "book/ledger/book.h"
#include "figures/book_state.h"

namespace nonrunner::answers {

figures::BookState state_of(const book::Book&);

}  // namespace nonrunner::answers
