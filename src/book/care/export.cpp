#include "book/care/export.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdlib.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <fstream>
#include <map>
#include <memory>
#include <system_error>

#include "book/care/arriving.h"
#include "book/care/check.h"
#include "book/care/compared.h"
#include "book/care/damage.h"
#include "book/care/heads.h"
#include "book/care/read_back.h"
#include "book/events/appraisals.h"
#include "book/events/assigned.h"
#include "book/events/attach.h"
#include "book/events/named.h"
#include "book/ledger/query.h"
#include "book/ledger/settings.h"
#include "book/questions/board.h"
#include "book/questions/figures.h"
#include "exact/hint.h"
#include "text/csv.h"
#include "text/json.h"
#include "text/made_value.h"
#include "text/toml.h"
#include "text/unicode.h"

namespace nonrunner::book {

namespace fs = std::filesystem;

namespace {

// Whether the event of a receipt says that it takes the place of `entry`.
bool replaces(const std::string& event, EntryId entry) {
  if (event.find("replaces = ") == std::string::npos) return false;
  const Value value = kept_event(event);
  const Value* replaced = value.find("e")->find("replaces");
  return replaced && replaced->text == std::to_string(entry);
}

// The number that an entry has in a file of events: without those that follow by themselves.
EntryId number_in_file(EntryId entry, const std::vector<EntryId>& averages) {
  return entry - (std::lower_bound(averages.begin(), averages.end(), entry) - averages.begin());
}

}  // namespace

std::string said_besides(const Book& book, EntryId taken_back) {
  const auto events = first<std::string, std::string>(
      book,
      "SELECT v.event, o.event FROM entry v JOIN entry o ON o.entry = v.voids WHERE v.entry = :entry AND "
      "o.kind = 'sell' AND v.day > o.day",
      {{":entry", taken_back}});
  if (!events) return "";
  const auto& [taken, sale] = *events;
  const Value kept = kept_event(taken);
  // Today's layout always writes what stays.
  if (kept.find("e")->find("stays") != nullptr) return "";
  std::string more;
  if (kept.find("e")->find("later") == nullptr) more += ", later = true";
  if (kept_event(sale).find("e")->find("costs") != nullptr) more += ", stays = []";
  return more;
}

std::vector<EntryId> averages_of(const Book& book) {
  std::vector<EntryId> all;
  each<EntryId>(book, "SELECT entry FROM entry WHERE kind = 'average' ORDER BY entry", {},
                [&](EntryId entry) { all.push_back(entry); });
  return all;
}

void renumber(std::string& event, const std::vector<EntryId>& averages) {
  if (averages.empty()) return;
  const bool takes_back = event.starts_with("{ do = \"void\"") || event.starts_with("{ do = \"attach\"");
  const bool paper = event.starts_with("{ do = \"receipt\"");
  for (const char* key : {"entry", "replaces", "corrects"}) {
    const std::string name = key, before = ", " + name + " = ";
    if (name == "entry" ? !takes_back : name == "replaces" && !paper) continue;
    if (event.find(before) == std::string::npos) continue;
    const auto named_in = [&](const std::string& text) {
      const Value value = kept_event(text);
      const Value* named = value.find("e")->find(key);
      return named ? named->text : std::string();
    };
    const std::string old = named_in(event);
    if (old.empty()) continue;
    const std::string number = std::to_string(number_in_file(std::stoll(old), averages));
    if (number == old) continue;
    // Words may look like it: the place is where another number is another one of the event.
    for (auto at = event.find(before + old); at != std::string::npos; at = event.find(before + old, at + 1)) {
      std::string other = event;
      other.replace(at, before.size() + old.size(), before + number);
      if (named_in(other) != number) continue;
      event = std::move(other);
      break;
    }
  }
}

void each_event(const Book& book, const std::function<void(EntryId, const std::string&)>& take) {
  // A receipt that replaces another one was recorded as two entries, the reversal first; the event is the receipt
  // alone.
  each<EntryId, std::string, EntryId, std::string>(
      book,
      "SELECT e.entry, e.event, coalesce(e.voids, 0), coalesce((SELECT r.event FROM entry r WHERE r.entry = "
      "e.entry + 1 AND e.kind = 'void' AND r.kind = 'receipt'), '') FROM entry e WHERE e.kind <> 'average' "
      "ORDER BY e.entry",
      {}, [&](EntryId entry, const std::string& event, EntryId voids, const std::string& next) {
        if (!replaces(next, voids)) take(entry, event);
      });
}

namespace {

struct Left {
  bool there = false;
  std::string kind, event;
  EntryId voids = 0;
};
// Absent: it cannot be read.
std::optional<Left> left_of(const Book& book, EntryId entry) {
  try {
    Left left;
    left.there =
        row(book, "SELECT kind, event, coalesce(voids, 0) FROM entry WHERE entry = :entry",
            {{":entry", entry}}, [&](const Row& row) { row.into(left.kind, left.event, left.voids); });
    return left;
  } catch (const SQLite::Exception& error) {
    if (!is_damage(error)) throw;
    return std::nullopt;
  }
}

// Whether an entry with a higher number can be read.
bool goes_on_after(const Book& book, EntryId entry) {
  try {
    return first<EntryId>(book, "SELECT coalesce(min(entry), 0) FROM entry WHERE entry > :entry",
                          {{":entry", entry}})
               .value_or(0) > 0;
  } catch (const SQLite::Exception& error) {
    if (!is_damage(error)) throw;
    return false;
  }
}

}  // namespace

void each_event_left(const Book& book, const std::function<void(EntryId, const std::string& event)>& take,
                     const std::function<void(EntryId, EntryId)>& lost) {
  constexpr EntryId most_in_a_row = 10'000;  // what lies behind so many is gone with them
  EntryId lost_from = 0, entry = 1;
  auto here = left_of(book, entry);
  if (here && !here->there && goes_on_after(book, entry)) here.reset();
  for (; (!here || here->there) && (lost_from == 0 || entry - lost_from < most_in_a_row);) {
    auto next = left_of(book, entry + 1);
    if (next && !next->there && goes_on_after(book, entry + 1)) next.reset();
    if (!here) {
      if (lost_from == 0) lost_from = entry;
    } else {
      if (lost_from != 0) lost(std::exchange(lost_from, 0), entry - 1);
      const bool replaced =
          here->kind == "void" && next && next->kind == "receipt" && replaces(next->event, here->voids);
      if (here->kind != "average" && !replaced) take(entry, here->event);
    }
    here = std::move(next);
    ++entry;
  }
  if (lost_from != 0) lost(lost_from, 0);
}

namespace {

// A file that says so where writing it fails.
class Out {
 public:
  explicit Out(fs::path path) : path_(std::move(path)), stream_(path_, std::ios::binary | std::ios::trunc) {}
  void line(const std::string& text) { stream_ << text << "\n"; }
  void text(const std::string& text) { stream_ << text; }
  void close() {
    stream_.close();
    if (!stream_)
      throw MachineFailure(path_.string() + ": could not be written to its end; is the disk full?");
    to_disk(path_);
  }

