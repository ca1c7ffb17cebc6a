// What `nonrunner help TOPIC` explains beside the commands: pages of words (src/commands/topics/*.txt, compiled in)
// and references that are printed from the descriptions by which files are read.
#pragma once
#include <string>
#include <vector>

namespace nonrunner::commands {

struct Topic {
  std::string name;  // one word of the command line
  std::string says;  // one line
};

const std::vector<Topic>& topics();
// The page, laid out for the screen; throws WrongUsage naming the nearest command or topic where there is none.
std::string topic_text(const std::string& name);
bool is_topic(const std::string& name);

}  // namespace nonrunner::commands
