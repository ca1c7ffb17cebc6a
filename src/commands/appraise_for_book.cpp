#include "commands/appraise_for_book.h"

namespace nonrunner::commands {

book::Appraise appraise_for_book(const book::Book&) { return {}; }

}  // namespace nonrunner::commands
