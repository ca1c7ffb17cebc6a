#include "book/faults_program.h"

#include <fstream>
#include <sstream>

#include "book/faults_shop.h"
#include "commands/command.h"

namespace nonrunner::faults {

Said program(const std::vector<std::string>& words) {
  std::ostringstream out, err;
  commands::Terminal terminal{out, err, false, false, today, now, {}};
  const int status = commands::run(words, terminal);
  return {status, out.str(), err.str()};
}

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

}  // namespace nonrunner::faults
