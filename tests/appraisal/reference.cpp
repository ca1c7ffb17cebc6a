// The program's drawing against the same model written in another language by its own road (tests/bench).
#include <catch2/catch.hpp>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "appraisal/jobs.h"

using namespace nonrunner;
using namespace nonrunner::appraisal;
using Catch::Matchers::WithinAbs;

TEST_CASE("the sample jobs' risk agrees with the model written with NumPy (package python3-numpy)",
          "[appraisal][outside]") {
  for (const char* file : {"sample-jobs/sprat/job.toml", "sample-jobs/drayman/job.toml",
                           "sample-jobs/drayman/rot-as-trouble.toml", "sample-jobs/troupe/job.toml"}) {
    INFO(file);
    const std::string source = NONRUNNER_SOURCE;
    const std::string command = "python3=/usr/bin/python3; [ -x $python3 ] || python3=python3; $python3 '" +
                                source + "/tests/bench/reference_model.py' '" + source + "/" + file +
                                "' 300000 7";
    std::string text;
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe);
    char room[4096];
    while (const std::size_t got = std::fread(room, 1, sizeof room, pipe)) text.append(room, got);
    REQUIRE(pclose(pipe) == 0);
    const auto reference = nlohmann::json::parse(text);
    const Appraisal a = appraised(job_at(file));
    // Four standard errors of 300,000 pseudo-random points, in the worst case of these jobs.
    CHECK_THAT(a.asked.risk.loss_chance, WithinAbs(reference["loss_chance"].get<double>(), 0.004));
    CHECK_THAT(a.asked.expected.cash_profit, WithinAbs(reference["mean_cash_profit"].get<double>(), 4.5));
    CHECK_THAT(a.asked.expected.profit, WithinAbs(reference["mean_profit"].get<double>(), 7));
    for (std::size_t i = 0; i < 5; ++i)
      CHECK_THAT(a.asked.risk.cash_profit[i], WithinAbs(reference["cash_profit"][i].get<double>(), 15));
  }
}
