#include "book/ledger/book.h"

#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cstring>
#include <fstream>
#include <map>

#include "book/care/arriving.h"
#include "book/care/backup.h"
#include "book/care/damage.h"
#include "book/care/layout.h"
#include "book/care/older_endings.h"
#include "book/care/older_facts.h"
#include "book/care/older_places.h"
#include "book/ledger/day_checks.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/migrations.h"
#include "exact/hint.h"

namespace nonrunner::book {

namespace {

constexpr int application_id = 0x6e6f6e72;  // "nonr": how a book is told from any other SQLite file

int pragma_number(SQLite::Database& database, const char* name) {
  return database.execAndGet(fmt::format("PRAGMA {}", name)).getInt();
}

void migrate(SQLite::Database& database, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) database.exec(migrations()[i].sql);
  database.exec(fmt::format("PRAGMA user_version = {}", to));
}

// The layout of `count` migrations, in one transaction, in the empty file that is there.
void fill(const std::filesystem::path& empty_file, std::size_t count,
          const std::map<std::string, std::string>& settings) {
  SQLite::Database database(sqlite_name(empty_file), SQLite::OPEN_READWRITE);
  SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
  database.exec(fmt::format("PRAGMA application_id = {}", application_id));
  migrate(database, 0, count);
  for (const auto& [name, value] : settings) {
    SQLite::Statement insert(database, "INSERT INTO setting VALUES (?, ?)");
    insert.bind(1, name);
    insert.bind(2, value);
    insert.exec();
  }
  transaction.commit();
  database.execAndGet("PRAGMA journal_mode = WAL");
}

void make(const std::filesystem::path& path, std::size_t count,
          const std::map<std::string, std::string>& settings) {
  if (std::filesystem::exists(std::filesystem::symlink_status(path)))
    throw Refusal(path.string() +
                  ": there is something at this place already, expected a new name for the book");
  try {
    Arriving arriving(path);
    fill(arriving.path(), count, settings);
    arriving.arrive();
  } catch (const SQLite::Exception&) {
    rethrow_database_error(path);
  }
}

// No statement that comes through the book's own connection takes a safeguard away: whoever means to needs
// another program, and `check` finds what they did. Pragmas that only ask are let through.
int guard(void*, int action, const char* first, const char* second, const char*, const char*) {
  switch (action) {
    case SQLITE_PRAGMA:
      for (const char* asking :
           {"integrity_check", "quick_check", "foreign_key_check", "table_info", "wal_checkpoint"})
        if (std::strcmp(first, asking) == 0) return SQLITE_OK;
      return second ? SQLITE_DENY : SQLITE_OK;
    case SQLITE_ALTER_TABLE:
    case SQLITE_CREATE_INDEX:
    case SQLITE_CREATE_TABLE:
    case SQLITE_CREATE_TRIGGER:
    case SQLITE_CREATE_VIEW:
    case SQLITE_CREATE_VTABLE:
    case SQLITE_CREATE_TEMP_INDEX:
    case SQLITE_CREATE_TEMP_TABLE:
    case SQLITE_CREATE_TEMP_TRIGGER:
    case SQLITE_CREATE_TEMP_VIEW:
    case SQLITE_DROP_INDEX:
    case SQLITE_DROP_TABLE:
    case SQLITE_DROP_TRIGGER:
    case SQLITE_DROP_VIEW:
    case SQLITE_DROP_VTABLE:
      return SQLITE_DENY;
    default:
      return SQLITE_OK;
  }
}

}  // namespace

