// A book: one shop's records in one SQLite file. This is the one place where a book is opened; every pragma,
// flag and timeout is set here (book.cpp, settle()).
//
// Errors: Refusal where the file is no book or comes from a newer program; MachineFailure where the machine
// does not let us (no permission, disk full, damaged, held by another process for longer than the patience).
#pragma once
#include <SQLiteCpp/SQLiteCpp.h>

#include <chrono>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "exact/currency.h"
#include "exact/day.h"
#include "exact/money.h"

namespace nonrunner::book {

class Book {
 public:
  // How long another process that holds the book is waited for.
  static constexpr std::chrono::milliseconds usual_patience{60'000};

  // Makes an empty book at `path`, readable by its owner only, whole or not at all. Refused where something
  // is there already.
  static Book create(const std::filesystem::path& path, const Currency&, const std::string& distance_unit);
  // Makes an empty book out of the empty file that is there.
  static void lay_out(const std::filesystem::path& empty_file, const Currency&,
                      const std::string& distance_unit);
  // Opens a book; one made by an older version is brought up to date first, inside a transaction, after a
  // copy of it was set aside as PATH.before-NNNN.
  static Book open(const std::filesystem::path& path);
  static Book open(const std::filesystem::path& path, std::chrono::milliseconds patience);
  // Opens a copy that nobody else has: brought up to date without another copy beside it.
  static Book open_copy(const std::filesystem::path& path);
  // For the tests of migration: makes a book as the first `count` migrations leave it.
  static void create_old(const std::filesystem::path& path, std::size_t count);

  const Currency& currency() const { return currency_; }
  const std::string& distance_unit() const { return distance_unit_; }
  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path attachments() const;  // the folder beside the book: PATH.files

  SQLite::Database& database() const { return *database_; }
  // A prepared statement, reset and ready to bind; kept for the next use of the same text.
  SQLite::Statement& query(std::string_view sql) const;

  std::optional<std::string> setting(const std::string& name) const;

  // Called after each commit, with the book as it stands then; the house does so once the answer has left.
  std::function<void(const Book&)> after_keeping;
  mutable std::vector<std::int64_t> sealed_with;  // kept by entry.cpp: the table sealed_from, read once

 private:
  friend class Recording;
  explicit Book(std::filesystem::path path) : path_(std::move(path)) {}
  static Book opened(const std::filesystem::path& path, std::chrono::milliseconds patience, bool set_aside);
  void settle(std::chrono::milliseconds patience);
  void bring_up_to_date(std::size_t newest, bool set_aside);
  void set_aside(std::size_t newest) const;
  void read_shop();
  void begin_writing();      // BEGIN IMMEDIATE, in a book that keeps its log
  void expect_own_layout();  // throws MachineFailure where it is not the one that this program makes

  std::filesystem::path path_;
  std::unique_ptr<SQLite::Database> database_;
  struct TextHash : std::hash<std::string_view> {
    using is_transparent = void;
  };
  mutable std::unordered_map<std::string, std::unique_ptr<SQLite::Statement>, TextHash, std::equal_to<>>
      statements_;
  Currency currency_;
  std::string distance_unit_;
  int known_layout_ = -1;  // SQLite's number of the layout that was found to be ours
  // Seen once, it stays: a connection that has a log in hand lets no other one do away with it.
  bool keeps_log_ = false;
};

// What an entry says of a line of its car's budget (book/ledger/marks.h).
struct Mark {
  std::string vehicle, says, name;
};
// How a phone or a form keeps the next entry of this kind once (book/ledger/kept.h).
struct KeptAs {
  std::string id, sent, kind;
};
// The entry that the next one of this kind puts right, where it lies in a closed period (book/ledger/stands.h).
struct Corrects {
  std::int64_t entry = 0;
  std::string kind;
};
// The name by which SQLite opens the file and nothing else: no ":memory:", no "file:" with wishes of its own.
std::string sqlite_name(const std::filesystem::path&);
// The file open for reading and, where it may be, for writing; opening changes nothing in it. In a folder
// that cannot be written to, where no log lies beside it, it is read as a file that nobody changes.
std::unique_ptr<SQLite::Database> open_to_read(const std::filesystem::path&,
                                               std::chrono::milliseconds patience);

// A recording: one command, one transaction, begun IMMEDIATE, so that a lock is waited for at the start and
// not lost in the middle. What is not kept is rolled back when it leaves scope; that never throws.
class Recording {
 public:
  // `now` is when it is written, ISO 8601 in UTC; `today` the user's day.
  Recording(Book& book, std::string now, Day today);
  ~Recording();
  Recording(const Recording&) = delete;
  Recording& operator=(const Recording&) = delete;
  // Commits; when it returns, what was recorded survives a power cut. Where the disk fails in the middle of
  // it nobody knows whether it was kept until the book is read again: the MachineFailure then says so.
  void keep();

  Book& book() { return book_; }
  const Currency& currency() const { return book_.currency(); }
  const Book& book() const { return book_; }
  const std::string& now() const { return now_; }
  Day today() const { return today_; }
  // Things worth saying that are no refusal: a new purse opened, the dealer limit near.
  std::vector<std::string>& remarks() { return remarks_; }
  // A file that was put beside the book for this: it goes again where the recording is not kept.
  void goes_unless_kept(std::filesystem::path file) { files_.push_back(std::move(file)); }

  // Whether the journal names the last note of the desk (book/ledger/desk_notes.h); looked at once a recording.
  bool notes_named = false;

  // Where a word is new to the book and close to one it knows: refuse (commands typed by hand) or only remark
  // (files).
  bool strict_words = false;
  // Those that a person said to be new all the same, one by one.
  std::set<std::string> new_words;
  // What looks like something that is there already, and more own hours than a day has, is refused where it
  // does not say that it is another one (book/questions/alike.h): commands and files that are posted. A book
  // that is restored is taken as it was.
  bool wary = false;
  // Whoever records has looked for what is like the next event in this recording already (answers/entering.h).
  bool likeness_is_settled = false;
  std::string typed_by;  // whose: what was typed last can be taken back (book/events/typed.h)

  // What is looked at only after the next entry: a reversal whose fuller paper, or whose entry put
  // right, has still to come.
  bool hold = false;
  std::vector<std::int64_t> held;

  std::map<std::pair<std::string, std::string>, std::int64_t> accounts;  // known in this recording
  std::map<std::string, bool> vehicles;                                  // tags known in this recording
  std::vector<Mark> marks;  // of the next entry: see book/ledger/marks.h
  std::optional<KeptAs> kept_as;
  std::optional<Corrects> corrects;

 private:
  void roll_back();
  void commit();
  Book& book_;
  std::string now_;
  Day today_;
  std::vector<std::string> remarks_;
  std::vector<std::filesystem::path> files_;
  bool open_ = false;
};

// Turns what SQLite says into one line and the right kind of end; to be called inside a catch block.
[[noreturn]] void rethrow_database_error(const std::filesystem::path& path);

}  // namespace nonrunner::book
