#include "appraisal/names.h"

#include <fmt/format.h>

#include <algorithm>

#include "exact/nearest.h"

namespace nonrunner::appraisal {

std::string Names::add(Table& table) {
  const std::string name = table.text("name");
  const auto before = std::find(names_.begin(), names_.end(), name);
  if (before != names_.end())
    table.refuse("name", fmt::format("a name that no other {} has; the one in line {} has it", kind_,
                                     lines_[static_cast<std::size_t>(before - names_.begin())]));
  names_.push_back(name);
  lines_.push_back(table.find("name")->line);
  table.rename(fmt::format("{} {}", kind_, table.find("name")->shown()));
  return name;
}

std::size_t Names::find(const Table& table, std::string_view key, const std::string& name) const {
  const auto found = std::find(names_.begin(), names_.end(), name);
  if (found != names_.end()) return static_cast<std::size_t>(found - names_.begin());
  Value shown;
  shown.kind = Value::Kind::text;
  shown.text = name;
  table.refuse_whole(fmt::format("\"{}\" in {} names {}, expected the name of a {}{}", key, table.name(),
                                 shown.shown(), kind_, did_you_mean(name, names_)),
                     key);
}

}  // namespace nonrunner::appraisal
