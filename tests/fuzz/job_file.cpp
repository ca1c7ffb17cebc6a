// Fuzz target: whatever bytes a job file holds, it is read, or refused with one line; and what is read is
// answered, or refused. Run by tests/run.sh for a fixed number of inputs over the kept corpus
// tests/fuzz/corpus/job_file.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "appraisal/appraise.h"
#include "appraisal/read_job.h"
#include "exact/ends.h"

using namespace nonrunner;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  try {
    const appraisal::Job job = appraisal::read_job(text, "job.toml", Currency{});
    const appraisal::Appraisal a = appraisal::appraise(job, appraisal::sound_value_of(job), 4);
    double chances = 0;
    for (const appraisal::CauseFigures& cause : a.causes) chances += cause.probability;
    if (!(chances > 0.999999 && chances < 1.000001)) std::abort();
    if (a.plan.best < a.plan.decide_now - 1e-6 * (1 + a.plan.decide_now)) std::abort();
  } catch (const Refusal& refusal) {
    if (std::string(refusal.what()).find('\n') != std::string::npos) std::abort();
  }
  return 0;
}
