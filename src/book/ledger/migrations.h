// The numbered files of schema/, carried in the program. Their order is the order of their names.
#pragma once
#include <string>
#include <vector>

namespace nonrunner::book {

struct Migration {
  std::string name;  // "0001-shop.sql"
  std::string sql;
};

const std::vector<Migration>& migrations();

}  // namespace nonrunner::book
