#include "book/care/check.h"

#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>

#include <cstdlib>
#include <cstring>
#include <exception>
#include <filesystem>
#include <map>
#include <set>

#include "book/care/layout.h"
#include "book/care/older_endings.h"
#include "book/care/older_facts.h"
#include "book/care/older_places.h"
#include "book/events/attach.h"
#include "book/events/comparables.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/limits.h"
#include "book/ledger/migrations.h"
#include "book/ledger/names.h"
#include "book/ledger/query.h"
#include "book/ledger/seal_of.h"
#include "book/ledger/settings.h"
#include "book/questions/figures.h"
#include "book/questions/journal.h"
#include "exact/ends.h"
#include "text/unicode.h"

namespace nonrunner::book {

namespace {

constexpr std::size_t most_findings = 50;

class Findings {
 public:
  explicit Findings(Health& health) : health_(health) {}
  void add(std::string finding) {
    health_.sound = false;
    if (health_.findings.size() < most_findings) health_.findings.push_back(std::move(finding));
    if (health_.findings.size() == most_findings)
      health_.findings.push_back("and more; the first fifty are shown");
  }

 private:
  Health& health_;
};

void check_file(const Book& book, Findings& findings) {
  each<std::string>(book, "PRAGMA integrity_check(20)", {}, [&](const std::string& line) {
    if (line == "ok") return;
    // A page that the machine did not give is none that is damaged.
    if (const auto at = line.find("error code="); at != std::string::npos) {
      const int code = std::atoi(line.c_str() + at + 11);
      if ((code & 0xff) == SQLITE_IOERR || (code & 0xff) == SQLITE_NOMEM)
        throw SQLite::Exception(sqlite3_errstr(code), code);
    }
    findings.add("file: " + line);
  });
  each<std::string, std::string, std::string>(
      book, "PRAGMA foreign_key_check", {},
      [&](const std::string& table, const std::string& row, const std::string& other) {
        findings.add(fmt::format("file: table {}, row {}: refers to a row of {} that is not there", table,
                                 row, other));
      });
}

// A trigger or a constraint that somebody took away would let the next change through: the layout has to be
// ours.
void check_layout(const Book& book, Findings& findings) {
  for (const std::string& finding : foreign_layout(book.database(), migrations().size()))
    findings.add("layout: " + finding);
}

// As it is kept; one of another length is none.
Hash hash_of(const std::string& bytes) {
  Hash hash{};
  if (bytes.size() == hash.size()) std::memcpy(hash.data(), bytes.data(), hash.size());
  return hash;
}

// A kind of row that an entry was sealed without: rows of it beside that entry were put there later. Of entries of the
// layout before days they are compared with what the entry says (older_facts_agree), as whose place an entry takes is of every
// entry of before that was kept (older_places_agree), and under which day it ended a car (older_endings_agree).
void check_rows_of_older(const Book& book, Findings& findings) {
  const EntryId days =
      first<EntryId>(book, "SELECT entry FROM sealed_from WHERE what = 'days'", {}).value_or(1);
  for (const DetailTable& table : detail_tables()) {
    if (table.name == "place" || table.name == "unnamed" || table.name == "ended") continue;
    each<EntryId>(
        book,
        fmt::format("SELECT DISTINCT entry FROM {} WHERE entry >= :days AND entry < (SELECT s.entry FROM "
                    "sealed_from s WHERE s.what = :table)",
                    table.name),
        {{":days", days}, {":table", table.name}}, [&](EntryId entry) {
          findings.add(fmt::format("entry {}: has a row in {} that no seal covers", entry, table.name));
        });
  }
}

// What cannot be entered again: a restore would refuse it.
void check_names(const Entry& entry, Findings& findings) {
  if (broken_utf8(entry.event)) return;  // told of where it is shown
  try {
    expect_readable(entry);
  } catch (const Refusal& refusal) {
    findings.add(
        fmt::format("entry {}: cannot be entered again: {}; to be mended", entry.id, refusal.what()));
  }
}

void check_chain(const Book& book, Health& health, Findings& findings,
                 const std::function<void(EntryId, EntryId)>& tick) {
  const EntryId last = last_entry(book);
  Hash previous{};
  EntryId expected = 1;
  rows(book, "SELECT entry, previous, hash, money FROM entry ORDER BY entry", {}, [&](const Row& row) {
    const auto id = row.as<EntryId>(0);
    if (tick) tick(id, last);
    if (id == expected + 1) findings.add(fmt::format("entry {}: is missing", expected));
    if (id > expected + 1) findings.add(fmt::format("entries {} to {}: are missing", expected, id - 1));
    expected = id + 1;
    ++health.entries;
    const Hash said = hash_of(row.text(1)), stored = hash_of(row.text(2));
    if (said != previous)
      findings.add(fmt::format("entry {}: does not follow entry {}: one of the two was changed", id, id - 1));
    try {
      const Entry entry = load_entry(book, id);
      check_names(entry, findings);
      // What moves money follows from the postings and is not sealed again.
      const bool moves_money = row.as<bool>(3);
      if (sealed(entry, said) != stored || moves_money == entry.postings.empty())
        findings.add(fmt::format("entry {}: was changed behind the program's back", id));
      if (!older_facts_agree(book, entry) || !older_places_agree(book, entry) ||
          !older_endings_agree(book, entry))
        findings.add(fmt::format("entry {}: what is kept beside it is not what it says", id));
      Money sum;
      for (const Posting& posting : entry.postings) sum += posting.amount;
      health.postings += static_cast<std::int64_t>(entry.postings.size());
      if (!is_zero(sum))
        findings.add(
            fmt::format("entry {}: does not add up to zero, {} minor units are over", id, sum.minor()));
    } catch (const Refusal& refusal) {
      findings.add(fmt::format("entry {}: cannot be read: {}", id, refusal.what()));
    }
    previous = stored;
  });
  health.head = hex(previous);
  each<EntryId>(
      book, "SELECT DISTINCT p.entry FROM posting p LEFT JOIN entry e USING (entry) WHERE e.entry IS NULL",
      {},
      [&](EntryId stray) { findings.add(fmt::format("entry {}: has postings and does not exist", stray)); });
  check_rows_of_older(book, findings);
  for (const DetailTable& table : detail_tables())
    each<EntryId>(
        book,
        fmt::format("SELECT DISTINCT d.entry FROM {} d LEFT JOIN entry e USING (entry) WHERE e.entry IS NULL",
                    table.name),
        {}, [&](EntryId stray) {
          findings.add(fmt::format("entry {}: has a {} and does not exist", stray, table.name));
        });
}

void check_accounts(const Book& book, Health& health, Findings& findings) {
  each<std::string, std::string, bool, std::int64_t>(
      book,
      "SELECT a.kind, a.name, coalesce(b.amount, 0) = coalesce(sum(p.amount), 0) AND coalesce(b.quantity, 0) "
      "= "
      "coalesce(sum(p.quantity), 0), coalesce(sum(p.quantity), 0) FROM account a LEFT JOIN balance b USING "
      "(account) LEFT JOIN posting p USING (account) GROUP BY a.account",
      {}, [&](const std::string& kind, const std::string& name, bool agrees, std::int64_t pieces) {
        if (!agrees)
          findings.add(fmt::format("account {} {}: its balance is not the sum of its postings", kind, name));
        if (kind == account::stock && pieces < 0)
          findings.add(fmt::format("account {} {}: fewer than none on the shelf", kind, name));
      });
  // By days, and over all of them: what the triggers keep, against the postings read anew.
  each<std::string, std::string>(
      book,
      "SELECT DISTINCT a.kind, a.name FROM (SELECT account FROM (SELECT account, day, stands, amount, "
      "quantity "
      "FROM account_day UNION ALL SELECT account, day, stands, -amount, -quantity FROM counted) GROUP BY "
      "account, day, stands HAVING sum(amount) <> 0 OR sum(quantity) <> 0 UNION ALL SELECT account FROM "
      "(SELECT "
      "account, amount, quantity FROM account_sum UNION ALL SELECT account, -amount, -quantity FROM "
      "account_day) GROUP BY account HAVING sum(amount) <> 0 OR sum(quantity) <> 0 UNION ALL SELECT account "
      "FROM account_sum s WHERE s.last IS NOT (SELECT max(d.stands) FROM account_day d WHERE d.account = "
      "s.account)) JOIN account a USING "
      "(account) ORDER BY a.account",
      {}, [&](const std::string& kind, const std::string& name) {
        findings.add(
            fmt::format("account {} {}: its sums by days are not those of its postings", kind, name));
      });
  try {
    each<std::string>(
        book,
        "SELECT v.tag FROM vehicle v LEFT JOIN worked w ON w.vehicle = v.tag LEFT JOIN (SELECT l.vehicle, "
        "sum(l.own) AS own, sum(l.paid) AS paid FROM labour l JOIN live_entry USING (entry) GROUP BY "
        "l.vehicle) "
        "s ON s.vehicle = v.tag WHERE coalesce(w.own, 0) <> coalesce(s.own, 0) OR coalesce(w.paid, 0) <> "
        "coalesce(s.paid, 0)",
        {}, [&](const std::string& tag) {
          findings.add(fmt::format("vehicle {}: the sum of its hours is not what its entries say", tag));
        });
    if (*first<bool>(
            book,
            "SELECT (SELECT amount FROM turned_over) IS NOT (SELECT coalesce(sum(abs(p.amount)), 0) FROM "
            "posting p JOIN entry e USING (entry) WHERE e.voids IS NULL AND NOT EXISTS (SELECT 1 FROM "
            "entry v WHERE v.voids = e.entry AND v.day = e.day))",
            {}))
      findings.add("accounts: the sum of what was turned over is not what the entries say");
    health.trial_balance = trial_balance(book);
  } catch (const Refusal& refusal) {
    findings.add(std::string("accounts: the trial balance cannot be made: ") + refusal.what());
  }
  if (!is_zero(health.trial_balance)) findings.add("accounts: the trial balance is not zero");
}

void check_attachments(const Book& book, Health& health, Findings& findings) {
  each<std::string, EntryId>(
      book, "SELECT DISTINCT sha256, min(entry) FROM attachment GROUP BY sha256", {},
      [&](const std::string& hash, EntryId entry) {
        const auto path = book.attachments() / hash;
        ++health.attachments;
        try {
          if (sha256_of_file(path) != hash)
            findings.add(fmt::format("entry {}: its attachment {} was changed", entry, path.string()));
        } catch (const std::runtime_error&) {
          findings.add(fmt::format("entry {}: its attachment {} cannot be read", entry, path.string()));
        }
      });
}

// What a killed process, or somebody else, left beside the book; and who else may write to it.
void note_neighbours(const Book& book, Health& health) {
  std::set<std::string> named;
  each<std::string>(book, "SELECT DISTINCT sha256 FROM attachment", {},
                    [&](const std::string& hash) { named.insert(hash); });
  std::error_code error;
  for (const auto& each : std::filesystem::directory_iterator(book.attachments(), error))
    if (!named.contains(each.path().filename().string()))
      health.notes.push_back(each.path().string() + ": no entry names this file");
  const std::string name = book.path().filename().string();
  const auto folder = book.path().has_parent_path() ? book.path().parent_path() : std::filesystem::path(".");
  for (const auto& each : std::filesystem::directory_iterator(folder, error)) {
    const std::string other = each.path().filename().string();
    if (other == name + ".arriving" || other.find(".arriving-") != std::string::npos)
      health.notes.push_back(each.path().string() +
                             ": left by a process that was stopped while it made a copy; take it away");
  }
  for (const auto& path : {book.path(), folder}) {
    struct stat about {};
    if (::stat(path.c_str(), &about) == 0 && (about.st_mode & 0022) != 0 && (about.st_mode & S_ISVTX) == 0)
      health.notes.push_back(path.string() + ": others than its owner may write to it");
  }
}

void check_headings(const Book& book, Findings& findings) {
  each<std::string, std::string, std::string>(
      book, "SELECT vehicle, what, heading FROM assigned ORDER BY vehicle, what", {},
      [&](const std::string& tag, const std::string& what, const std::string& heading) {
        if (heading.empty() || unseen(heading) || unseen(what))
          findings.add(fmt::format("heading of {} of {}: \"{}\" {}; to be mended",
                                   cut_to(printable(what), 60), tag, cut_to(printable(heading), 60),
                                   heading.empty() ? "says nothing" : "holds what nobody sees"));
      });
}

// Every event and every balance read by the code that shows it.
void check_readable(const Book& book, Findings& findings) {
  each<EntryId, std::string>(
      book, "SELECT entry, event FROM entry ORDER BY entry", {},
      [&](EntryId entry, const std::string& event) {
        try {
          if (const auto at = broken_utf8(event))
            throw Refusal(fmt::format("byte {} of its event is not UTF-8", *at + 1));
          words_for(event);
        } catch (const Refusal& refusal) {
          findings.add(fmt::format("entry {}: cannot be shown: {}; to be mended", entry, refusal.what()));
        }
      });
  rows(book, "SELECT a.kind, a.name, b.amount, b.quantity FROM balance b JOIN account a USING (account)", {},
       [&](const Row& row) {
         if (unseen(row.text(1)))
           findings.add(fmt::format("account {} \"{}\": its name holds what nobody sees; to be mended",
                                    row.text(0), cut_to(printable(row.text(1)), 60)));
         try {
           row.as<Money>(2);
           row.as<Quantity>(3);
         } catch (const Refusal& refusal) {
           findings.add(fmt::format("account {} {}: cannot be shown: {}; to be mended", row.text(0),
                                    cut_to(row.text(1), 60), refusal.what()));
         }
       });
  for (const std::string& tag : all_tags(book)) {
    try {
      figures_of(book, tag, Day(2200, 12, 31));
    } catch (const Refusal& refusal) {
      findings.add(fmt::format("{}: cannot be shown: {}; to be mended", tag, refusal.what()));
    }
  }
  check_headings(book, findings);
  for (const KeptComparable& each : all_comparables(book))
    for (const std::string& text : {each.model, each.note})
      if (unseen(text, Lines::many))
        findings.add(
            fmt::format("comparable {}: \"{}\" holds what nobody sees, or is no UTF-8 text; to be mended",
                        each.id, cut_to(printable(text), 60)));
  std::map<std::string, std::string> set;
  try {
    set = settings(book);
  } catch (
      const Refusal& refusal) {  // the day up to which the book is closed is the one that is read for them
    findings.add(std::string("setting closed: ") + refusal.what());
  }
  for (const auto& [name, value] : set) {
    try {
      expect_setting(book, name, value);
    } catch (const Refusal& refusal) {
      findings.add(std::string("setting ") + refusal.what());
    }
  }
}

// Asks `tick` also within one long statement, such as the look at every page: an interruption that it throws ends
// the statement and is thrown on.
class Listening {
 public:
  Listening(const Book& book, const std::function<void(EntryId, EntryId)>& tick)
      : handle_(book.database().getHandle()), tick_(tick) {
    try {
      last_ = last_entry(book);
    } catch (const SQLite::Exception&) {  // a damaged file: told of below
    }
    constexpr int steps = 100'000;  // some milliseconds
    if (tick_) sqlite3_progress_handler(handle_, steps, ask, this);
  }
  ~Listening() { sqlite3_progress_handler(handle_, 0, nullptr, nullptr); }
  Listening(const Listening&) = delete;
  Listening& operator=(const Listening&) = delete;
  void throw_on() const {
    if (thrown_) std::rethrow_exception(thrown_);
  }

