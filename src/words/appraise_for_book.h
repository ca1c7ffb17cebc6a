// How an appraisal of a job file becomes the figures that a book keeps: the book itself does not know.
#pragma once
#include "book/events/post.h"
#include "exact/day.h"

namespace nonrunner::words {

// `today`: comparables that the book saw too long before are left out.
book::Appraise appraise_for_book(const book::Book&, Day today);

}  // namespace nonrunner::words
