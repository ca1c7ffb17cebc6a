// How an appraisal of a job file becomes what a book keeps: the book itself does not know.
#pragma once
#include "book/events/post.h"

namespace nonrunner::words {

book::Appraise appraise_for_book(const book::Book&);
// The same for a book that is made again: its job files are taken as they were kept.
book::Appraise appraise_as_kept(const book::Book&);

}  // namespace nonrunner::words
