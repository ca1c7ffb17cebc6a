// The courses of `go-on --file`: read and compared, or refused with one line.
#include <cmath>

#include "appraisal/go_on.h"
#include "fuzz/fuzzed.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace nonrunner;
  const std::string text(reinterpret_cast<const char*>(data), size);
  fuzzed::answered([&] {
    const appraisal::GoOn result = appraisal::go_on(appraisal::read_courses(text, "courses.toml"));
    fuzzed::must(result.advice < result.courses.size(), "there is an advice");
    for (const appraisal::CourseFromHere& each : result.courses)
      fuzzed::must(!(each.value > result.courses[0].value), "the first course is the best");
  });
  return 0;
}
