// A book made again at a new place: from a backup, or from the events of an export, all or nothing.
//
// Refused, the first that applies: 1 a book is at the new place   2 nothing is there to restore from   3 a
// folder that export did not make   4 what is neither a backup nor an export   5 what its reader or an event
// refuses
#pragma once
#include <filesystem>
#include <functional>
#include <string>

#include "book/events/post.h"

namespace nonrunner::book {

struct RestoreWith {
  std::string now;
  Day today;
  // How an appraisal of a job file becomes figures, in the book that is made.
  std::function<Appraise(const Book&)> appraise;
  std::function<void(std::size_t, std::size_t)> tick;
};
void restore(const std::filesystem::path& from, const std::filesystem::path& to, const RestoreWith&);

}  // namespace nonrunner::book