void rethrow_database_error(const std::filesystem::path& path) {
  try {
    throw;
  } catch (const SQLite::Exception& error) {
    const std::string where = path.string() + ": ";
    switch (error.getErrorCode() & 0xff) {  // without what SQLite adds to say where
      case SQLITE_NOTADB:
      case SQLITE_CORRUPT:
        throw hinted<MachineFailure>(where + damage_of(path, error.what()) +
                                         "; nothing was written; bring back the last backup or export",
                                     {Action::restore, {}});
      case SQLITE_FULL:
        throw MachineFailure(where + "the disk is full; nothing was recorded; make room and try again");
      case SQLITE_READONLY:
        throw MachineFailure(where +
                             "the book may not be written to; nothing was recorded; check the permissions");
      case SQLITE_CANTOPEN:
        throw MachineFailure(where +
                             "the book cannot be opened; check that it exists and may be read and written");
      case SQLITE_PERM:
      case SQLITE_AUTH:
        throw MachineFailure(where + "no permission; nothing was recorded");
      case SQLITE_BUSY:
      case SQLITE_LOCKED:
        throw MachineFailure(
            where + "another process holds the book; nothing was recorded; wait for it to end and try again");
      case SQLITE_NOMEM:
        throw MachineFailure(where + "memory ran out; nothing was recorded");
      case SQLITE_IOERR:
        throw MachineFailure(where + "reading or writing failed (" + error.what() +
                             "); nothing was recorded");
      case SQLITE_CONSTRAINT:
        throw Refusal(where + "the book refuses it: " + error.what() + "; nothing was recorded");
      default:
        throw MachineFailure(where + error.what() + "; nothing was recorded");
    }
  }
}

std::filesystem::path Book::attachments() const { return path_.string() + ".files"; }

