// How an appraisal of a job file becomes the figures that a book keeps: the book itself does not know.
#pragma once
#include "book/post.h"

namespace nonrunner::commands {

book::Appraise appraise_for_book(const book::Book&);

}  // namespace nonrunner::commands
