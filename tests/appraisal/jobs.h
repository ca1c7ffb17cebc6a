// Jobs for tests: the sample jobs, small ones made of text, and money as it is printed.
#pragma once
#include <fmt/format.h>

#include <string>

#include "appraisal/appraise.h"
#include "appraisal/read_job.h"
#include "exact/ends.h"
#include "text/toml.h"

namespace nonrunner::appraisal {

inline Job job_at(const std::string& path) {  // from the top of the source
  return read_job(read_file(std::string(NONRUNNER_SOURCE) + "/" + path), path, Currency{});
}
inline Job job_of(const std::string& toml) { return read_job(toml, "pip.toml", Currency{}); }

inline Appraisal appraised(const Job& job, std::size_t points = points_default) {
  return appraise(job, sound_value_of(job), points);
}

inline std::string cents(double amount) { return fmt::format("{:.2f}", amount); }
inline std::string cents(const std::optional<double>& amount) { return amount ? cents(*amount) : "none"; }

inline std::string refusal_of(const std::string& toml) {
  try {
    job_of(toml);
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "accepted";
}

// A small job that is right; `replaced` in it is put in place of `by`.
inline const std::string small_job = R"([vehicle]
tag = "pip"
[deal]
asking = 900
fees = 100
[shop]
hour = 20
pace = 1
hours_per_week = 14
wait_days = 4
holding_per_day = 3
[sale]
days = 10
costs = 40
[aims]
profit = 300
[value]
sound = 3000
[opening_up]
hours = 2
cash = 10
[[cause]]
name = "gasket"
odds = 3
found = 500
correction = "reseal"
[[cause]]
name = "pump"
odds = 1
found = 800
[[correction]]
name = "reseal"
hours = [[5, 7, 9], 2]
parts = [{ name = "set", qty = 1, new = 118 }]
works = 0.8
takes_off = 50
[scrap]
value = 310
[[test]]
name = "gas"
cash = 12
outcomes = ["colour", "none"]
given = { "gasket" = [0.9, 0.1], "pump" = [0.05, 0.95] }
[[trouble]]
name = "rot"
chance = 0.2
cash = 150
hours = 7
takes_off = 30
found_less = 100
[[fault]]
name = "wing"
takes_off = 200
fix = [{ name = "from the yard", source = "salvage", cash = 55, hours = 2, restores = 0.95 }]
)";

inline std::string with(std::string text, const std::string& replaced, const std::string& by) {
  const auto at = text.find(replaced);
  if (at == std::string::npos) throw std::logic_error("the text has no " + replaced);
  return text.replace(at, replaced.size(), by);
}
inline std::string small_job_with(const std::string& replaced, const std::string& by) {
  return with(small_job, replaced, by);
}

}  // namespace nonrunner::appraisal
