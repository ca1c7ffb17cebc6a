// A file that is no book, a book that was cut or changed, a book that another process holds: one line, the
// right status, nothing lost, `check` names what is damaged, and the way back that the message names works.
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <random>
#include <regex>

#include "book/care/check.h"
#include "book/care/damage.h"
#include "book/faults_program.h"
#include "book/faults_shop.h"
#include "exact/ends.h"
#include "sanitized.h"

using namespace nonrunner;
using namespace nonrunner::faults;
namespace fs = std::filesystem;

namespace {

void write_bytes(const fs::path& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

const char* const way_back =
    "; nothing was written; bring back the last backup or export with: nonrunner restore FROM --book NEW\n";

// What is wrong with how the program answered about a damaged book; empty: nothing. A report of `check` has
// more lines.
std::string wrong_answer(const Said& said, bool check) {
  if (said.status != 0 && said.status != 1 && said.status != 3)
    return "status " + std::to_string(said.status);
  if (said.err.find("a mistake of this program") != std::string::npos) return said.err;
  if (said.status == 3 && (said.err.empty() || said.err.find('\n') != said.err.size() - 1))
    return "not one line: " + said.err;
  if (check && said.status == 1 && said.out.rfind("NOT SOUND\n", 0) != 0 && said.err.empty())
    return "no word: " + said.out;
  return "";
}

}  // namespace

TEST_CASE("a file that is no book is told apart from a book of a newer program, and neither is changed",
          "[book][faults]") {
  const Folder folder;
  const fs::path path = folder.path / "x.book";
  const auto show = [&] { return program({"show", "pip", "--book", path}); };
  const std::string where = "nonrunner: " + path.string() + ": ";

  const Said absent = show();
  CHECK(absent.status == 1);
  CHECK(absent.err == where + "there is no book here; make one with: nonrunner start " + path.string() +
                          " --currency USD --distance mi\n");

  write_bytes(path, std::string(5000, 'x'));
  CHECK(show().status == 3);
  CHECK(show().err == where + "the file is no book, or its first bytes were changed" + way_back);
  CHECK(bytes_of(path) == std::string(5000, 'x'));

  write_bytes(path, "");
  CHECK(show().status == 1);
  CHECK(show().err == where + "the file is not a book of this program; nothing was changed\n");
  CHECK(bytes_of(path).empty());

  fs::remove(path);
  {
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
        .exec("CREATE TABLE other (x)");
  }
  const std::string other = bytes_of(path);
  CHECK(show().status == 1);
  CHECK(show().err == where + "the file is not a book of this program; nothing was changed\n");
  CHECK(bytes_of(path) == other);

  fs::remove(path);
  fs::copy_file(make_shop(folder.path), path);
  { SQLite::Database(path.string(), SQLite::OPEN_READWRITE).exec("PRAGMA user_version = 999"); }
  const std::string newer = bytes_of(path);
  CHECK(show().status == 1);
  CHECK(std::regex_match(
      show().err,
      std::regex(
          ".*: the book was written by a newer version \\(its layout is 999, this program knows \\d+\\); "
          "use the newer program; nothing was changed\n")));
  CHECK(bytes_of(path) == newer);

  fs::remove(path);
  fs::create_directory(path);
  CHECK(show().status == 1);
  CHECK(show().err == where + "found something that is not a file, expected a book\n");
}

TEST_CASE("a book that was cut at any length is answered with one line and stays as it is",
          "[book][faults]") {
  const Folder folder;
  const fs::path whole = make_shop(folder.path), cut = folder.path / "cut.book";
  const std::string bytes = bytes_of(whole);
  std::vector<std::size_t> lengths;
  for (std::size_t length = 0; length < 200; ++length) lengths.push_back(length);
  for (std::size_t length = 200; length < bytes.size(); length += 1009) lengths.push_back(length);
  for (std::size_t page = 4096; page < bytes.size(); page += 4096)
    for (const std::size_t length : {page - 1, page, page + 1}) lengths.push_back(length);
  for (const int at : points(static_cast<int>(lengths.size()))) {
    const std::size_t length = lengths[static_cast<std::size_t>(at - 1)];
    remove_book(cut);
    write_bytes(cut, bytes.substr(0, length));
    for (const std::vector<std::string>& words : {std::vector<std::string>{"check"},
                                                  {"show", "pip"},
                                                  {"vehicles"},
                                                  {"owner", "in", "5", "--purse", "cash"}}) {
      std::vector<std::string> all = words;
      all.insert(all.end(), {"--book", cut});
      const Said said = program(all);
      INFO("cut to " << length << " bytes, " << words[0] << ": " << said.err);
      REQUIRE(said.status == (length == 0 ? 1 : 3));
      REQUIRE(said.err.find('\n') == said.err.size() - 1);
      if (length >= 100)
        REQUIRE(said.err == fmt::format("nonrunner: {}: the file is cut: {} of {} bytes are there{}",
                                        cut.string(), length, bytes.size(), way_back));
      REQUIRE(bytes_of(cut) == bytes.substr(0, length));
    }
  }
}

TEST_CASE("a log of a killed process that was cut at any length leaves the events before the cut",
          "[book][faults]") {
  const Folder folder;
  const fs::path shop = make_shop(folder.path), live = folder.path / "live.book",
                 cut = folder.path / "cut.book";
  copy_book(shop, live);
  std::vector<std::string> states;
  {
    book::Book book = book::Book::open(live);
    states.push_back(contents(book));
    for (const Act& act : acts(folder.path))
      if (act.name == "hours" || act.name == "sell" || act.name == "receipt") {
        book::Recording recording(book, now, today);
        act.act(recording);
        recording.keep();
        states.push_back(contents(book));
      }
    fs::copy_file(live, cut);
    fs::copy_file(live.string() + "-wal", cut.string() + "-log");
  }
  REQUIRE(states.size() == 4);
  const std::string bytes = bytes_of(cut), log = bytes_of(cut.string() + "-log");
  std::size_t seen = 0;
  for (const int at : points(static_cast<int>(log.size() / 1031))) {
    const std::size_t length = log.size() - static_cast<std::size_t>(at) * 1031;
    remove_book(cut);
    write_bytes(cut, bytes);
    write_bytes(cut.string() + "-wal", log.substr(0, length));
    const book::Book book = book::Book::open(cut);
    INFO("log cut to " << length << " of " << log.size());
    REQUIRE(check(book).sound);
    const auto found = std::find(states.begin(), states.end(), contents(book));
    REQUIRE(found != states.end());
    seen |= std::size_t{1} << (found - states.begin());
  }
  if (!sanitized) CHECK(seen == 0b111);  // after none, one and two of the three events
}

TEST_CASE("a byte that was changed is found by check, or it means nothing", "[book][faults]") {
  const Folder folder;
  const fs::path whole = make_shop(folder.path), changed = folder.path / "changed.book";
  for (const Act& act : acts(folder.path))
    if (act.name != "sell" && act.name != "void" && act.name != "close" && act.name != "deposit back")
      attempt(whole, act);
  fs::rename(whole.string() + ".files", changed.string() + ".files");
  fs::create_directory_symlink(changed.string() + ".files", whole.string() + ".files");
  const std::string bytes = bytes_of(whole);
  // Wishes and what lies on the desk carry no seal: they may change, and no entry rests on them.
  const auto sealed = [](const std::string& all) {
    std::string some;
    bool open = false;
    std::istringstream in(all);
    for (std::string line; std::getline(in, line);) {
      if (line[0] != ' ')
        open = line == "setting" || line == "clock" || line == "taken_in" ||
               line.rfind("appraisal", 0) == 0 || line.rfind("comparable", 0) == 0;
      if (!open) some += line + "\n";
    }
    return some;
  };
  std::string expected;
  {
    const book::Book book = book::Book::open(whole);
    REQUIRE(check(book).sound);
    expected = sealed(contents(book));
  }
  std::mt19937 dice(20260301);
  std::vector<std::size_t> places;
  for (std::size_t at = 0; at < 100; ++at) places.push_back(at);
  for (int i = 0; i < 500; ++i) places.push_back(dice() % bytes.size());
  int found = 0, meaningless = 0, unreadable = 0;
  for (const int point : points(static_cast<int>(places.size()))) {
    const std::size_t at = places[static_cast<std::size_t>(point - 1)];
    std::string other = bytes;
    other[at] = static_cast<char>(static_cast<unsigned char>(other[at]) ^ (1u + dice() % 255u));
    remove_book(changed);
    write_bytes(changed, other);
    const Said said = program({"check", "--book", changed});
    INFO("byte " << at << ": " << said.out << said.err);
    REQUIRE(wrong_answer(said, true).empty());
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"show", "pip"}, {"vehicles"}, {"entries"}, {"due"}}) {
      std::vector<std::string> all = words;
      all.insert(all.end(), {"--book", changed});
      const Said answer = program(all);
      INFO(words[0] << ": " << answer.err);
      REQUIRE(wrong_answer(answer, false).empty());
    }
    if (said.status == 3)
      ++unreadable;
    else if (said.status == 1)
      ++found;
    else {
      ++meaningless;
      REQUIRE(sealed(contents(book::Book::open(changed))) == expected);
    }
  }
  WARN("bytes changed: " << found << " named by check, " << unreadable << " made the file unreadable, "
                         << meaningless << " meant nothing (every sealed row reads as before)");
}