void Book::settle(std::chrono::milliseconds patience) {
  SQLite::Database& database = *database_;
  database.setBusyTimeout(static_cast<int>(patience.count()));
  // Append-only needs recursive triggers: without them INSERT OR REPLACE deletes a row and no trigger is
  // asked.
  database.exec("PRAGMA foreign_keys = ON");
  database.exec("PRAGMA recursive_triggers = ON");
  // Durable: a commit has reached the disk when it returns, and a reader never waits for a writer.
  database.exec("PRAGMA synchronous = FULL");
  // 32 MB, taken as they are needed: with the 2 MB that SQLite takes by itself a long import reads its
  // indexes anew.
  database.exec("PRAGMA cache_size = -32768");
  // What a statement may have to take back is kept in memory: a paper of many lines would move it to a file for the rest
  // of a long import, which then takes half as long again. No line of a book stands in a folder for temporary files.
  database.exec("PRAGMA temp_store = MEMORY");
  // A book from elsewhere must not run functions of its own when it is read, and a damaged page must not be
  // taken for a sound one.
  database.exec("PRAGMA trusted_schema = OFF");
  database.exec("PRAGMA cell_size_check = ON");
  sqlite3_db_config(database.getHandle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
}

void Book::begin_writing() {
  // A backup is one file without a log until it is written to; looking at it changes nothing.
  if (!keeps_log_) {
    if (database_->execAndGet("PRAGMA journal_mode").getString() != "wal") {
      sqlite3_set_authorizer(database_->getHandle(), nullptr, nullptr);
      database_->execAndGet("PRAGMA journal_mode = WAL");
      sqlite3_set_authorizer(database_->getHandle(), guard, nullptr);
    }
    keeps_log_ = true;
  }
  query("BEGIN IMMEDIATE").exec();
}

void Book::expect_own_layout() {
  SQLite::Statement& asked = query("PRAGMA schema_version");
  const int number = asked.executeStep() ? asked.getColumn(0).getInt() : -1;
  asked.tryReset();
  if (number == known_layout_) return;
  const auto findings = foreign_layout(*database_, migrations().size());
  if (!findings.empty())
    throw hinted<MachineFailure>(path_.string() + ": the layout of the book is not ours: " +
                                     findings.front() + "; nothing was recorded",
                                 {Action::mend, {{"place", path_.string()}}});
  known_layout_ = number;
}

void Book::create_old(const std::filesystem::path& path, std::size_t count) {
  make(path, count, {{"currency", "USD"}, {"distance", "mi"}});
}

void Book::lay_out(const std::filesystem::path& empty_file, const Currency& currency,
                   const std::string& distance_unit) {
  fill(empty_file, migrations().size(), {{"currency", currency.code}, {"distance", distance_unit}});
}

Book Book::create(const std::filesystem::path& path, const Currency& currency,
                  const std::string& distance_unit) {
  make(path, migrations().size(), {{"currency", currency.code}, {"distance", distance_unit}});
  return open(path);
}

Book Book::open(const std::filesystem::path& path) { return opened(path, usual_patience, true); }

Book Book::open(const std::filesystem::path& path, std::chrono::milliseconds patience) {
  return opened(path, patience, true);
}

Book Book::open_copy(const std::filesystem::path& path) { return opened(path, usual_patience, false); }

std::string sqlite_name(const std::filesystem::path& path) {
  return path.is_absolute() ? path.string() : (std::filesystem::path(".") / path).string();
}

// The file open for reading and, where it may be, for writing. In a folder that cannot be written to, where
// no log lies beside it, it is read as a file that nobody changes.
std::unique_ptr<SQLite::Database> open_to_read(const std::filesystem::path& path,
                                               std::chrono::milliseconds patience) {
  try {
    // A connection is one thread's at a time: it needs no lock of its own around each column that is read.
    auto database =
        std::make_unique<SQLite::Database>(sqlite_name(path), SQLite::OPEN_READWRITE | SQLite::OPEN_NOMUTEX);
    database->setBusyTimeout(static_cast<int>(patience.count()));
    pragma_number(*database, "schema_version");
    return database;
  } catch (const SQLite::Exception& error) {
    const int kind = error.getErrorCode() & 0xff;
    const auto folder = path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
    std::error_code unknown;
    if ((kind != SQLITE_CANTOPEN && kind != SQLITE_READONLY) || ::access(folder.c_str(), W_OK) == 0 ||
        ::access(path.c_str(), R_OK) != 0 || std::filesystem::exists(path.string() + "-wal", unknown))
      throw;
    std::string uri = "file:";
    for (const char c : std::filesystem::absolute(path).string())
      uri += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    return std::make_unique<SQLite::Database>(uri + "?immutable=1", SQLite::OPEN_READONLY | SQLite::OPEN_URI);
  }
}

namespace {

// What SQLite would wait for, or stumble over, beside the book.
void expect_usable_neighbours(const std::filesystem::path& path) {
  for (const char* tail : {"-journal", "-wal", "-shm"}) {
    std::error_code error;
    const auto there = std::filesystem::symlink_status(path.string() + tail, error);
    if (std::filesystem::exists(there) && !std::filesystem::is_regular_file(there))
      throw Refusal(
          path.string() + tail +
          ": found something that is no ordinary file beside the book, expected none; take it away");
  }
}

}  // namespace

Book Book::opened(const std::filesystem::path& path, std::chrono::milliseconds patience, bool set_aside) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status))
    throw hinted<Refusal>(path.string() + ": there is no book here; make one",
                          {Action::start_book, {{"place", path.string()}}});
  if (!std::filesystem::is_regular_file(status))
    throw Refusal(path.string() + ": found something that is not a file, expected a book");
  if (const std::string damage = cut_end_of(path); !damage.empty())
    throw hinted<MachineFailure>(
        path.string() + ": " + damage + "; nothing was written; bring back the last backup or export",
        {Action::restore, {}});
  expect_usable_neighbours(path);
  Book book(path);
  try {
    book.database_ = open_to_read(path, patience);
    SQLite::Database& database = *book.database_;
    database.setBusyTimeout(static_cast<int>(patience.count()));
    if (pragma_number(database, "application_id") != application_id)
      throw Refusal(path.string() + ": the file is not a book of this program; nothing was changed");
    const auto version = static_cast<std::size_t>(pragma_number(database, "user_version"));
    const std::size_t newest = migrations().size();
    if (version > newest)
      throw Refusal(fmt::format(
          "{}: the book was written by a newer version (its layout is {}, this program knows {}); "
          "use the newer program; nothing was changed",
          path.string(), version, newest));
    book.settle(patience);
    if (version < newest) book.bring_up_to_date(newest, set_aside);
    sqlite3_set_authorizer(database.getHandle(), guard, nullptr);
    book.read_shop();
  } catch (const SQLite::Exception&) {
    rethrow_database_error(path);
  }
  return book;
}

