#include "commands/purse_of_line.h"

namespace nonrunner::commands {

std::string purse_of_line(const book::Book& book, const book::Line& line) {
  for (const book::Posting& posting : book::load_entry(book, line.entry).postings)
    if (posting.kind == book::account::purse) return posting.name;
  return "cash";
}

}  // namespace nonrunner::commands
