// What can be told of a file that SQLite takes for no book, or for a damaged one.
#pragma once
#include <filesystem>
#include <string>

namespace nonrunner::book {

// "the file is cut: 4096 of 311296 bytes are there", from its first bytes and its length; where they tell
// nothing, what SQLite said. Throws nothing of its own.
std::string damage_of(const std::filesystem::path&, const std::string& sqlite_said);

}  // namespace nonrunner::book
