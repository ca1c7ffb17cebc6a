// How an appraisal of a job file becomes what a book keeps: the book itself does not know.
#pragma once
#include "book/events/post.h"

namespace nonrunner::words {

book::Appraise appraise_for_book(const book::Book&);

}  // namespace nonrunner::words
