// What a job file left to the book (answers/settled_job.h), in words: one line for each figure.
#pragma once
#include <string>

#include "answers/settled_job.h"

namespace nonrunner::words {

std::string in_words(const answers::SettledNote&);

}  // namespace nonrunner::words
