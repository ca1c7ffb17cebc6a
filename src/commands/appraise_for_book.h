// How an appraisal of a job file becomes the figures that a book keeps: the book itself does not know.
#pragma once
#include "appraisal/sound_value.h"
#include "book/events/post.h"
#include "exact/day.h"

namespace nonrunner::commands {

// `today`: comparables that the book saw too long before are left out.
book::Appraise appraise_for_book(const book::Book&, Day today);

// What a sound one sells for, by the job file and, where it says `from = "book"`, by the comparables of the
// book that fit. Throws Refusal where the file asks for the book's and there is no book, or none fits.
appraisal::SoundValue sound_value(const appraisal::Job&, const book::Book*, Day today);

}  // namespace nonrunner::commands
