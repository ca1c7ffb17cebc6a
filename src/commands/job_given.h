// The job that a command is about: a job file, or the appraisal in force of a car in the book.
//
// A word with a dot or a slash is a file, "-" is standard input, anything else a tag. A file needs no book;
// where there is one (named, or at its usual place), its currency counts, else USD.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "appraisal/job.h"
#include "book/ledger/book.h"
#include "commands/options.h"

namespace nonrunner::commands {

struct JobGiven {
  appraisal::Job job;
  std::optional<book::Book> book;  // the book that was at hand
};

// Throws Refusal where the tag is unknown or no appraisal of it was kept, and for every mistake of a job
// file.
JobGiven job_given(const Given&, const Terminal&, const std::string& word);

bool names_a_file(const std::string& word);
// The book named by --book; else the one at its usual place or where NONRUNNER_BOOK says, if there is one.
std::optional<book::Book> book_at_hand(const Given&, const Terminal&);

}  // namespace nonrunner::commands
