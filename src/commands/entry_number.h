// The number of an entry as typed.
#pragma once
#include "book/ledger/entry.h"
#include "commands/options.h"

namespace nonrunner::commands {

book::EntryId entry_number(const Given&, const std::string& text);  // throws WrongUsage

}  // namespace nonrunner::commands
