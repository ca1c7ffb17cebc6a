// Names that a later appraisal calls otherwise: `same` says that the old one and the new one are one thing, and
// links, done marks and findings follow.
#pragma once
#include <map>
#include <optional>
#include <string>

#include "book/ledger/book.h"

namespace nonrunner::answers {

class Renamed {
 public:
  Renamed(const book::Book&, const std::string& tag, std::optional<Day> on);
  std::string now(const std::string& name) const;  // the name itself where nothing was said of it

 private:
  std::map<std::string, std::string> now_;
};

}  // namespace nonrunner::answers
