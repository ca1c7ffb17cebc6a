// The files of src/commands/topics, compiled in: NAME.txt is the page on NAME; what ends otherwise is an example, a
// whole file that a test gives to the command that reads such files.
#pragma once
#include <string>
#include <vector>

namespace nonrunner::commands {

struct TopicFile {
  std::string name;  // "job-file.txt", "job-file.toml"
  std::string text;
};

const std::vector<TopicFile>& topic_files();
const std::string& topic_file(const std::string& name);  // one of them

}  // namespace nonrunner::commands
