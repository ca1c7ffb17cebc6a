// The usual cautions for the work and the papers of a job, in general words. They replace no instruction of a
// maker, no local rule and no licensed person, and say so.
//
// Common practice, no source.
#pragma once
#include <string>
#include <vector>

#include "appraisal/job.h"

namespace nonrunner::appraisal {

struct Caution {
  std::string about;  // the hazard as the job file names it, or what the paper is
  std::string text;
  std::vector<std::string> operations;  // that name the hazard
};

// Of the corrections that some possible cause leads to, in the order of the file; then the paper's.
std::vector<Caution> cautions_of(const Job&);

}  // namespace nonrunner::appraisal
