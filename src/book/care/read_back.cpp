#include "book/care/read_back.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <functional>
#include <system_error>

#include "book/events/assigned.h"
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
  std::string sql;
  int columns;
  bool by_entry = true;  // whether the first column is an entry's number
};

EntryId days_from(const Book& book) {
  return first<EntryId>(book, "SELECT entry FROM sealed_from WHERE what = 'days'", {}).value_or(1);
}

// An older version kept the end of a closed period as a setting; entered again it is an entry, the last one.
std::string but_for_its_closing(const Book& book) {
  const auto closed = book.setting("closed");
  return closed ? fmt::format("NOT (kind = 'close' AND day = '{}')", Day::parse(*closed).iso()) : "true";
}

std::vector<Compared> tables(const Book& book) {
  const EntryId from = days_from(book);
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
      {"appraisals", "SELECT vehicle, day, entry, job FROM appraisal ORDER BY appraisal", 4, false},
      {"files taken in", "SELECT sha256, name, day FROM taken_in ORDER BY sha256", 3, false},
      {"headings", assigned_in_order, 3, false},
  };
  for (const DetailTable& table : detail_tables()) {
    if (table.name == "noted_before") continue;  // of the chain of notes, which begins anew
    // What was found was once kept in the order of typing: it is the same facts in another one.
    const char* order = table.name == "found" ? "what, name, value" : "rowid";
    all.push_back(
        {table.name,
         fmt::format(
             "SELECT entry, {} FROM {} WHERE entry >= max({}, coalesce((SELECT f.entry FROM sealed_from f "
             "WHERE f.what = '{}'), 1)) ORDER BY entry, {}",
             table.columns, table.name, from, table.name, order),
         static_cast<int>(table.width) + 1});
  }
  return all;
}

// What is no text in an export is replaced in it, and so is the same here.
std::string text_of(const Row& row, const Compared& table) {
  std::string text;
  for (int i = 0; i < table.columns; ++i)
    text += (i > 0 ? " | " : "") + (row.none(i) ? std::string("nothing") : made_utf8(row.text(i)));
  return text;
}

std::string cut(const std::string& text) { return "\"" + cut_to(text, 60) + "\""; }

// From a little before the place where they part.
std::string parting(const std::string& text, const std::string& other) {
  constexpr std::size_t before = 20;
  std::size_t at = 0;
  while (at < text.size() && at < other.size() && text[at] == other[at]) ++at;
  return cut(at > before ? "..." + made_utf8(text.substr(at - before)) : text);
}

// The first row that is another one; empty: all are the same.
std::string apart(const Book& book, const Book& again, const Compared& table,
                  const std::function<void(std::size_t, std::size_t)>& tick) {
  // What each row says here, as a number: the text of a whole book is not held.
  std::vector<std::size_t> here;
  const auto listen = [&](std::size_t row) {
    if (tick && row % 1024 == 0) tick(row, row);
  };
  rows(book, table.sql, {}, [&](const Row& row) {
    here.push_back(std::hash<std::string>()(text_of(row, table)));
    listen(here.size());
  });
  std::size_t at = 0;
  std::string there;
  ask(again, table.sql, {}, [&](const Row& row) {
    listen(at);
    const std::string text = text_of(row, table);
    if (at < here.size() && here[at] == std::hash<std::string>()(text)) {
      ++at;
      return true;
    }
    there = text;
    return false;
  });
  if (at == here.size() && there.empty()) return "";
  std::string mine;
  row(book, fmt::format("{} LIMIT 1 OFFSET {}", table.sql, at), {},
      [&](const Row& found) { mine = text_of(found, table); });
  if (there.empty())
    return fmt::format("{}: {} is not there when it is entered again", table.what, cut(mine));
  if (mine.empty())
    return fmt::format("{}: {} is there only when it is entered again", table.what, cut(there));
  const std::string entry = table.by_entry ? "entry " + mine.substr(0, mine.find(' ')) + ": " : "";
  return fmt::format("{}: {}{}, and {} when it is entered again", table.what, entry, parting(mine, there),
                     parting(there, mine));
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
    return {false, {"it cannot be entered again as it is: " + why}};
  }
  const Book again = Book::open(file.path());
  ReadBack result;
  for (const Compared& table : tables(book))
    if (const std::string text = apart(book, again, table, with.tick); !text.empty())
      result.differences.push_back(text);
  return result;
}

}  // namespace nonrunner::book
