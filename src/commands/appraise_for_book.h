// How an appraisal of a job file becomes the figures that a book keeps: the book itself does not know.
#pragma once
#include "appraisal/sound_value.h"
#include "book/post.h"

namespace nonrunner::commands {

book::Appraise appraise_for_book(const book::Book&);

// What a sound one sells for, by the job file and, where it says `from = "book"`, by the book.
// Throws Refusal where the file asks for the book's comparables and there is no book.
appraisal::SoundValue sound_value(const appraisal::Job&, const book::Book*);

}  // namespace nonrunner::commands
