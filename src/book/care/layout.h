// Whether the layout of a book is the one that this program makes: a trigger more would change what is
// recorded, a constraint less would let the next mistake in.
#pragma once
#include <SQLiteCpp/SQLiteCpp.h>

#include <set>
#include <string>
#include <utility>
#include <vector>

namespace nonrunner::book {

// Every object of sqlite_schema whose kind, name, table or words differ from what the first `migrations`
// make, one line each; those of SQLite's own that a fresh book has as well are compared too. Only the
// statistics that SQLite keeps for itself (ANALYZE) may be more.
std::vector<std::string> foreign_layout(SQLite::Database&, std::size_t migrations);
// Kind and name of every object that the first `migrations` make.
std::set<std::pair<std::string, std::string>> own_objects(std::size_t migrations);

}  // namespace nonrunner::book
