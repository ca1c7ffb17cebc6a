#include "book/questions/attached.h"

#include "book/events/attach.h"
#include "book/ledger/query.h"

namespace nonrunner::book {

std::vector<Attached> attached_to(const Book& book, const std::string& vehicle) {
  std::vector<Attached> all;
  each<Day, EntryId, std::string, std::string>(
      book,
      "SELECT e.day, e.entry, a.name, a.sha256 FROM attachment a JOIN live_entry e USING (entry) WHERE "
      "a.vehicle = "
      ":tag ORDER BY e.day, e.entry",
      {{":tag", vehicle}}, [&](Day day, EntryId entry, const std::string& name, const std::string& sha256) {
        all.push_back({day, entry, name, sha256});
      });
  return all;
}

bool is_attached(const Book& book, const std::string& sha256) {
  return is_sha256(sha256) &&
         first<std::int64_t>(book, "SELECT 1 FROM attachment WHERE sha256 = :hash", {{":hash", sha256}})
             .has_value();
}

}  // namespace nonrunner::book