 private:
  static int ask(void* data) {
    auto& self = *static_cast<Listening*>(data);
    try {
      self.tick_(0, self.last_);
      return 0;
    } catch (...) {
      self.thrown_ = std::current_exception();
      return 1;
    }
  }
  sqlite3* handle_;
  const std::function<void(EntryId, EntryId)>& tick_;
  EntryId last_ = 0;
  std::exception_ptr thrown_;
};

}  // namespace

Health check(const Book& book, const std::function<void(EntryId, EntryId)>& tick) {
  Health health;
  Findings findings(health);
  const Listening listening(book, tick);
  try {
    check_file(book, findings);
    check_layout(book, findings);
    check_chain(book, health, findings, tick);
    for (const std::string& finding : desk_findings(book)) findings.add(finding);
    check_accounts(book, health, findings);
    check_readable(book, findings);
    check_attachments(book, health, findings);
    note_neighbours(book, health);
  } catch (const SQLite::Exception& error) {
    listening.throw_on();
    // The machine failed, and nothing is said about the book by that.
    for (const int machine :
         {SQLITE_IOERR, SQLITE_NOMEM, SQLITE_BUSY, SQLITE_CANTOPEN, SQLITE_FULL, SQLITE_INTERRUPT})
      if ((error.getErrorCode() & 0xff) == machine) throw;
    findings.add(std::string("file: cannot be read to its end: ") + error.what());
  }
  return health;
}

}  // namespace nonrunner::book
