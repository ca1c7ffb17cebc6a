// The sample hatchback's book as far as the first event with some words in it, at the counter.
#pragma once
#include "commands/counter.h"
#include "text/toml.h"

namespace nonrunner::commands {

inline void post_sprat(Counter& counter, const std::string& until = {}) {
  const std::string folder = NONRUNNER_SOURCE "/sample-jobs/sprat/";
  counter.file("job.toml", read_file(folder + "job.toml"));
  std::string events = read_file(folder + "events.toml");
  if (!until.empty()) {
    events.erase(events.rfind('\n', events.find(until)));
    events += "\n]\n";
  }
  counter.run({"post", counter.file("events.toml", events)});
}

}  // namespace nonrunner::commands
