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

using Event = std::function<book::EntryId(book::Recording&)>;
// What is said of a kept entry; it is handed how the money went, "from cash", or nothing.
using Done = std::function<std::string(const std::string& through)>;
// To be called for a book that was just made at its place, by `start`, `restore` or `mend`: says where it is older than
// the one that was seen there before.
void made_anew(const book::Book&, Terminal&);

// Runs `event` in one recording and keeps it; prints "entry N: ..." and remarks (or JSON with the entry). `event` returns
// the number of the entry. A car that the book does not know is asked about, and the event is run again where it is a
// new one.
int record_one(book::Book&, const Given&, Terminal&, const Event&, const Done&);
// The same where the words do not say the purse: it stands behind them.
int record_one(book::Book&, const Given&, Terminal&, const Event&, const std::string& done);

// Options that most events take.
Option date_option();
Option purse_option();
Option new_option();
Option again_option();
Day date_of(const Given&, const Terminal&);
Distance odometer_of(const Given&);  // of --odometer; 0 without it
// --purse, else as answers/purse.h says.
std::string purse_of(const Given&, Terminal&, const book::Book&, const std::string& event,
                     const std::string& supplier = "");

}  // namespace nonrunner::commands
