// Why a car cannot be put right, in words.
#pragma once
#include <string>

#include "answers/why_not.h"

namespace nonrunner::words {

std::string in_words(const answers::WhyNot&);  // "the appraisal has no correction for it"

}  // namespace nonrunner::words
