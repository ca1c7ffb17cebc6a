#include "book/care/mend.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <array>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <map>

#include "book/care/arriving.h"
#include "book/care/backup.h"
#include "book/care/check.h"
#include "book/care/damage.h"
#include "book/care/export.h"
#include "book/care/layout.h"
#include "book/care/left_pages.h"
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
#include "exact/hint.h"
#include "text/unicode.h"

namespace nonrunner::book {

namespace fs = std::filesystem;

namespace {

// As text, without what nobody sees. A name is one line: in it tabs and line ends become blanks.
std::string seen(const std::string& text, Lines lines = Lines::one) {
  const std::string whole = made_utf8(text);
  std::string out;
  for (std::size_t at = 0; at < whole.size();) {
    const std::size_t from = at;
    next_character(whole, at);
    const std::string character = whole.substr(from, at - from);
    if (!unseen(character, lines))
      out += character;
    else if (!unseen(character, Lines::many))
      out += " ";
  }
  return out;
}

// What somebody wrote in their own words may have lines; all else are names.
bool may_have_lines(const std::string& key) { return key == "text" || key == "why" || key == "value"; }

// Every text of it made readable; returns whether any was not.
bool make_readable(Value& value, Lines lines = Lines::one) {
  bool changed = false;
  if (value.kind == Value::Kind::text) {
    std::string text = seen(value.text, lines);
    changed = text != value.text;
    value.text = std::move(text);
  }
  for (Value& item : value.items) changed = make_readable(item, lines) || changed;
  for (auto& [key, item] : value.entries) {
    const std::string name = seen(key);
    changed = changed || name != key;
    key = name;
    changed = make_readable(item, may_have_lines(key) ? Lines::many : Lines::one) || changed;
  }
  return changed;
}

Value* find(Value& table, std::string_view key) {
  for (auto& [name, value] : table.entries)
    if (name == key) return &value;
  return nullptr;
}

// Whether the entry is as it was sealed. What cannot be read is told of when it is taken.
bool seal_fits(const Book& book, EntryId id) {
  const auto seals = first<std::string, std::string>(
      book, "SELECT previous, hash FROM entry WHERE entry = :entry", {{":entry", id}});
  if (!seals) return true;
  const auto& [previous, stored] = *seals;
  Hash before{};
  if (previous.size() == before.size()) std::memcpy(before.data(), previous.data(), before.size());
  try {
    const Hash anew = sealed(load_entry(book, id), before);
    return stored.size() == anew.size() && std::memcmp(stored.data(), anew.data(), anew.size()) == 0;
  } catch (const Refusal&) {
    return true;
  }
}

std::string pragma_text(SQLite::Database& database, const char* name) {
  return database.execAndGet(fmt::format("PRAGMA {}", name)).getString();
}

// Byte by byte, with empty pages for those that are missing at its end: what is no whole database can be read page by
// page.
// What was found stands in the changes.
void copy_what_is_left(const fs::path& from, const fs::path& to, std::vector<std::string>& changes) {
  std::error_code error;
  fs::copy_file(from, to, fs::copy_options::overwrite_existing, error);
  if (error) throw MachineFailure(from.string() + ": cannot be read: " + error.message());
  if (fs::exists(from.string() + "-wal"))
    fs::copy_file(from.string() + "-wal", to.string() + "-wal", fs::copy_options::overwrite_existing, error);
  std::ifstream in(from, std::ios::binary);
  std::array<unsigned char, 32> head{};
  in.read(reinterpret_cast<char*>(head.data()), head.size());  // NOLINT: bytes are bytes
  const auto byte = [&](std::size_t at) { return static_cast<std::uintmax_t>(head[at]); };
  const std::uintmax_t written = byte(16) * 256 + byte(17), size = written == 1 ? 65'536 : written;
  const std::uintmax_t pages = ((byte(28) * 256 + byte(29)) * 256 + byte(30)) * 256 + byte(31);
  const std::uintmax_t there = fs::file_size(from);
  constexpr std::uintmax_t most = 1ULL << 40U;
  if (!is_book(from) || size < 512 || size * pages > most)
    throw MachineFailure(fmt::format(
        "{}: the file is no book, or what is left of one: {} bytes are there, of which nothing can be read; "
        "nothing was written; bring back the last backup or export",
        from.string(), there));
  if (there < size * pages) {
    changes.push_back(
        fmt::format("the file ends after {} of {} bytes: what lay behind is gone", there, size * pages));
    fs::resize_file(to, size * pages);
  } else {
    changes.push_back("the file is damaged: what cannot be read of it is left out");
  }
}

// A copy to read from: of today's layout, without triggers, views and tables that are not ours.
// Returns whether it is damaged.
bool copy_to_read(const fs::path& from, const fs::path& to, std::vector<std::string>& changes) {
  bool damaged = false;
  try {
    SQLite::Database whole(sqlite_name(to), SQLite::OPEN_READWRITE);
    copy_pages(*open_to_read(from, Book::usual_patience), whole);
    damaged =
        pragma_text(whole, "quick_check(1)").starts_with("*** in database");  // else a promise is broken
    if (damaged) changes.push_back("the file is damaged: what cannot be read of it is left out");
  } catch (const SQLite::Exception& error) {
    if (!is_damage(error)) throw;
    copy_what_is_left(from, to, changes);
    damaged = true;
  }
  SQLite::Database copy(sqlite_name(to), SQLite::OPEN_READWRITE);
  copy.execAndGet("PRAGMA journal_mode = DELETE");
  const auto layout = static_cast<std::size_t>(std::atoi(pragma_text(copy, "user_version").c_str()));
  if (layout > migrations().size()) return damaged;  // opening says so
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
  return damaged;
}

// A book at `to` that holds the entries and settings that were found page by page, as the one they come from had them.
// Returns whether there were any.
bool copy_rows_left(const fs::path& from, const fs::path& to, std::vector<std::string>& changes) {
  const LeftRows left = rows_left(from);
  if (left.entries.empty()) return false;
  const auto setting = [&](const char* name, const char* usual) {
    const auto found = left.settings.find(name);
    if (found != left.settings.end()) return found->second;
    changes.push_back(fmt::format("{}: could not be read; it is taken to be {}", name, usual));
    return std::string(usual);
  };
  const Currency currency = Currency::of(setting("currency", "USD"));
  const std::string distance = setting("distance", "mi");
  fs::resize_file(to, 0);
  fs::remove(to.string() + "-wal");
  Book::lay_out(to, currency, distance == "km" ? distance : "mi");
  SQLite::Database copy(sqlite_name(to), SQLite::OPEN_READWRITE);
  // It is read from and goes again: what was in a book need not be proved anew here.
  std::vector<std::string> triggers;
  SQLite::Statement names(copy, "SELECT name FROM sqlite_schema WHERE type = 'trigger'");
  while (names.executeStep()) triggers.push_back(names.getColumn(0).getString());
  names.reset();
  for (const std::string& name : triggers) copy.exec("DROP TRIGGER " + name);
  copy.exec("PRAGMA foreign_keys = OFF; BEGIN");
  SQLite::Statement entry(copy, "INSERT OR IGNORE INTO entry VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
  for (const auto& [id, each] : left.entries) {
    entry.bind(1, id);
    entry.bind(2, each.day);
    entry.bind(3, each.kind);
    entry.bind(4, each.money ? 1 : 0);
    entry.bind(5, each.event);
    if (each.voids)
      entry.bind(6, *each.voids);
    else
      entry.bind(6);
    entry.bind(7, each.recorded);
    entry.bind(8, each.previous.data(), static_cast<int>(each.previous.size()));
    entry.bind(9, each.hash.data(), static_cast<int>(each.hash.size()));
    entry.exec();
    entry.reset();
  }
  SQLite::Statement kept(copy, "INSERT OR IGNORE INTO setting VALUES (?, ?)");
  for (const auto& [name, value] : left.settings) {
    kept.bind(1, name);
    kept.bind(2, value);
    kept.exec();
    kept.reset();
  }
  copy.exec("COMMIT");
  changes.emplace_back(
      "how its tables are laid out is gone: entries and settings were found page by page; comparables, kept "
      "appraisals and headings were not");
  return true;
}

class Mending {
 public:
  Mending(const Book& old, Recording& recording, const fs::path& files, Mended& mended)
      : old_(old), recording_(recording), files_(files), mended_(mended) {}
  // What cannot be read is left out and told, instead of ending it.
  void of_a_damaged_file() { damaged_ = true; }

  void entries(const std::function<void(std::size_t, std::size_t)>& tick) {
    if (damaged_) return entries_left();
    const EntryId last = last_entry(old_);
    mended_.of = last;
    each_event(old_, [&](EntryId entry, const std::string& event) {
      if (tick) tick(static_cast<std::size_t>(entry), static_cast<std::size_t>(last));
      one(entry, event);
    });
  }

  void desk() {
    part("settings", [&] { settings_of_old(); });
    part("comparables", [&] { comparables(); });
    part("appraisals", [&] {
      for (const std::string& tag : all_tags(old_)) appraisals(tag);
    });
    part("headings", [&] { headings(); });
    part("names of files taken in", [&] { taken_in(); });
  }

 private:
  void entries_left() {
    each_event_left(
        old_,
        [&](EntryId entry, const std::string& event) {
          mended_.of = entry;
          one(entry, event);
        },
        [&](EntryId from, EntryId to) {
          mended_.changes.push_back(to == 0 ? fmt::format("entries from {} on: could not be read", from)
                                    : to == from
                                        ? fmt::format("entry {}: could not be read", from)
                                        : fmt::format("entries {} to {}: could not be read", from, to));
          mended_.of = std::max(mended_.of, to);
        });
  }

  // What is read of the old book; where the file is damaged, as far as it goes.
  template <class Read>
  void part(const char* what, Read read) {
    try {
      read();
    } catch (const SQLite::Exception& error) {
      if (!damaged_ || !is_damage(error)) throw;
      mended_.changes.push_back(std::string(what) + ": could not all be read");
    }
  }

  void settings_of_old() {
    for (const auto& each : settings(old_)) {
      const std::string name = seen(each.first), value = seen(each.second);
      const bool there = name == "closed" && closed_until(recording_.book()) == closed_until(old_);
      if (name != "currency" && name != "distance" && !there)
        attempt("setting " + name, [&] { set(recording_, name, value); });
    }
  }

  void comparables() {
    for (const KeptComparable& each : all_comparables(old_))
      attempt(fmt::format("comparable {}", each.id), [&] {
        KeptComparable kept = each;
        kept.model = seen(each.model);
        kept.note = seen(each.note, Lines::many);
        if (kept.model != each.model || kept.note != each.note)
          mended_.changes.push_back(
              fmt::format("comparable {}: what was not text, or could not be seen, was left out", each.id));
        keep_comparable(recording_, kept);
      });
  }

  void taken_in() {
    each<std::string, std::string, std::string>(
        old_, "SELECT sha256, name, day FROM taken_in", {},
        [&](const std::string& hash, const std::string& name, const std::string& day) {
          change(recording_.book(), "INSERT OR IGNORE INTO taken_in VALUES (:hash, :name, :day)",
                 {{":hash", seen(hash)}, {":name", seen(name)}, {":day", seen(day)}});
          note_desk(recording_, "file " + seen(hash));
        });
  }

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

  // What an older version did not write. Where the sale cannot be read, what takes it back is left out as well.
  std::string besides(EntryId taken_back) const {
    try {
      return said_besides(old_, taken_back);
    } catch (const SQLite::Exception& error) {
      if (!damaged_ || !is_damage(error)) throw;
      return "";
    }
  }

  void one(EntryId entry, const std::string& event) {
    const std::string name = fmt::format("entry {}", entry);
    attempt(name, [&] {
      std::string whole = event;
      if (whole.starts_with("{ do = \"void\"") && whole.ends_with(" }"))
        whole.insert(whole.size() - 2, besides(entry));
      Value value = kept_event(whole);
      Value& said = *find(value, "e");
      const bool changed = make_readable(said) || made_utf8(event) != event;
      renumber(said);
      if (Value* file = find(said, "file")) file->text = fs::path(file->text).filename().string();
      const EntryId made = record_event(recording_, Table(said, name, "the event"), files_, {});
      new_number_[entry] = made;
      if (!damaged_ && !seal_fits(old_, entry))
        mended_.changes.push_back(
            name + ": was changed behind the program's back; it is taken as its event says now: look at it");
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
  bool damaged_ = false;
};

}  // namespace

Mended mend(const fs::path& from, const fs::path& to, const std::string& now, Day today,
            const std::function<void(std::size_t, std::size_t)>& tick) {
  Mended mended;
  Arriving arriving(to);
  // Never arrives: it goes with the end of this.
  const Arriving read_from(to.string() + ".old");
  const auto too_little = [&] {
    return MachineFailure(from.string() + ": too little of the file is left to read an entry of it" +
                          (mended.changes.empty() ? "" : ": " + mended.changes.front()) +
                          "; nothing was written; bring back the last backup or export");
  };
  bool damaged = false, by_pages = false;
  const auto page_by_page = [&] {
    damaged = by_pages = true;
    if (!copy_rows_left(from, read_from.path(), mended.changes)) throw too_little();
  };
  try {
    damaged = copy_to_read(from, read_from.path(), mended.changes);
  } catch (const SQLite::Exception& error) {
    if (!is_damage(error)) throw;
    page_by_page();
  }
  const Book old = [&] {
    try {
      return Book::open_copy(read_from.path());
    } catch (const MachineFailure&) {
      if (!damaged || by_pages) throw;
      page_by_page();
      return Book::open_copy(read_from.path());
    } catch (const Refusal& refusal) {  // what was read is named, not the copy
      std::string what = refusal.what();
      const std::string copy = read_from.path().string();
      if (const auto at = what.find(copy); at != std::string::npos)
        what.replace(at, copy.size(), from.string());
      refuse_as(what, refusal);
    }
  }();
  Book::lay_out(arriving.path(), old.currency(), old.distance_unit());
  {
    Book book = Book::open_copy(arriving.path());
    Recording recording(book, now, today);
    const fs::path files = from.string() + ".files";
    Mending mending(old, recording, files, mended);
    if (damaged) mending.of_a_damaged_file();
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
