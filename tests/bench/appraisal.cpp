// Speed, as ratios taken in one run, since machines differ and are never quiet:
//   the default appraisal of the sample job sprat as a whole process against `nonrunner --help`
//   drawing its distribution against the same model written with NumPy (tests/bench/reference_model.py)
// Each figure is the least of several turns, taken in alternation. Whole processes are judged by the time on
// the wall, as a person waits; where that is far above the processor's time beside it, others were keeping
// the machine busy. Drawing is compared in processor time. Ends with status 1 where a bound is missed.
//   bench PROGRAM SOURCE_FOLDER
#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "appraisal/appraise.h"
#include "appraisal/read_job.h"
#include "appraisal/sound_value.h"
#include "text/toml.h"

using namespace nonrunner;
using Clock = std::chrono::steady_clock;

namespace {

double milliseconds_since(Clock::time_point begun) {
  return std::chrono::duration<double, std::milli>(Clock::now() - begun).count();
}

struct Took {
  double wall = 1e9, processor = 1e9;
};

void whole_process(const std::vector<std::string>& words, Took& least) {
  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  const auto begun = Clock::now();
  const pid_t child = fork();
  if (child == 0) {
    if (!std::freopen("/dev/null", "w", stdout)) _exit(126);
    execv(arguments[0], arguments.data());
    _exit(127);
  }
  int status = 0;
  rusage used{};
  wait4(child, &status, 0, &used);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) {
    fmt::print(stderr, "{} {} did not end well\n", words[0], words.size() > 1 ? words[1] : "");
    std::exit(2);
  }
  const auto milliseconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) * 1e3 + static_cast<double>(t.tv_usec) / 1e3;
  };
  least.wall = std::min(least.wall, milliseconds_since(begun));
  least.processor = std::min(least.processor, milliseconds(used.ru_utime) + milliseconds(used.ru_stime));
}

double numpy_milliseconds(const std::string& command) {
  std::string text;
  if (FILE* pipe = popen(command.c_str(), "r")) {
    char room[4096];
    while (const std::size_t got = std::fread(room, 1, sizeof room, pipe)) text.append(room, got);
    if (pclose(pipe) != 0) text.clear();
  }
  if (text.empty()) {
    fmt::print(stderr, "{} gave nothing; is python3-numpy installed?\n", command);
    std::exit(2);
  }
  return nlohmann::json::parse(text).at("processor_seconds").get<double>() * 1000;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    fmt::print(stderr, "bench PROGRAM SOURCE_FOLDER\n");
    return 2;
  }
  const std::string program = argv[1], source = argv[2], job_file = source + "/sample-jobs/sprat/job.toml";

  Took help, appraise;
  for (int turn = 0; turn < 25; ++turn) {
    whole_process({program, "--help"}, help);
    whole_process({program, "appraise", job_file}, appraise);
  }
  const double bound = std::max(3 * help.wall, 40.0);
  fmt::print(
      "whole process   --help {:.1f} ms   appraise {:.1f} ms   ratio {:.1f}   bound {:.1f} ms   (processor "
      "{:.1f} and {:.1f} ms)\n",
      help.wall, appraise.wall, appraise.wall / help.wall, bound, help.processor, appraise.processor);

  // One way for each cause, as the model beside it has: without these aims no other is looked for.
  appraisal::Job job = appraisal::read_job(read_file(job_file), job_file, Currency{});
  job.aims[appraisal::Aim::loss_chance].reset();
  job.aims[appraisal::Aim::per_hour].reset();
  const appraisal::SoundValue sound = appraisal::sound_value_of(job);
  double drawing = 1e9, numpy = 1e9, sum = 0;
  for (int turn = 0; turn < 5; ++turn) {
    for (int inner = 0; inner < 5; ++inner) {
      const std::clock_t begun = std::clock();
      const std::vector<double> chances = state_chances(job, posterior(job));
      appraisal::Draws draws(job, sound, points_in_a_case(job, posterior(job), appraisal::points_default));
      appraisal::Buying buying(job, sound, draws, {}, chances);
      const appraisal::Policy policy = buying.policy(chances, job.deal.asking);
      const appraisal::Spread spread = spread_of(buying, draws, policy, chances);
      drawing = std::min(drawing, static_cast<double>(std::clock() - begun) * 1e3 / CLOCKS_PER_SEC);
      sum += spread.risk.sampled_profit;
    }
    numpy = std::min(
        numpy, numpy_milliseconds("python3=/usr/bin/python3; [ -x $python3 ] || python3=python3; $python3 '" +
                                  source + "/tests/bench/reference_model.py' '" + job_file + "'"));
  }
  fmt::print("drawing 65,536  here {:.2f} ms   NumPy {:.1f} ms   ratio {:.1f}   bound 20   (sum {:.2f})\n",
             drawing, numpy, numpy / drawing, sum);

  const bool kept = appraise.wall <= bound && numpy / drawing >= 20;
  fmt::print("{}\n", kept ? "both bounds are kept" : "a bound is missed");
  return kept ? 0 : 1;
}
