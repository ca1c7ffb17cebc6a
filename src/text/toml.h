// Reading TOML files and saying where they are wrong.
#pragma once
#include <cstddef>
#include <string>
#include <string_view>

#include "text/value.h"

namespace nonrunner {

// The document as a tree. Throws Refusal `name:line: what is wrong` for text that is not TOML 1.0 in UTF-8,
// and for what goes deeper than any file of this program: keys of more than 8 parts, 32 lists and tables in
// one another.
Value parse_toml(std::string_view text, const std::string& name);

// What a file written by hand holds at most: job, paper, courses.
constexpr std::size_t by_hand = std::size_t{1} << 20;
// What the program itself wrote may be as long as it likes.
constexpr std::size_t any_size = static_cast<std::size_t>(-1);

// The file's bytes. Throws Refusal where there is no such file, where it is no ordinary one, or larger than
// `most`; MachineFailure where it cannot be read. "-" reads standard input.
std::string read_file(const std::string& path, std::size_t most = by_hand);

}  // namespace nonrunner
