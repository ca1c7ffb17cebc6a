// Names in a job file: each is given once, and a reference to one that does not exist is refused with the
// nearest.
#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "text/table.h"

namespace nonrunner::appraisal {

class Names {
 public:
  // `kind` is how messages call what is named: "[[cause]]".
  explicit Names(std::string kind) : kind_(std::move(kind)) {}

  // The name at the key `name` of `table`, which is called by it in messages from then on. Refused where two
  // have it.
  std::string add(Table& table);
  // The place of the one called `name`; `key` and `table` say where the reference stands.
  std::size_t find(const Table& table, std::string_view key, const std::string& name) const;
  const std::vector<std::string>& all() const { return names_; }

 private:
  std::string kind_;
  std::vector<std::string> names_;
  std::vector<int> lines_;
};

}  // namespace nonrunner::appraisal