void Book::set_aside(std::size_t newest) const {
  // What lies there from before may be another book's: a name that is free.
  std::string aside = fmt::format("{}.before-{:04}", path_.string(), newest);
  for (int i = 1; std::filesystem::exists(std::filesystem::symlink_status(aside)); ++i)
    aside = fmt::format("{}.before-{:04}.{}", path_.string(), newest, i);
  Arriving arriving(aside);
  {
    // A second connection reads the last committed state while this one holds the write lock.
    SQLite::Database from(sqlite_name(path_), SQLite::OPEN_READONLY),
        to(sqlite_name(arriving.path()), SQLite::OPEN_READWRITE);
    copy_pages(from, to);
    to.execAndGet("PRAGMA journal_mode = DELETE");
  }
  arriving.arrive();
}

namespace {

// How many migrations come before that of this number. A book that has not all before 0013 is not read by days to its end;
// one that has not all before 0027 does not say whose place an entry takes, before 0029 under which day a car ended.
std::size_t layouts_before(const std::string& number) {
  std::size_t count = 0;
  for (const Migration& migration : migrations())
    if (migration.name < number) ++count;
  return count;
}

// Figures that are others now, and why.
struct Changed {
  std::string why;
  std::vector<std::string> lines;
};
const char* const by_days =
    "What this book shows otherwise since it is read by the days of its entries, no longer by the order in "
    "which\n"
    "they were typed. Nothing that was booked was changed. What was entered was put under a line of its "
    "car's budget\n"
    "where both have the same name, and nowhere else: what stands under no line can be put under one.\n\n";
const char* const by_its_end =
    "What this book shows otherwise since a sale or a write-off of a closed year that was put right ends its "
    "car\n"
    "under its old day: what came between that day and the correction is late. Nothing that was booked was "
    "changed.\n\n";

// In a file beside the copy that was set aside; none where none is another one.
void note_beside(const std::filesystem::path& book, std::size_t newest, std::vector<Changed> all) {
  std::erase_if(all, [](const Changed& each) { return each.lines.empty(); });
  if (all.empty()) return;
  std::string place = fmt::format("{}.before-{:04}.txt", book.string(), newest);
  for (int i = 1; std::filesystem::exists(std::filesystem::symlink_status(place)); ++i)
    place = fmt::format("{}.before-{:04}.{}.txt", book.string(), newest, i);
  Arriving arriving(place);
  std::ofstream out(arriving.path(), std::ios::binary | std::ios::trunc);
  for (const Changed& each : all) {
    out << (&each == all.data() ? "" : "\n") << each.why;
    for (const std::string& line : each.lines) out << line << "\n";
  }
  out.close();
  if (!out)
    throw MachineFailure(place + ": the note cannot be written; is the disk full? the book is as it was");
  arriving.arrive();
}

}  // namespace

void Book::bring_up_to_date(std::size_t newest, bool set_aside_first) {
  if (database_->execAndGet("PRAGMA journal_mode").getString() != "wal")
    database_->execAndGet("PRAGMA journal_mode = WAL");
  SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
  const auto now = static_cast<std::size_t>(pragma_number(*database_, "user_version"));
  if (now < newest) {  // no other process was quicker
    const auto findings = set_aside_first ? foreign_layout(*database_, now) : std::vector<std::string>{};
    if (!findings.empty())
      throw MachineFailure(path_.string() +
                           ": the book cannot be brought up to date: its layout is not ours: " +
                           findings.front() + "; it is as it was");
    if (set_aside_first) set_aside(newest);
    try {
      migrate(*database_, now, newest);
      if (now < layouts_before("0027")) add_older_places(*this);
      read_shop();
      if (now < layouts_before("0013")) add_older_facts(*this);
      const std::vector<std::string> days = now < layouts_before("0013") && set_aside_first
                                                ? figures_that_changed(*this)
                                                : std::vector<std::string>();
      const std::vector<std::string> ends =
          now < layouts_before("0029") ? add_older_endings(*this) : std::vector<std::string>();
      if (set_aside_first) note_beside(path_, newest, {{by_days, days}, {by_its_end, ends}});
    } catch (const SQLite::Exception& error) {
      if (error.getErrorCode() != SQLITE_ERROR) throw;
      throw MachineFailure(path_.string() + ": the book cannot be brought up to date: " + error.what() +
                           "; it is as it was");
    }
  }
  transaction.commit();
}

