// Files that a file names: whoever wrote it may be somebody else, and what lies elsewhere on the machine is
// none of their business.
#pragma once
#include <filesystem>
#include <string>

namespace nonrunner {

// The ordinary file `named` of the folder `beside` or of one below it, links resolved. Throws Refusal where
// it is elsewhere, where there is none, or where it is no ordinary file.
std::filesystem::path file_below(const std::filesystem::path& beside, const std::string& named);

}  // namespace nonrunner
