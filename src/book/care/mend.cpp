#include "book/care/mend.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <cstdlib>
#include <map>

#include "book/care/arriving.h"
#include "book/care/backup.h"
#include "book/care/check.h"
#include "book/care/export.h"
#include "book/care/layout.h"
#include "book/events/appraisals.h"
#include "book/events/assigned.h"
#include "book/events/comparables.h"
#include "book/events/post.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/migrations.h"
#include "book/ledger/names.h"
#include "book/ledger/query.h"
#include "book/ledger/settings.h"
#include "exact/ends.h"
#include "text/unicode.h"

namespace nonrunner::book {

namespace fs = std::filesystem;

namespace {

// As text, without what nobody sees, tabs and line ends apart.
std::string seen(const std::string& text) {
  const std::string whole = made_utf8(text);
  std::string out;
  for (std::size_t at = 0; at < whole.size();) {
    const std::size_t from = at;
    next_character(whole, at);
    const std::string character = whole.substr(from, at - from);
    if (!unseen(character, Lines::many)) out += character;
  }
  return out;
}

// Every text of it made readable; returns whether any was not.
bool make_readable(Value& value) {
  bool changed = false;
  if (value.kind == Value::Kind::text) {
    std::string text = seen(value.text);
    changed = text != value.text;
    value.text = std::move(text);
  }
  for (Value& item : value.items) changed = make_readable(item) || changed;
  for (auto& [key, item] : value.entries) {
    const std::string name = seen(key);
    changed = changed || name != key;
    key = name;
    changed = make_readable(item) || changed;
  }
  return changed;
}

Value* find(Value& table, std::string_view key) {
  for (auto& [name, value] : table.entries)
    if (name == key) return &value;
  return nullptr;
}

std::string pragma_text(SQLite::Database& database, const char* name) {
  return database.execAndGet(fmt::format("PRAGMA {}", name)).getString();
}

// A copy to read from: of today's layout, without triggers, views and tables that are not ours.
void copy_to_read(const fs::path& from, const fs::path& to, std::vector<std::string>& changes) {
  SQLite::Database copy(sqlite_name(to), SQLite::OPEN_READWRITE);
  copy_pages(*open_to_read(from, Book::usual_patience), copy);
  copy.execAndGet("PRAGMA journal_mode = DELETE");
  const auto layout = static_cast<std::size_t>(std::atoi(pragma_text(copy, "user_version").c_str()));
  if (layout > migrations().size()) return;  // opening says so
  for (const std::string& finding : foreign_layout(copy, layout)) changes.push_back("layout: " + finding);
  const auto own = own_objects(layout);
  std::vector<std::pair<std::string, std::string>> foreign;
  SQLite::Statement rows(copy, "SELECT type, name FROM sqlite_schema");
  while (rows.executeStep()) {
    std::pair<std::string, std::string> object{rows.getColumn(0).getString(), rows.getColumn(1).getString()};
    if (!own.contains(object)) foreign.push_back(std::move(object));
  }
  rows.reset();
  copy.exec("PRAGMA writable_schema = ON");
  for (const auto& [type, name] : foreign) {
    SQLite::Statement drop(copy, "DELETE FROM sqlite_schema WHERE type = ? AND name = ?");
    drop.bind(1, type);
    drop.bind(2, name);
    drop.exec();
  }
  copy.exec("PRAGMA writable_schema = RESET");
}

class Mending {
 public:
  Mending(const Book& old, Recording& recording, const fs::path& files, Mended& mended)
      : old_(old), recording_(recording), files_(files), mended_(mended) {}

  void entries(const std::function<void(std::size_t, std::size_t)>& tick) {
    const EntryId last = last_entry(old_);
    mended_.of = last;
    each_event(old_, [&](EntryId entry, const std::string& event) {
      if (tick) tick(static_cast<std::size_t>(entry), static_cast<std::size_t>(last));
      one(entry, event);
    });
  }

  void desk() {
    for (const auto& each : settings(old_)) {
      const std::string name = seen(each.first), value = seen(each.second);
      const bool there = name == "closed" && closed_until(recording_.book()) == closed_until(old_);
      if (name != "currency" && name != "distance" && !there)
        attempt("setting " + name, [&] { set(recording_, name, value); });
    }
    for (const KeptComparable& each : all_comparables(old_))
      attempt(fmt::format("comparable {}", each.id), [&] {
        KeptComparable kept = each;
        kept.model = seen(each.model);
        kept.note = seen(each.note);
        keep_comparable(recording_, kept);
      });
    for (const std::string& tag : all_tags(old_)) appraisals(tag);
    headings();
    each<std::string, std::string, std::string>(
        old_, "SELECT sha256, name, day FROM taken_in", {},
        [&](const std::string& hash, const std::string& name, const std::string& day) {
          change(recording_.book(), "INSERT OR IGNORE INTO taken_in VALUES (:hash, :name, :day)",
                 {{":hash", seen(hash)}, {":name", seen(name)}, {":day", seen(day)}});
          note_desk(recording_, "file " + seen(hash));
        });
  }