void Book::read_shop() {
  try {
    const auto code = setting("currency");
    if (!code) throw Refusal("there is none");
    currency_ = Currency::of(*code);
  } catch (const Refusal& refusal) {
    throw hinted<MachineFailure>(
        path_.string() + ": the file is damaged: the currency of the book cannot be read: " + refusal.what() +
            "; bring back the last backup or export",
        {Action::restore, {}});
  }
  const auto unit = setting("distance");
  if (!unit || (*unit != "mi" && *unit != "km"))
    throw hinted<MachineFailure>(
        path_.string() + ": the file is damaged: the unit of distance cannot be read: found \"" +
            unit.value_or("") + "\", expected mi or km; bring back the last backup or export",
        {Action::restore, {}});
  distance_unit_ = *unit;
}

SQLite::Statement& Book::query(std::string_view sql) const {
  auto found = statements_.find(sql);
  if (found == statements_.end()) {
    std::string text(sql);
    auto prepared = std::make_unique<SQLite::Statement>(*database_, text);
    found = statements_.emplace(std::move(text), std::move(prepared)).first;
  }
  found->second->tryReset();
  found->second->clearBindings();
  return *found->second;
}

std::optional<std::string> Book::setting(const std::string& name) const {
  auto& find = query("SELECT value FROM setting WHERE name = ?");
  find.bind(1, name);
  std::optional<std::string> value;
  if (find.executeStep()) value = find.getColumn(0).getString();
  find.tryReset();
  return value;
}

Recording::Recording(Book& book, std::string now, Day today)
    : book_(book), now_(std::move(now)), today_(today) {
  book_.begin_writing();
  open_ = true;
  try {
    book_.expect_own_layout();
    note_desk_as_found(*this);
  } catch (...) {
    roll_back();
    throw;
  }
}

void Recording::roll_back() {
  open_ = false;
  // Statements still stepping would keep the transaction open; sqlite3_exec reports nothing we could act on
  // here.
  sqlite3_exec(book_.database().getHandle(), "ROLLBACK", nullptr, nullptr, nullptr);
  std::error_code ignored;
  for (const auto& file : files_) std::filesystem::remove(file, ignored);
}

Recording::~Recording() {
  if (open_) roll_back();
}

void Recording::commit() {
  SQLite::Statement& statement = book_.query("COMMIT");
  try {
    statement.exec();
  } catch (const SQLite::Exception&) {
    statement.tryReset();  // one that was not let through is still in hand, and a roll-back would wait for it
    throw;
  }
  statement.tryReset();
}

void Recording::keep() {
  look_after_held(*this);  // what nothing followed
  try {
    commit();
  } catch (const SQLite::Exception& error) {
    switch (error.getErrorCode() & 0xff) {
      case SQLITE_BUSY:
      case SQLITE_FULL:
      case SQLITE_CONSTRAINT:
        throw;  // refused before the last page was written: it is not there
      default:
        // The log may hold all of it though the disk did not confirm it; the next opening takes what it
        // holds, and the files that go with it stay.
        files_.clear();
        throw hinted<MachineFailure>(
            fmt::format(
                "{}: the disk failed while this was being kept ({}); look whether it is there before you "
                "enter it again",
                book_.path().string(), error.what()),
            {Action::look_at_entries, {}});
    }
  }
  open_ = false;
  if (book_.after_keeping) book_.after_keeping(book_);
}

}  // namespace nonrunner::book
