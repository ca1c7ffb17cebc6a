#include "book/care/read_back.h"

#include <fmt/format.h>

#include <algorithm>
#include <system_error>

#include "book/care/compared.h"
#include "book/care/older_apart.h"
#include "book/events/assigned.h"
#include "book/ledger/entry.h"
#include "book/ledger/query.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace fs = std::filesystem;

namespace {

// The other book, which goes whatever happens.
class Again {
 public:
  explicit Again(fs::path path) : path_(std::move(path)) {}
  ~Again() {
    std::error_code ignored;
    for (const char* tail : {"", "-wal", "-shm", "-journal"}) fs::remove(path_.string() + tail, ignored);
    fs::remove_all(path_.string() + ".files", ignored);
  }
  Again(const Again&) = delete;
  Again& operator=(const Again&) = delete;
  const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

// Under which day a sale or a write-off that was put right ends the car was once a row of `stood` without hours; it is one of
// `ended` now, there too (older_endings.h).
const char* compared_of(const std::string& table) {
  return table == "stood" ? " AND (own <> 0 OR paid <> 0)" : "";
}

std::vector<Compared> tables(const Book& book) {
  const EntryId from = first_by_days(book);
  const std::string counted = but_for_its_closing(book);
  std::vector<Compared> all = {
      {"entries", fmt::format("SELECT entry, day, kind, voids FROM entry WHERE {} ORDER BY entry", counted),
       4},
      {"events",
       fmt::format("SELECT entry, event FROM entry WHERE entry >= {} AND {} ORDER BY entry", from, counted),
       2},
      {"postings",
       fmt::format(
           "SELECT p.entry, a.kind, a.name, p.amount, p.quantity, p.stands FROM posting p JOIN account a "
           "USING (account) WHERE p.entry >= {} ORDER BY p.entry, p.seq",
           from),
       6},
      {"accounts",
       "SELECT a.kind, a.name, s.amount, s.quantity FROM account_sum s JOIN account a USING (account) WHERE "
       "s.amount <> 0 OR s.quantity <> 0 ORDER BY a.kind, a.name",
       4, false},
      {"settings", "SELECT name, value FROM setting WHERE name <> 'closed' ORDER BY name", 2,
       false},  // an entry where it is now
      {"comparables",
       "SELECT model, price, kind, odometer, year, grade, day, note FROM comparable ORDER BY comparable", 8,
       false},
      {"appraisals", "SELECT vehicle, day, entry, job, figures FROM appraisal ORDER BY appraisal", 5, false},
      {"files taken in", "SELECT sha256, name, day FROM taken_in ORDER BY sha256", 3, false},
      {"headings", assigned_in_order, 3, false},
  };
  for (const DetailTable& table : detail_tables()) {
    if (table.name == "noted_before") continue;  // of the chain of notes, which begins anew
    // What was found was once kept in the order of typing: it is the same facts in another one.
    const char* order = table.name == "found" ? "what, name, value" : table.name == "place" ? "how" : "rowid";
    // From where this book has such rows; the other one was entered anew and has them from its first entry on. Those that were
    // filled from the events of before are the same ones.
    const bool is_filled = table.name == "place" || table.name == "unnamed" || table.name == "ended";
    const EntryId begins = is_filled
                               ? 1
                               : first<EntryId>(book, "SELECT entry FROM sealed_from WHERE what = :what",
                                                {{":what", table.name}})
                                     .value_or(1);
    all.push_back(
        {table.name,
         fmt::format("SELECT entry, {} FROM {} WHERE entry >= {}{} ORDER BY entry, {}", table.columns,
                     table.name, std::max(from, begins), compared_of(table.name), order),
         static_cast<int>(table.width) + 1});
  }
  return all;
}

}  // namespace

std::vector<std::string> journals_apart(const Book& book, const Book& again) {
  std::vector<std::string> differences;
  for (const Compared& table : tables(book))
    if (table.by_entry)
      if (const std::string text = apart(book, again, table, {}); !text.empty()) differences.push_back(text);
  return differences;
}

ReadBack read_back(const Book& book, const fs::path& folder, const fs::path& at, const RestoreWith& with) {
  const Again file(at);
  try {
    restore(folder, file.path(), with);
  } catch (const Refusal& refusal) {
    std::string why = refusal.what();  // the folder has not its own name yet
    if (const auto found = why.find(folder.string() + "/"); found != std::string::npos)
      why.erase(found, folder.string().size() + 1);
    return {false, {"it cannot be entered again as it is: " + why}, {}};
  }
  const Book again = Book::open(file.path());
  ReadBack result;
  if (first_by_days(book) > 1) {
    OlderApart apart = older_apart(book, again, with.tick);
    result.differences = std::move(apart.by_age);
    result.later = std::move(apart.later);
    return result;
  }
  for (const Compared& table : tables(book))
    if (const std::string text = apart(book, again, table, with.tick); !text.empty())
      result.differences.push_back(text);
  return result;
}

}  // namespace nonrunner::book