 private:
  // Does it, or takes back what of it was done and says why.
  template <class Action>
  bool attempt(const std::string& what, Action action) {
    SQLite::Database& database = recording_.book().database();
    database.exec("SAVEPOINT one");
    try {
      action();
      database.exec("RELEASE one");
      return true;
    } catch (const Refusal& refusal) {
      back(what, refusal.what());
    } catch (const SQLite::Exception& error) {
      if ((error.getErrorCode() & 0xff) != SQLITE_CONSTRAINT) throw;
      back(what, error.what());
    }
    return false;
  }

  void back(const std::string& what, const char* why) {
    recording_.book().database().exec("ROLLBACK TO one; RELEASE one");
    recording_.accounts.clear();
    recording_.vehicles.clear();
    recording_.notes_named = false;
    recording_.hold = false;
    recording_.held.clear();
    std::string reason = printable(why);
    if (reason.starts_with(what + ":"))
      reason.erase(0, reason.find(": ", what.size()) + 2);  // its place in the event
    mended_.changes.push_back(fmt::format("{}: left out: {}", what, reason));
  }

  void one(EntryId entry, const std::string& event) {
    const std::string name = fmt::format("entry {}", entry);
    attempt(name, [&] {
      Value value = kept_event(event);
      Value& said = *find(value, "e");
      const bool changed = make_readable(said) || made_utf8(event) != event;
      renumber(said);
      if (Value* file = find(said, "file")) file->text = fs::path(file->text).filename().string();
      const EntryId made = record_event(recording_, Table(said, name, "the event"), files_, {});
      new_number_[entry] = made;
      if (changed)
        mended_.changes.push_back(name + ": what was not text, or could not be seen, was replaced");
    });
  }

  // Entries are named by their number, which is another one where one before was left out.
  void renumber(Value& said) const {
    // Where what it put right is not there, it stands under its own day.
    if (const Value* corrected = find(said, "corrects");
        corrected && !new_number_.contains(std::atoll(corrected->text.c_str())))
      std::erase_if(said.entries, [](const auto& each) { return each.first == "corrects"; });
    for (const char* key : {"entry", "replaces", "corrects"})
      if (Value* number = find(said, key); number && number->kind == Value::Kind::whole) {
        const auto found = new_number_.find(std::atoll(number->text.c_str()));
        if (found == new_number_.end())
          throw Refusal(fmt::format("it names entry {}, which is not there", number->text));
        number->text = std::to_string(found->second);
        number->real = static_cast<double>(found->second);
      }
  }

  void appraisals(const std::string& tag) {
    for (const KeptAppraisal& each : appraisals_of(old_, tag)) {
      EntryId bought = 0;
      if (each.bought_by != 0) {
        const auto found = new_number_.find(each.bought_by);
        if (found == new_number_.end()) {
          mended_.changes.push_back(
              fmt::format("appraisal of {} of {}: kept, but not as that of a purchase: entry {} is not there",
                          tag, each.day.iso(), each.bought_by));
        } else {
          bought = found->second;
        }
      }
      attempt(fmt::format("appraisal of {} of {}", tag, each.day.iso()), [&] {
        keep_appraisal(recording_, tag, each.day, bought,
                       {made_utf8(each.job), made_utf8(each.settled.value_or("")), made_utf8(each.figures)});
      });
    }
  }

  void headings() {
    each<std::string, std::string, std::string>(
        old_, "SELECT vehicle, what, heading FROM assigned", {},
        [&](const std::string& vehicle, const std::string& what, const std::string& heading) {
          const auto blank = what.find(' ');
          const std::string kind = what.substr(0, blank), name = what.substr(blank + 1);
          attempt("heading of " + seen(what), [&] {
            Assign assigned;
            assigned.vehicle = vehicle;
            assigned.heading = seen(heading);
            if (kind == "line") assigned.line = seen(name);
            if (kind == "operation") assigned.operation = seen(name);
            if (kind == "entry") {
              const auto found = new_number_.find(std::atoll(name.c_str()));
              if (found == new_number_.end()) throw Refusal("entry " + name + " is not there");
              assigned.entry = found->second;
            }
            assign(recording_, assigned);
          });
        });
  }

  const Book& old_;
  Recording& recording_;
  const fs::path& files_;
  Mended& mended_;
  std::map<EntryId, EntryId> new_number_;
};

}  // namespace

Mended mend(const fs::path& from, const fs::path& to, const std::string& now, Day today,
            const std::function<void(std::size_t, std::size_t)>& tick) {
  Mended mended;
  Arriving arriving(to);
  // Never arrives: it goes with the end of this.
  const Arriving read_from(to.string() + ".old");
  copy_to_read(from, read_from.path(), mended.changes);
  const Book old = Book::open_copy(read_from.path());
  Book::lay_out(arriving.path(), old.currency(), old.distance_unit());
  {
    Book book = Book::open_copy(arriving.path());
    Recording recording(book, now, today);
    const fs::path files = from.string() + ".files";
    Mending mending(old, recording, files, mended);
    mending.entries(tick);
    mending.desk();
    recording.keep();
    mended.entries = last_entry(book);
    const Health health = check(book);
    if (!health.sound)
      throw MachineFailure(from.string() + ": the book that was made of it is not sound: " +
                           health.findings.front() + "; nothing was kept");
  }
  arriving.arrive();
  return mended;
}

}  // namespace nonrunner::book
