// What may stand in a file that a person writes, described once: who reads the file refuses what is not described here,
// and the reference is printed from it. So neither can know a key that the other does not.
#pragma once
#include <string>
#include <vector>

namespace nonrunner {

struct FileKey {
  const char* key;
  bool must;          // it has to be there where its table is
  const char* means;  // what is expected, and what holds where it is absent
};

struct FileTable {
  const char* name;  // "deal"; of a list as well
  const char* head;  // as it stands in the file: "[deal]", "[[cause]]", "parts = [{ ... }]"
  const char* says;  // one line
  std::vector<FileKey> keys;
};

inline std::vector<std::string> names_of(const std::vector<FileKey>& keys) {
  std::vector<std::string> names;
  for (const FileKey& each : keys) names.push_back(each.key);
  return names;
}

}  // namespace nonrunner
