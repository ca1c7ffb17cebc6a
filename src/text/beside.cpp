#include "text/beside.h"

#include <algorithm>
#include <system_error>

#include "exact/ends.h"

namespace nonrunner {

namespace fs = std::filesystem;

fs::path file_below(const fs::path& beside, const std::string& named) {
  std::error_code error;
  const fs::path folder = fs::canonical(beside.empty() ? fs::path(".") : beside, error);
  const fs::path path = error ? fs::path() : fs::canonical(folder / named, error);
  if (error) throw Refusal((beside / named).string() + ": there is no such file; check the name");
  if (fs::is_symlink(fs::symlink_status(folder / named, error)))
    throw Refusal((beside / named).string() + ": found a symbolic link, expected the file itself");
  const auto ends = std::mismatch(folder.begin(), folder.end(), path.begin(), path.end());
  if (ends.first != folder.end())
    throw Refusal("\"" + named + "\": found a file outside of the folder " + folder.string() +
                  ", expected one below it; copy it there if you mean it");
  if (!fs::is_regular_file(path, error))
    throw Refusal((beside / named).string() + ": found something that is no ordinary file, expected a file");
  return folder / named;
}

}  // namespace nonrunner
