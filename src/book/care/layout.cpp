#include "book/care/layout.h"

#include <map>

#include "book/ledger/migrations.h"

namespace nonrunner::book {

namespace {

// By kind and name: the table that it is of, and its words.
using Layout = std::map<std::pair<std::string, std::string>, std::string>;

Layout layout_of(SQLite::Database& database) {
  Layout all;
  SQLite::Statement rows(database,
                         "SELECT type, name, tbl_name || char(10) || coalesce(sql, '') FROM sqlite_schema");
  while (rows.executeStep())
    all[{rows.getColumn(0).getString(), rows.getColumn(1).getString()}] = rows.getColumn(2).getString();
  return all;
}

const Layout& fresh_layout(std::size_t count) {
  static std::map<std::size_t, Layout> known;
  const auto found = known.find(count);
  if (found != known.end()) return found->second;
  SQLite::Database fresh(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  for (std::size_t i = 0; i < count; ++i) fresh.exec(migrations()[i].sql);
  return known[count] = layout_of(fresh);
}

bool statistics(const std::pair<std::string, std::string>& object) {
  return object.first == "table" && (object.second == "sqlite_stat1" || object.second == "sqlite_stat4");
}

}  // namespace

std::set<std::pair<std::string, std::string>> own_objects(std::size_t count) {
  std::set<std::pair<std::string, std::string>> all;
  for (const auto& [object, words] : fresh_layout(count)) all.insert(object);
  return all;
}

std::vector<std::string> foreign_layout(SQLite::Database& database, std::size_t count) {
  std::vector<std::string> findings;
  const Layout here = layout_of(database);
  const Layout& ours = fresh_layout(count);
  for (const auto& [object, words] : ours) {
    const auto found = here.find(object);
    const std::string name = "the " + object.first + " " + object.second;
    if (found == here.end())
      findings.push_back(name + " is missing");
    else if (found->second != words)
      findings.push_back(name + " was changed");
  }
  for (const auto& [object, words] : here)
    if (!ours.contains(object) && !statistics(object))
      findings.push_back("there is a " + object.first + " " + object.second +
                         " that this program does not make");
  return findings;
}

}  // namespace nonrunner::book
