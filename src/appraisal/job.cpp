#include "appraisal/job.h"

namespace nonrunner::appraisal {

std::string name_of(Source source) {
  switch (source) {
    case Source::fresh:
      return "new";
    case Source::salvage:
      return "salvage";
    case Source::reman:
      return "reman";
  }
  return "";
}

const std::optional<PartOut>& part_out_of(const Job& job, const Cause& cause) {
  return cause.part_out ? cause.part_out : job.part_out;
}

const std::optional<Scrap>& scrap_of(const Job& job, const Cause& cause) {
  return cause.scrap ? cause.scrap : job.scrap;
}

}  // namespace nonrunner::appraisal
