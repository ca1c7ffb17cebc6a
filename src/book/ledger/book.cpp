#include "book/ledger/book.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <cstring>
#include <map>

#include "book/care/arriving.h"
#include "book/care/backup.h"
#include "book/care/damage.h"
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
  SQLite::Database database(empty_file.string(), SQLite::OPEN_READWRITE);
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
  database.execAndGet("PRAGMA journal_mode = WAL");
  // A book from elsewhere must not run functions of its own when it is read.
  database.exec("PRAGMA trusted_schema = OFF");
}

void Book::create_old(const std::filesystem::path& path, std::size_t count) { make(path, count, {}); }

void Book::lay_out(const std::filesystem::path& empty_file, const Currency& currency,
                   const std::string& distance_unit) {
  fill(empty_file, migrations().size(), {{"currency", currency.code}, {"distance", distance_unit}});
}

Book Book::create(const std::filesystem::path& path, const Currency& currency,
                  const std::string& distance_unit) {
  make(path, migrations().size(), {{"currency", currency.code}, {"distance", distance_unit}});
  return open(path);
}

Book Book::open(const std::filesystem::path& path) { return open(path, usual_patience); }

Book Book::open(const std::filesystem::path& path, std::chrono::milliseconds patience) {
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
  Book book(path);
  try {
    book.database_ = std::make_unique<SQLite::Database>(path.string(), SQLite::OPEN_READWRITE);
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
    if (version < newest) book.bring_up_to_date(newest);
    sqlite3_set_authorizer(database.getHandle(), guard, nullptr);
    book.read_shop();
  } catch (const SQLite::Exception&) {
    rethrow_database_error(path);
  }
  return book;
}

void Book::bring_up_to_date(std::size_t newest) {
  SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
  const auto now = static_cast<std::size_t>(pragma_number(*database_, "user_version"));
  if (now < newest) {  // no other process was quicker
    const std::string aside = fmt::format("{}.before-{:04}", path_.string(), newest);
    if (!std::filesystem::exists(aside)) {
      Arriving arriving(aside);
      {
        // A second connection reads the last committed state while this one holds the write lock.
        SQLite::Database from(path_.string(), SQLite::OPEN_READONLY),
            to(arriving.path().string(), SQLite::OPEN_READWRITE);
        copy_pages(from, to);
        to.execAndGet("PRAGMA journal_mode = DELETE");
      }
      arriving.arrive();
    }
    try {
      migrate(*database_, now, newest);
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
    currency_ = Currency::of(setting("currency").value_or("USD"));
  } catch (const Refusal& refusal) {
    throw hinted<MachineFailure>(
        path_.string() + ": the file is damaged: the currency of the book cannot be read: " + refusal.what() +
            "; bring back the last backup or export",
        {Action::restore, {}});
  }
  distance_unit_ = setting("distance").value_or("mi");
}

SQLite::Statement& Book::query(const std::string& sql) const {
  auto& statement = statements_[sql];
  if (!statement) statement = std::make_unique<SQLite::Statement>(*database_, sql);
  statement->tryReset();
  statement->clearBindings();
  return *statement;
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
  book_.database().exec("BEGIN IMMEDIATE");
  open_ = true;
}

Recording::~Recording() {
  if (!open_) return;
  // Statements still stepping would keep the transaction open; sqlite3_exec reports nothing we could act on
  // here.
  sqlite3_exec(book_.database().getHandle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Recording::keep() {
  try {
    book_.database().exec("COMMIT");
  } catch (const SQLite::Exception& error) {
    switch (error.getErrorCode() & 0xff) {
      case SQLITE_BUSY:
      case SQLITE_FULL:
      case SQLITE_CONSTRAINT:
        throw;  // refused before the last page was written: it is not there
      default:
        // The log may hold all of it though the disk did not confirm it; the next opening takes what it
        // holds.
        throw hinted<MachineFailure>(
            fmt::format(
                "{}: the disk failed while this was being kept ({}); look whether it is there before you "
                "enter it again",
                book_.path().string(), error.what()),
            {Action::look_at_entries, {}});
    }
  }
  open_ = false;
}

}  // namespace nonrunner::book
