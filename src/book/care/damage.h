// What can be told of a file that SQLite takes for no book, or for a damaged one.
#pragma once
#include <filesystem>
#include <string>

namespace SQLite {
class Exception;
}

namespace nonrunner::book {

// Whether SQLite found the file damaged, or none of its own.
bool is_damage(const SQLite::Exception&);

// "the file is cut: 4096 of 311296 bytes are there", from its first bytes and its length; where they tell
// nothing, what SQLite said. Throws nothing of its own.
std::string damage_of(const std::filesystem::path&, const std::string& sqlite_said);

// What shows that the end of a closed book is missing; empty where nothing does. A book that is in use has a
// log beside it, which may hold the rest: of such a one nothing is said. SQLite itself takes a book whose
// last page is not whole.
std::string cut_end_of(const std::filesystem::path&);

}  // namespace nonrunner::book
