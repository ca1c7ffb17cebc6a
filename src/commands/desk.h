// What commands on a book share: opening it, recording into it, saying what was done.
#pragma once
#include <fmt/format.h>

#include <functional>
#include <string>

#include "book/ledger/book.h"
#include "book/ledger/entry.h"
#include "commands/columns.h"
#include "commands/options.h"
#include "text/unicode.h"

namespace nonrunner::commands {

book::Book open_book(const Given&, const Terminal&);

// Runs `event` in one recording and keeps it; prints "entry N: ..." and remarks (or JSON with the entry).
// `event` returns the number of the entry.
int record_one(book::Book&, const Given&, Terminal&,
               const std::function<book::EntryId(book::Recording&)>& event, const std::string& done);

// Options that most events take.
Option date_option();
Option purse_option();
Option new_option();
Day date_of(const Given&, const Terminal&);
// --purse, else the book's only purse, else "cash" where there is one; throws WrongUsage where it cannot be
// told.
Distance odometer_of(const Given&);  // of --odometer; 0 without it
std::string purse_of(const Given&, const book::Book&);

}  // namespace nonrunner::commands
