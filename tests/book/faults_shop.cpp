#include "book/faults_shop.h"

#include <stdlib.h>

#include <algorithm>
#include <fstream>

#include "book/care/check.h"
#include "book/events/clock.h"
#include "book/events/post.h"
#include "book/ledger/settings.h"
#include "exact/ends.h"
#include "sanitized.h"

namespace nonrunner::faults {

namespace fs = std::filesystem;
using namespace nonrunner::book;

namespace {

constexpr const char* so_far = R"(
hour = 20
event = [
  { do = "owner in", date = 2026-01-02, purse = "cash", amount = 9000.00 },
  { do = "move", date = 2026-01-02, from = "cash", to = "bank", amount = 2000.00 },
  { do = "hours", date = 2026-01-03, vehicle = "wren", operation = "looking", own = 1 },
  { do = "buy", date = 2026-01-05, vehicle = "pip", price = 900.00, purse = "cash" },
  { do = "buy", date = 2026-01-05, vehicle = "heron", price = 300.00, purse = "cash" },
  { do = "buy", date = 2026-01-05, vehicle = "teal", price = 700.00, purse = "bank" },
  { do = "receipt", date = 2026-01-06, supplier = "Cleave Yard", number = "1", paid = { cash = 118.00 }, total = 118.00, line = [
    { id = "R1", what = "pump", qty = 2, unit = 40.00, core = 9.00, kind = "part", source = "reman", to = "pip" },
    { id = "S1", what = "oil, jug", qty = 1, unit = 20.00, gives = 5, kind = "stock", stock = "oil" },
  ] },
  { do = "receipt", date = 2026-01-07, supplier = "Millgate Parts", number = "7", on_account = true, total = 60.00, line = [
    { id = "A1", what = "belt", unit = 60.00, kind = "part", to = "teal" },
  ] },
  { do = "receipt", date = 2026-01-08, supplier = "Cleave Yard", paid = "cash", total = 25.00, itemised = false, line = [
    { id = "Q1", what = "bits", amount = 25.00, kind = "part", to = "pip" },
  ] },
  { do = "tool deposit", date = 2026-01-08, supplier = "Millgate Parts", what = "puller", amount = 50.00, purse = "cash" },
  { do = "buyer deposit", date = 2026-01-09, vehicle = "pip", amount = 100.00, purse = "cash" },
  { do = "recover", date = 2026-01-09, vehicle = "heron", what = "doors", amount = 80.00, purse = "cash" },
  { do = "sell", date = 2026-02-01, vehicle = "teal", price = 1500.00, purse = "bank", tax = 90.00, commission = 0.03 },
  { do = "plan", date = 2026-02-02, vehicle = "pip", name = "radiator hose", amount = 20.00 },
]
)";

// One event for each word.
const std::vector<std::pair<const char*, std::string>>& next_events() {
  static const std::vector<std::pair<const char*, std::string>> all = {
      {"owner in", R"(purse = "cash", amount = 10.00)"},
      {"owner out", R"(purse = "cash", amount = 10.00)"},
      {"move", R"(from = "cash", to = "tin", amount = 10.00)"},
      {"buy",
       R"(vehicle = "finch", price = 450.00, purse = "cash", fees = [{ name = "title", amount = 20.00 }], job = "finch.toml")"},
      {"pass", R"(vehicle = "wren", why = "too much rot")"},
      {"receipt",
       R"(supplier = "Cleave Yard", number = "2", paid = { cash = 30.00, bank = 14.00 }, tax = 2.00, total = 44.00, replaces = 9, line = [
         { id = "R2", what = "yard entrance", amount = 4.00, kind = "fee", share = { pip = 1, heron = 2 } },
         { id = "R3", what = "alternator", unit = 30.00, core = 8.00, kind = "part", source = "salvage", to = "pip", taxed = true }])"},
      {"return", R"(line = "R1", qty = 1, goods = 40.00, tax = 0.00, restocking = 4.00, purse = "cash")"},
      {"core back", R"(line = "R1", qty = 1, amount = 7.00, purse = "cash")"},
      {"tool deposit",
       R"(supplier = "Millgate Parts", what = "press", amount = 30.00, purse = "cash", back_by = 2026-04-01)"},
      {"tool deposit back", R"(what = "puller", amount = 50.00, purse = "cash")"},
      {"hours", R"(vehicle = "pip", operation = "pump", paid = 2, rate = 15.00, purse = "cash")"},
      {"draw", R"(vehicle = "pip", stock = "oil", qty = 2)"},
      {"count", R"(stock = "oil", qty = 4)"},
      {"shelve", R"(vehicle = "heron", what = "lamp", amount = 12.00, stock = "lamps", qty = 1)"},
      {"transfer", R"(from = "heron", to = "pip", what = "door", amount = 30.00)"},
      {"recover", R"(vehicle = "heron", what = "engine", amount = 400.00, purse = "cash")"},
      {"recover back", R"(vehicle = "heron", what = "doors", amount = 40.00, purse = "cash")"},
      {"advertised", R"(vehicle = "pip", price = 2500.00)"},
      {"buyer deposit", R"(vehicle = "heron", amount = 20.00, purse = "cash")"},
      {"deposit kept", R"(vehicle = "pip", amount = 100.00)"},
      {"deposit back", R"(vehicle = "pip", amount = 100.00, purse = "cash")"},
      {"sell",
       R"(vehicle = "pip", price = 2400.00, purse = "cash", deposit_used = 100.00, costs = [{ name = "advert", amount = 25.00, purse = "bank" }])"},
      {"selling cost", R"(vehicle = "pip", what = "advert", amount = 25.00, purse = "cash")"},
      {"part out", R"(vehicle = "heron", still_brings = 200.00)"},
      {"write off", R"(vehicle = "heron")"},
      {"trip", R"(share = { pip = 1, heron = 1 }, distance = 31, why = "yard")"},
      {"finding", R"(vehicle = "pip", text = "impeller gone", cause = "pump", seen = ["flow=none"])"},
      {"plan", R"(vehicle = "pip", name = "heater matrix", amount = 88.00, hours = 3)"},
      {"done", R"(vehicle = "pip", lines = ["radiator hose"], says = "not needed")"},
      {"under", R"(vehicle = "pip", operation = "opening up", heading = "discovery")"},
      {"void", R"(entry = 13, why = "fell through")"},
      {"close", R"(why = "the year is handed in")"},
      {"pay", R"(supplier = "Millgate Parts", amount = 60.00, purse = "bank")"},
      {"sales tax paid", R"(amount = 90.00, purse = "bank")"},
      {"attach", R"(vehicle = "pip", file = "photo.jpg")"},
      {"under", R"(vehicle = "pip", line = "R1", heading = "pump")"},
      {"appraisal", R"(vehicle = "pip", job = "finch.toml")"},
  };
  return all;
}

