// A job file to begin with, for each of a handful of common complaints: the files of src/appraisal/starters,
// compiled in. Every figure in them is an invented starting value and says so; a test reads and appraises each
// as it stands.
#pragma once
#include <string>
#include <vector>

namespace nonrunner::appraisal {

struct Starter {
  std::string complaint;  // the file's name, in words
  std::string text;       // @tag@ stands for the vehicle's tag, @hour@ for what an own hour must earn
};
const std::vector<Starter>& starters();

// The whole file. `tag` is a vehicle's tag, `hour` what an own hour must earn.
std::string starter_job(const Starter&, const std::string& tag, const std::string& hour = "20");

}  // namespace nonrunner::appraisal