 private:
  fs::path path_;
  std::ofstream stream_;
};

void make_folder(const fs::path& folder) {
  if (::mkdir(folder.c_str(), 0700) != 0) {
    const int why = errno;
    throw MachineFailure(folder.string() +
                         ": the folder cannot be made: " + std::generic_category().message(why));
  }
}

// The folder beside its place while it is filled; it takes its place when it is whole, and goes where it
// never is.
class Filling {
 public:
  explicit Filling(const fs::path& place) : place_(fs::exists(place) ? fs::canonical(place) : place) {
    if (!place_.has_filename()) place_ = place_.parent_path();
    std::string name =
        (place_.parent_path() / ("." + place_.filename().string() + ".arriving-XXXXXX")).string();
    if (::mkdtemp(name.data()) == nullptr) {
      const int why = errno;
      throw MachineFailure(place.string() +
                           ": the folder cannot be made: " + std::generic_category().message(why));
    }
    path_ = name;
    lock_ = ::open(path_.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    ::flock(lock_, LOCK_EX | LOCK_NB);
    sweep();
  }
  ~Filling() {
    std::error_code ignored;
    if (!arrived_) fs::remove_all(path_, ignored);
    ::close(lock_);
  }
  Filling(const Filling&) = delete;
  Filling& operator=(const Filling&) = delete;
  const fs::path& path() const { return path_; }
  void arrive() {
    folder_to_disk(path_ / "each");
    // An empty folder at the place gives way; one that holds something by now does not.
    if (::rename(path_.c_str(), place_.c_str()) != 0) {
      const int why = errno;
      throw MachineFailure(place_.string() + ": the folder cannot be put there: " +
                           std::generic_category().message(why) + "; nothing was written");
    }
    arrived_ = true;
    folder_to_disk(place_);
  }

 private:
  // What an export to this place left that was killed: nobody holds it any more.
  void sweep() const {
    const std::string beginning = "." + place_.filename().string() + ".arriving-";
    std::error_code error;
    for (const auto& each :
         fs::directory_iterator(place_.has_parent_path() ? place_.parent_path() : fs::path("."), error)) {
      const std::string name = each.path().filename().string();
      if (name.size() != beginning.size() + 6 || !name.starts_with(beginning) || each.is_symlink() ||
          name == path_.filename().string())
        continue;
      const int left = ::open(each.path().c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
      if (left < 0) continue;
      if (::flock(left, LOCK_EX | LOCK_NB) == 0) fs::remove_all(each.path(), error);
      ::close(left);
    }
  }
  fs::path place_, path_;
  int lock_ = -1;
  bool arrived_ = false;
};

// The events, in files of a size that is read at once: events.toml, which names the others in its last line,
// events-0002.toml and so on.
class EventFiles {
 public:
  explicit EventFiles(const fs::path& folder) : folder_(folder), first_(folder / "events.toml") {}
  void head(const std::string& line) { first_.line(line); }
  void event(const std::string& event) {
    constexpr std::size_t most = 1 << 20;
    if (held_ > 0 && held_ + event.size() > most) next();
    held_ += event.size();
    ++events_;
    now().line("  " + event + ",");
  }
  // Closes them all, and reads them back; `tick` hears of each that was read.
  void close(const std::function<void(std::size_t, std::size_t)>& tick) {
    if (more_) {
      more_->line("]");
      more_->close();
    }
    if (names_.empty()) first_.line("]");
    std::string all;
    for (const std::string& name : names_) all += (all.empty() ? "" : ", ") + toml_text(name);
    if (!all.empty()) first_.line("continued_in = [" + all + "]");
    first_.close();
    std::size_t found = count(folder_ / "events.toml");
    for (const std::string& name : names_) {
      if (tick) tick(found, events_);
      found += count(folder_ / name);
    }
    if (found != events_)
      throw MachineFailure(fmt::format("{}: {} events were written and {} read back; nothing is kept",
                                       folder_.string(), events_, found));
  }

 private:
  Out& now() { return more_ ? *more_ : first_; }
  void next() {
    now().line("]");
    if (more_) more_->close();
    names_.push_back(fmt::format("events-{:04}.toml", names_.size() + 2));
    more_ = std::make_unique<Out>(folder_ / names_.back());
    more_->line("event = [");
    held_ = 0;
  }
  static std::size_t count(const fs::path& file) {
    const Value read = parse_toml(read_file(file.string(), any_size), file.filename().string());
    const Value* events = read.find("event");
    return events ? events->items.size() : 0;
  }
  fs::path folder_;
  Out first_;
  std::unique_ptr<Out> more_;
  std::vector<std::string> names_;
  std::size_t held_ = 0, events_ = 0;
};

// An event as it is written; one that an older version kept in bytes that are no text is named.
std::string readable_event(EntryId entry, const std::string& event, Exported& exported) {
  if (broken_utf8(event))
    exported.changes.push_back(fmt::format("entry {}: what is not UTF-8 in it was replaced", entry));
  return made_utf8(event);
}

void write_head(const Book& book, EventFiles& out) {
  out.head("# Every event of the book in its order. Restoring from this folder makes the book again.");
  out.head("currency = " + toml_text(book.currency().code));
  out.head("distance = " + toml_text(book.distance_unit()));
  std::string set;
  for (const auto& [name, value] : settings(book)) {
    if (name == "currency" || name == "distance") continue;
    if (name == "closed") continue;  // an entry, written in its place
    if (name == "tools")  // of what is bought from here on: the events say themselves what theirs were
      out.head("tools_from_here = " + toml_text(value));
    else
      set += (set.empty() ? "" : ", ") + toml_text(name) + " = " + toml_text(value);
  }
  if (const auto closed = book.setting("closed")) out.head("closed = " + *closed);  // by an older version
  if (!set.empty()) out.head("set = { " + set + " }");
  std::string taken_in;
  each<std::string, std::string, Day>(book, "SELECT sha256, name, day FROM taken_in ORDER BY day, sha256", {},
                                      [&](const std::string& hash, const std::string& name, Day day) {
                                        taken_in += fmt::format(
                                            "  {{ sha256 = {}, name = {}, date = {} }},\n", toml_text(hash),
                                            toml_text(made_utf8(name)), day.iso());
                                      });
  if (!taken_in.empty()) out.head("taken_in = [\n" + taken_in + "]");
}

// The job files, written beside the events: that of a purchase is named by its event, any other is an event of its
// own, which stands where it was kept, since of two of one day the later counts.
struct Jobs {
  std::map<EntryId, std::string> of_purchase;
  std::multimap<EntryId, std::string> kept_after;  // by the last entry before it
};

Jobs write_jobs(const Book& book, const fs::path& folder) {
  Jobs jobs;
  rows(
      book,
      "SELECT appraisal, vehicle, day, coalesce(entry, 0), job, settled, after_entry, figures FROM appraisal "
      "ORDER BY appraisal",
      {}, [&](const Row& row) {
        std::int64_t number = 0;
        EntryId entry = 0, after = 0;
        std::string vehicle, text, figures;
        Day day;
        std::optional<std::string> settled;
        row.into(number, vehicle, day, entry, text, settled, after, figures);
        if (!fs::exists(folder / "jobs")) make_folder(folder / "jobs");
        const std::string name = fmt::format("jobs/{}-{}", vehicle, number);
        const auto written = [&](const char* ending, const std::string& content) {
          Out file(folder / (name + ending));
          file.text(content);
          file.close();
          return toml_text(name + ending);
        };
        std::string keys = "job = " + written(".toml", text);
        if (!figures.empty()) keys += ", came_to = " + written(".json", figures);
        if (settled) keys += ", settled = " + toml_text(*settled);
        if (entry != 0)
          jobs.of_purchase[entry] = keys;
        else
          jobs.kept_after.emplace(after < 0 ? last_entry(book) : after,
                                  fmt::format("{{ do = \"appraisal\", date = {}, vehicle = {}, {} }}",
                                              day.iso(), toml_text(vehicle), keys));
      });
  return jobs;
}

// Under which lines of the budget entries and causes were put, after all that they may name.
void write_headings(const Book& book, EventFiles& out, const std::vector<EntryId>& averages) {
  each<std::string, std::string, std::string>(
      book, assigned_in_order, {},
      [&](const std::string& vehicle, const std::string& what, const std::string& heading) {
        const auto blank = what.find(' ');
        const std::string key = what.substr(0, blank), value = what.substr(blank + 1);
        out.event(fmt::format(
            "{{ do = \"under\", vehicle = {}, {} = {}, heading = {} }}", toml_text(vehicle), key,
            key == "entry" ? std::to_string(number_in_file(std::stoll(value), averages)) : toml_text(value),
            toml_text(heading)));
      });
}

void copy_attachments(const Book& book, const fs::path& folder) {
  bool folder_made = false;
  each<std::string>(book, "SELECT DISTINCT sha256 FROM attachment", {}, [&](const std::string& hash) {
    if (!folder_made) make_folder(folder / "attachments");
    folder_made = true;
    if (!is_sha256(hash))
      throw hinted<MachineFailure>(book.path().string() + ": the file is damaged: the attachment \"" +
                                       cut_to(hash, 70) + "\" is not called by its SHA-256",
                                   {Action::look_at_health, {}});
    std::error_code error;
    fs::copy_file(book.attachments() / hash, folder / "attachments" / hash, error);
    if (error)
      throw MachineFailure(fmt::format("{}: the attachment cannot be copied: {}",
                                       (book.attachments() / hash).string(), error.message()));
    to_disk(folder / "attachments" / hash);
  });
}

void write_events(const Book& book, const fs::path& folder, Exported& exported,
                  const std::function<void(std::size_t, std::size_t)>& tick) {
  EventFiles out(folder);
  write_head(book, out);
  Jobs jobs = write_jobs(book, folder);
  out.head("event = [");
  const EntryId last = last_entry(book);
  const std::vector<EntryId> averages = averages_of(book);
  each_event(book, [&](EntryId entry, const std::string& kept) {
    if (tick) tick(static_cast<std::size_t>(entry), static_cast<std::size_t>(last));
    while (!jobs.kept_after.empty() && jobs.kept_after.begin()->first < entry) {
      out.event(jobs.kept_after.begin()->second);
      jobs.kept_after.erase(jobs.kept_after.begin());
    }
    std::string event = readable_event(entry, kept, exported);
    renumber(event, averages);
    if (event.starts_with("{ do = \"void\"")) event.insert(event.size() - 2, said_besides(book, entry));
    if (const auto job = jobs.of_purchase.find(entry); job != jobs.of_purchase.end())
      event.insert(event.size() - 2, ", " + job->second);
    out.event(event);
  });
  for (const auto& [entry, event] : jobs.kept_after) out.event(event);
  write_headings(book, out, averages);
  out.close(tick);
  copy_attachments(book, folder);
}

Value json_object() {
  Value table;
  table.kind = Value::Kind::table;
  return table;
}

Value json_postings(const Entry& entry, const Currency& currency) {
  Value all;
  all.kind = Value::Kind::array;
  for (const Posting& posting : entry.postings) {
    Value row = json_object();
    put(row, "account", text_value(posting.kind));
    put(row, "name", text_value(posting.name));
    put(row, "amount", text_value(posting.amount.plain(currency)));
    if (posting.quantity) {
      Value pieces;
      pieces.kind = Value::Kind::real;
      pieces.text = posting.quantity->shown();
      put(row, "quantity", std::move(pieces));
    }
    all.items.push_back(std::move(row));
  }
  return all;
}

// By which the book of this moment is known again: nonrunner check --seal.
void write_seal(const Book& book, const fs::path& folder, Day today) {
  const Head head = head_of(book, today);
  if (head.entry == 0) return;
  Out out(folder / "seal.txt");
  out.line(fmt::format("{} entry {} seal {}", head.day, head.entry, head.seal));
  out.close();
}

void write_json_lines(const Book& book, const fs::path& folder, Exported& exported,
                      const std::function<void(std::size_t, std::size_t)>& tick) {
  Out out(folder / "entries.jsonl");
  const Currency& c = book.currency();
  const EntryId last = last_entry(book);
  for (EntryId id = 1; id <= last; ++id) {
    if (tick) tick(static_cast<std::size_t>(id), static_cast<std::size_t>(last));
    const Entry entry = load_entry(book, id);
    Value line = json_object();
    put(line, "entry", number_value(id));
    put(line, "date", text_value(entry.day.iso()));
    put(line, "kind", text_value(entry.kind));
    put(line, "voids", entry.voids ? number_value(*entry.voids) : Value());
    put(line, "recorded", text_value(entry.recorded));
    put(line, "postings", json_postings(entry, c));
    try {
      put(line, "event", *kept_event(entry.event).find("e"));
    } catch (const Refusal&) {
      put(line, "event", Value());
      exported.changes.push_back(
          fmt::format("entry {}: cannot be read: it was changed by another program", id));
    }
    out.line(json_line(line));
  }
  out.close();
}

// One CSV file from a query: the heading, and for each column how a cell is written: t text of the user, m
// money in minor units, q thousandths, n as it stands.
void write_csv(const Book& book, const fs::path& path, const std::string& heading, const std::string& kinds,
               const std::string& sql) {
  Out out(path);
  out.line(heading);
  rows(book, sql, {}, [&](const Row& row) {
    std::string line;
    for (std::size_t i = 0; i < kinds.size(); ++i) {
      const auto column = static_cast<int>(i);
      if (i > 0) line += ",";
      if (row.none(column)) continue;
      switch (kinds[i]) {
        case 't':
          line += csv_text(row.text(column));
          break;
        case 'm':
          line += row.as<Money>(column).plain(book.currency());
          break;
        case 'q':
          line += unscaled_trimmed(row.number(column), 3);
          break;
        default:
          line += csv_cell(row.text(column));
      }
    }
    out.line(line);
  });
  out.close();
}

// What was said of this with the row `of`, as a column of a query.
std::string said_of(const std::string& of, const std::string& fact) {
  return "(SELECT n.value FROM named n WHERE n.entry = " + of + ".entry AND n.vehicle = " + of +
         ".vehicle AND n.fact = '" + fact + "')";
}

// What the papers of a car name, the last that stands.
struct Papers {
  std::string seller, odometer_bought, buyer, odometer_sold;
};
// Of every car at once: one by one each would read the names of all.
std::map<std::string, Papers> papers_by_car(const Book& book, Day today) {
  std::map<std::string, Papers> all;
  for (const NamedFact& each : named_facts(book, "", today)) {
    Papers& papers = all[each.vehicle];
    if (each.fact == "seller") papers.seller = each.value;
    if (each.fact == "buyer") papers.buyer = each.value;
    if (each.fact == "odometer")
      (each.event == "sell" ? papers.odometer_sold : papers.odometer_bought) = each.value;
  }
  return all;
}

void write_tables(const Book& book, const fs::path& folder, Day today) {
  write_csv(book, folder / "entries.csv", "entry,date,kind,voids,voided_by,recorded", "nnnnnn",
            "SELECT e.entry, e.day, e.kind, e.voids, (SELECT v.entry FROM entry v WHERE v.voids = e.entry), "
            "e.recorded FROM entry e ORDER BY e.entry");
  write_csv(book, folder / "postings.csv", "entry,date,account,name,amount,quantity", "nnntmq",
            "SELECT p.entry, e.day, a.kind, a.name, p.amount, p.quantity FROM posting p JOIN entry e USING "
            "(entry) JOIN account a USING (account) "
            "ORDER BY p.entry, p.seq");
  write_csv(
      book, folder / "lines.csv",
      "id,entry,date,supplier,number,what,qty,amount,kind,source,taxed,tax,shipping_less_discount,core,stock,"
      "cars,counts",
      "tnntttqmnnnmmmttn",
      "SELECT l.id, l.entry, e.day, l.supplier, p.number, l.what, l.quantity, l.amount, l.kind, l.source, "
      "CASE l.taxed WHEN 1 THEN 'yes' ELSE 'no' END, l.tax, l.extra, l.core, l.stock, "
      "(SELECT group_concat(vehicle, ' ') FROM share s WHERE s.line = l.line), "
      "CASE WHEN EXISTS (SELECT 1 FROM live_entry c WHERE c.entry = l.entry) THEN 'yes' ELSE 'no' END "
      "FROM line l JOIN entry e USING (entry) LEFT JOIN paper p USING (entry) ORDER BY l.line");
  write_csv(book, folder / "hours.csv", "entry,date,vehicle,operation,own,paid,who", "nnttqqt",
            "SELECT l.entry, e.day, l.vehicle, l.operation, l.own, l.paid, " + said_of("l", "helper") +
                " FROM labour l JOIN live_entry e USING (entry) ORDER BY l.entry");
  write_csv(book, folder / "trips.csv", "entry,date,vehicle,distance,why,from,to", "nntqttt",
            "SELECT t.entry, e.day, t.vehicle, t.distance, (SELECT r.why FROM errand r WHERE r.entry = "
            "t.entry), " +
                said_of("t", "from") + ", " + said_of("t", "to") +
                " FROM trip t JOIN live_entry e USING (entry) ORDER BY t.entry");
  write_csv(book, folder / "accounts.csv", "account,name,balance,quantity", "ntmq",
            "SELECT a.kind, a.name, coalesce(b.amount, 0), coalesce(b.quantity, 0) FROM account a LEFT JOIN "
            "balance b USING (account) ORDER BY a.account");
  write_csv(book, folder / "settings.csv", "name,value", "tt",
            "SELECT name, value FROM setting ORDER BY name");
  Out out(folder / "vehicles.csv");
  const Currency& c = book.currency();
  out.line(
      "vehicle,state,days,cost_less_recovered,carried,own_hours,sales,cash_profit,bought_from,odometer_"
      "bought,"
      "sold_to,odometer_sold");
  std::map<std::string, Papers> papers_of = papers_by_car(book, today);
  for (const BoardRow& row : board(book, today)) {
    const Papers& papers = papers_of[row.tag];
    out.line(fmt::format(
        "{},{},{},{},{},{},{},{},{},{},{},{}", row.tag, row.in_pieces ? "in pieces" : shown(row.state),
        row.days ? std::to_string(*row.days) : "", row.cost.plain(c), row.carried.plain(c),
        row.own_hours.shown(), row.state == State::sold ? row.sales.plain(c) : "",
        row.cash_profit ? row.cash_profit->plain(c) : "", csv_text(papers.seller),
        csv_text(papers.odometer_bought), csv_text(papers.buyer), csv_text(papers.odometer_sold)));
  }
  out.close();
}

}  // namespace

Exported export_to(const Book& book, const fs::path& folder, bool events_only, Day today,
                   const std::function<void(std::size_t, std::size_t)>& tick, const RestoreWith* again) {
  std::error_code error;
  if (fs::exists(folder, error)) {
    if (!fs::is_directory(folder, error))
      throw Refusal(folder.string() + ": found something that is no folder, expected a new folder");
    if (!fs::is_empty(folder, error))
      throw Refusal(folder.string() + ": the folder holds something already, expected an empty or a new one");
  }
  Filling filling(folder);
  Exported exported;
  // One read transaction: what is written to the book meanwhile does not show up in half of the files.
  book.database().exec("BEGIN");
  try {
    write_events(book, filling.path(), exported, tick);
    write_csv(
        book, filling.path() / "comparables.csv", "price,kind,odometer,year,grade,date,note,model",
        "mnqnqntt",
        "SELECT price, kind, odometer, year, grade, day, note, model FROM comparable ORDER BY comparable");
    if (!events_only) {
      write_json_lines(book, filling.path(), exported, tick);
      write_tables(book, filling.path(), today);
    }
    exported.entries = last_entry(book);
    write_seal(book, filling.path(), today);
    if (again) {
      ReadBack back = read_back(book, filling.path(), filling.path() / "again.book", *again);
      (back.made && first_by_days(book) > 1 ? exported.older : exported.apart) = std::move(back.differences);
      exported.apart.insert(exported.apart.end(), back.later.begin(), back.later.end());
    }
    book.database().exec("COMMIT");
  } catch (...) {
    try {
      book.database().exec("ROLLBACK");
    } catch (const SQLite::Exception&) {  // the first failure is the one to tell
    }
    throw;
  }
  // Of a damaged book nobody can say that its age is why.
  if (!exported.older.empty() && !check(book).findings.empty()) {
    exported.apart.insert(exported.apart.begin(), exported.older.begin(), exported.older.end());
    exported.older.clear();
  }
  filling.arrive();
  return exported;
}

}  // namespace nonrunner::book
