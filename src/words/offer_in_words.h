// Which of the offers to take, in words, the same on the screen and in a workbook.
#pragma once
#include <string>

#include "appraisal/appraisal.h"

namespace nonrunner::words {

// "BETTER: the seller pays the engine, at 600.00: ..."; empty where nothing is better than as it stands.
std::string better_in_words(const appraisal::Appraisal&);
// What to do once the first test has come out so: "then buy", "then: tap the frame", "then offer less", ...
std::string then_in_words(const appraisal::Appraisal&, const appraisal::AfterTest&);

// "put right: reseal the head, then replace the engine, else part out"
std::string path_in_words(const appraisal::Job&, std::size_t cause, const appraisal::Path&);

}  // namespace nonrunner::words
