#include "book/care/read_back.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <system_error>

#include "book/ledger/entry.h"
#include "book/ledger/query.h"
#include "exact/ends.h"
#include "text/unicode.h"

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

struct Compared {
  std::string what;  // "entries"
  std::string sql;   // the first column names the row, where it is a number: its entry
};

EntryId days_from(const Book& book) {
  return first<EntryId>(book, "SELECT entry FROM sealed_from WHERE what = 'days'", {}).value_or(1);
}

std::vector<Compared> tables(const Book& book) {
  const EntryId from = days_from(book);
  std::vector<Compared> all = {
      {"entries", "SELECT entry, day, kind, voids FROM entry ORDER BY entry"},
      {"events", fmt::format("SELECT entry, event FROM entry WHERE entry >= {} ORDER BY entry", from)},
      {"postings",
       fmt::format(
           "SELECT p.entry, a.kind, a.name, p.amount, p.quantity, p.stands FROM posting p JOIN account a "
           "USING (account) WHERE p.entry >= {} ORDER BY p.entry, p.seq",
           from)},
      {"accounts",
       "SELECT a.kind, a.name, s.amount, s.quantity FROM account_sum s JOIN account a USING (account) WHERE "
       "s.amount <> 0 OR s.quantity <> 0 ORDER BY a.kind, a.name"},
      {"settings",
       "SELECT name, value FROM setting WHERE name <> 'closed' ORDER BY name"},  // an entry where it is now
      {"comparables",
       "SELECT model, price, kind, odometer, year, grade, day, note FROM comparable ORDER BY comparable"},
      {"appraisals", "SELECT vehicle, day, entry, job FROM appraisal ORDER BY appraisal"},
      {"files taken in", "SELECT sha256, name, day FROM taken_in ORDER BY sha256"},
      {"headings", "SELECT vehicle, what, heading FROM assigned ORDER BY vehicle, what"},
  };
  for (const DetailTable& table : detail_tables()) {
    if (table.name == "noted_before") continue;  // of the chain of notes, which begins anew
    all.push_back(
        {table.name, fmt::format("SELECT entry, {} FROM {} WHERE entry >= max({}, coalesce((SELECT f.entry "
                                 "FROM sealed_from f WHERE f.what = '{}'), 1)) ORDER BY entry, rowid",
                                 table.columns, table.name, from, table.name)});
  }
  return all;
}

std::string text_of(const SQLite::Column& column) {
  return column.isNull() ? "nothing" : made_utf8(column.getString());
}

// The first row that is another one; empty: all are the same.
std::string apart(const Book& book, const Book& again, const Compared& table,
                  const std::function<void(std::size_t, std::size_t)>& tick) {
  SQLite::Statement here(book.database(), table.sql), there(again.database(), table.sql);
  std::size_t rows = 0;
  const auto at = [&](SQLite::Statement& row) {
    return row.getColumn(0).isInteger() ? "entry " + text_of(row.getColumn(0))
                                        : "\"" + text_of(row.getColumn(0)) + "\"";
  };
  for (;;) {
    if (tick && ++rows % 1024 == 0) tick(rows, rows);
    const bool more = here.executeStep();
    if (there.executeStep() != more)
      return fmt::format("{}: {} is there {}", table.what, at(more ? here : there),
                         more ? "and is not when it is entered again" : "only when it is entered again");
    if (!more) return "";
    for (int i = 0; i < here.getColumnCount(); ++i) {
      const std::string one = text_of(here.getColumn(i)), other = text_of(there.getColumn(i));
      if (one != other)
        return fmt::format("{}: {} has {} \"{}\", and \"{}\" when it is entered again", table.what, at(here),
                           here.getColumnName(i), cut_to(one, 40), cut_to(other, 40));
    }
  }
}

}  // namespace

std::vector<std::string> read_back(const Book& book, const fs::path& folder, const fs::path& at,
                                   const RestoreWith& with) {
  const Again file(at);
  try {
    restore(folder, file.path(), with);
  } catch (const Refusal& refusal) {
    std::string why = refusal.what();  // the folder has not its own name yet
    if (const auto found = why.find(folder.string() + "/"); found != std::string::npos)
      why.erase(found, folder.string().size() + 1);
    return {"it cannot be entered again as it is: " + why};
  }
  const Book again = Book::open(file.path());
  std::vector<std::string> differences;
  for (const Compared& table : tables(book))
    if (const std::string text = apart(book, again, table, with.tick); !text.empty())
      differences.push_back(text);
  return differences;
}

}  // namespace nonrunner::book