TEST_CASE("a damaged book is brought back from the last backup and from the last export, as the message says",
          "[book][faults]") {
  const Folder folder;
  const fs::path shop = make_shop(folder.path);
  REQUIRE(program({"backup", folder.path / "backup.book", "--book", shop}).status == 0);
  REQUIRE(program({"export", folder.path / "export", "--book", shop}).status == 0);
  const std::string show = program({"show", "teal", "--json", "--book", shop}).out;
  REQUIRE(show.find("\"cash_profit\"") != std::string::npos);
  fs::resize_file(shop, fs::file_size(shop) / 2);
  const Said said = program({"show", "teal", "--book", shop});
  CHECK(said.status == 3);
  std::smatch named;
  REQUIRE(std::regex_search(said.err, named, std::regex("nonrunner (restore) FROM --book NEW")));
  for (const char* from : {"backup.book", "export"}) {
    const fs::path again = folder.path / (std::string("again-") + from);
    CHECK(program({named[1], folder.path / from, "--book", again}).status == 0);
    CHECK(program({"check", "--book", again}).status == 0);
    CHECK(program({"show", "teal", "--json", "--book", again}).out == show);
  }
}

TEST_CASE("a book that another process holds is waited for, and then said to be held", "[book][faults]") {
  using namespace std::chrono_literals;
  const Folder folder;
  const fs::path path = make_shop(folder.path);
  SQLite::Database other(path.string(), SQLite::OPEN_READWRITE);
  other.exec("BEGIN IMMEDIATE");
  {
    // Reading goes on beside a writer.
    book::Book book = book::Book::open(path, 30ms);
    CHECK(check(book).sound);
    const Outcome outcome = outcome_of(path, [&] { book::Recording recording(book, now, today); });
    CHECK(outcome.machine);
    CHECK(outcome.said ==
          path.string() +
              ": another process holds the book; nothing was recorded; wait for it to end and try again");
    other.exec("ROLLBACK");
    book::Recording recording(book, now, today);
    acts(folder.path).front().act(recording);
    recording.keep();
  }
  // The whole file, as a program does that knows nothing of write-ahead logs.
  other.exec("PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE; INSERT INTO setting VALUES ('x', 'y')");
  const Outcome outcome = outcome_of(path, [&] { book::Book::open(path, 30ms); });
  CHECK(outcome.machine);
  CHECK(outcome.said ==
        path.string() +
            ": another process holds the book; nothing was recorded; wait for it to end and try again");
}