void write_text(const fs::path& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

std::string one_line(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text;
}

}  // namespace

Folder::Folder() {
  std::string name = (fs::temp_directory_path() / "nonrunner-faults-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for the test");
  path = name;
}
Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(path, ignored);
}

fs::path make_shop(const fs::path& folder) {
  write_text(folder / "finch.toml", "# A job file; what it comes to is not the book's concern.\n");
  write_text(folder / "photo.jpg", "no real picture");
  const fs::path path = folder / "shop.book";
  Book book = Book::create(path, Currency::of("USD"), "mi");
  Recording recording(book, now, today);
  post(recording, so_far, "so far", folder, {});
  recording.keep();
  return path;
}

std::vector<Act> acts(const fs::path& folder) {
  std::vector<Act> all;
  for (const auto& [word, keys] : next_events()) {
    const std::string text =
        std::string("event = [{ do = \"") + word + "\", date = 2026-02-20, " + one_line(keys) + " }]";
    all.push_back(
        {word, [text, folder](Recording& recording) { post(recording, text, "next", folder, {}); }});
  }
  all.push_back({"clock on", [](Recording& recording) { start_clock(recording, "me", "pip", "pump"); }});
  all.push_back({"clock on and off", [](Recording& recording) {
                   start_clock(recording, "me", "pip", "pump");
                   stop_clock(recording, "me", today, Hours::of(1500));
                 }});
  all.push_back({"set", [](Recording& recording) { set(recording, "hour", "25"); }});
  return all;
}

void remove_book(const fs::path& path) {
  for (const char* tail : {"", "-wal", "-shm", "-journal"}) fs::remove(path.string() + tail);
}

void copy_book(const fs::path& from, const fs::path& to) {
  remove_book(to);
  fs::copy_file(from, to);
}

std::string contents(const Book& book) {
  std::vector<std::string> tables;
  SQLite::Statement names(
      book.database(),
      "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name");
  while (names.executeStep()) tables.push_back(names.getColumn(0).getString());
  std::string all;
  for (const std::string& table : tables) {
    std::vector<std::string> lines;
    SQLite::Statement rows(book.database(), "SELECT * FROM " + table);
    while (rows.executeStep()) {
      std::string line;
      for (int i = 0; i < rows.getColumnCount(); ++i)
        line += (rows.getColumn(i).isNull() ? "-" : rows.getColumn(i).getString()) + "|";
      lines.push_back(line);
    }
    std::sort(lines.begin(), lines.end());
    all += table + "\n";
    for (const std::string& line : lines) all += "  " + line + "\n";
  }
  return all;
}

Outcome outcome_of(const fs::path& path, const std::function<void()>& run) {
  try {
    try {
      run();
      return {true, "", false};
    } catch (const SQLite::Exception&) {
      rethrow_database_error(path);
    }
  } catch (const MachineFailure& failure) {
    return {false, failure.what(), true};
  } catch (const std::exception& other) {
    return {false, other.what(), false};
  }
}

Outcome attempt(const fs::path& path, const Act& act) {
  return outcome_of(path, [&] {
    Book book = Book::open(path);
    Recording recording(book, now, today);
    act.act(recording);
    recording.keep();
  });
}

std::string wrong_after(const fs::path& path, const Outcome& outcome, const std::string& before,
                        const std::string& after) {
  if (!outcome.acknowledged && !outcome.machine)
    return "no failure of the machine was told of: " + outcome.said;
  if (outcome.said.find('\n') != std::string::npos)
    return "the message has more than one line: " + outcome.said;
  try {
    const Book book = Book::open(path);
    const Health health = check(book);
    if (!health.sound) return "not sound: " + health.findings.front() + "; said: " + outcome.said;
    const std::string is = contents(book);
    if (is != before && is != after) return "neither as before nor as after; said: " + outcome.said;
    if (outcome.acknowledged && is != after) return "acknowledged, and not there";
    if (!outcome.acknowledged && is != before && outcome.said.find("nothing was") != std::string::npos)
      return "it is there, and the message says it is not: " + outcome.said;
  } catch (const std::exception& error) {
    return std::string("does not open: ") + error.what() + "; said: " + outcome.said;
  }
  return "";
}

std::vector<int> points(int count) {
  const int most = sanitized ? 8 : 1 << 20;
  std::vector<int> all;
  const int step = std::max(1, (count + most - 1) / most);
  // Where not all are taken, the first ones differ from act to act with the count.
  for (int at = 1 + count % step; at <= count; at += step) all.push_back(at);
  return all;
}

}  // namespace nonrunner::faults
