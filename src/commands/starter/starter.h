// The text of a job file to begin with, for a handful of common complaints. Every figure in it is an invented
// starting value and says so; each text is read and appraised by a test as it stands.
#pragma once
#include <string>
#include <vector>

namespace nonrunner::commands {

struct Starter {
  const char* complaint;
  const char* body;  // causes, corrections, tests
};

const std::vector<Starter>& starters();
// The whole file. `tag` is a vehicle's tag.
std::string starter_job(const Starter&, const std::string& tag);

extern const char* const starter_cranks;
extern const char* const starter_does_not_crank;
extern const char* const starter_overheated;
extern const char* const starter_no_drive;
extern const char* const starter_knocks;

}  // namespace nonrunner::commands
