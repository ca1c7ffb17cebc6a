// Why a car cannot be put right.
#pragma once
#include <string>

#include "exact/day.h"

namespace nonrunner::answers {

struct WhyNot {
  enum class Kind {
    paper_is_lost,  // which bars the road
    cause_unknown,  // to its appraisal
    trouble_bars,   // the road: `trouble`
    failed,         // its corrections were made
    no_correction,  // in its appraisal
    in_pieces,      // since
  } kind = Kind::no_correction;
  std::string trouble = {};
  Day since = {};
};

}  // namespace nonrunner::answers
