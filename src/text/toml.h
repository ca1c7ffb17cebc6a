// Reading TOML files and saying where they are wrong.
#pragma once
#include <string>
#include <string_view>

#include "text/value.h"

namespace nonrunner {

// The document as a tree. Throws Refusal `name:line: what is wrong` for text that is not TOML 1.0 in UTF-8.
Value parse_toml(std::string_view text, const std::string& name);

// The file's bytes. Throws Refusal where there is no such file or it is larger than 64 MiB, MachineFailure
// where it cannot be read. "-" reads standard input.
std::string read_file(const std::string& path);

}  // namespace nonrunner
