// What a sound one sells for, where the comparables of the book may have a say.
#pragma once
#include "appraisal/sound_value.h"
#include "book/ledger/book.h"
#include "exact/day.h"

namespace nonrunner::answers {

// `today`: comparables that the book saw too long before are left out.
// What a sound one sells for, by the job file and, where it says `from = "book"`, by the comparables of the
// book that fit. Throws Refusal where the file asks for the book's and there is no book, or none fits.
appraisal::SoundValue sound_value(const appraisal::Job&, const book::Book*, Day today);

}  // namespace nonrunner::answers
