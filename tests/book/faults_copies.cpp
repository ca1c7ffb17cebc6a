// What is made as a whole is there whole or not at all, whatever fails in between: a book brought up to date,
// a backup, a book restored, an export, a workbook.
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

#include "book/care/backup.h"
#include "book/care/check.h"
#include "book/faults_program.h"
#include "book/faults_shop.h"
#include "book/faulty_disk.h"
#include "book/faulty_memory.h"
#include "book/ledger/migrations.h"
#include "sanitized.h"

using namespace nonrunner;
using namespace nonrunner::faults;
namespace fs = std::filesystem;

namespace {

std::set<std::string> names_in(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& each : fs::directory_iterator(folder)) names.insert(each.path().filename().string());
  return names;
}

// The shop with a photograph, its backup and its export; where copies of it go, and what they are when whole.
struct Scene {
  Folder folder;
  fs::path book, backup, exported, place;
  std::string contents_of_book;

  Scene() {
    book = make_shop(folder.path);
    for (const Act& act : acts(folder.path))
      if (act.name == "attach" || act.name == "receipt") REQUIRE(attempt(book, act).acknowledged);
    backup = folder.path / "backup.book";
    exported = folder.path / "exported";
    place = folder.path / "place.xlsx";  // the ending that a workbook has to have
    REQUIRE(program({"backup", backup, "--book", book}).status == 0);
    REQUIRE(program({"export", exported, "--book", book}).status == 0);
    contents_of_book = contents(book::Book::open(book));
  }

  void clear_place() const {
    for (const auto& name : names_in(folder.path))
      if (name.find("place") != std::string::npos) fs::remove_all(folder.path / name);
  }
};

// An export as one text: the name and the bytes of every file.
std::string folder_text(const fs::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& each : fs::recursive_directory_iterator(folder))
    if (each.is_regular_file()) files[fs::relative(each.path(), folder).string()] = bytes_of(each.path());
  std::string all;
  for (const auto& [name, bytes] : files) all += name + "\n" + bytes + "\n";
  return all;
}

struct Copying {
  std::string name;
  std::vector<std::string> words;
  std::function<std::string()> wrong;  // with the result at its place; empty: it is whole
};

std::vector<Copying> copyings(const Scene& scene) {
  const auto wrong_book = [&scene](bool same_text) {
    return [&scene, same_text]() -> std::string {
      const book::Book copy = book::Book::open(scene.place);
      const book::Health health = check(copy);
      if (!health.sound) return health.findings.front();
      if (health.attachments != 1) return "the attachment is missing";
      return !same_text || contents(copy) == scene.contents_of_book ? "" : "other contents";
    };
  };
  const auto same_bytes = [&scene](std::string expected) {
    return [&scene, expected]() -> std::string {
      return bytes_of(scene.place) == expected ? "" : "other bytes";
    };
  };
  REQUIRE(program({"workbook", "profit", "teal", scene.place, "--book", scene.book}).status == 0);
  const std::string workbook = bytes_of(scene.place);
  scene.clear_place();
  const std::string exported = folder_text(scene.exported);
  return {
      {"backup", {"backup", scene.place, "--book", scene.book}, wrong_book(true)},
      {"restore from a backup", {"restore", scene.backup, "--book", scene.place}, wrong_book(true)},
      {"restore from an export", {"restore", scene.exported, "--book", scene.place}, wrong_book(true)},
      {"export",
       {"export", scene.place, "--book", scene.book},
       [&scene, exported]() -> std::string {
         return folder_text(scene.place) == exported ? "" : "other files";
       }},
      {"workbook", {"workbook", "profit", "teal", scene.place, "--book", scene.book}, same_bytes(workbook)},
  };
}

// What is wrong after a copying that may have failed; empty: nothing.
std::string wrong_after(const Scene& scene, const Copying& copying, const Said& said,
                        const std::set<std::string>& names_before, bool clean) {
  if (said.status != 0 && said.status != 3) return "status " + std::to_string(said.status) + ": " + said.err;
  if (said.status == 3 && (said.err.empty() || said.err.find('\n') != said.err.size() - 1))
    return "not one line: " + said.err;
  try {
    if (said.status == 0 && !fs::exists(scene.place)) return "acknowledged, and not there";
    if (said.status != 0 && fs::exists(scene.place)) {
      // The last step is to make sure that the disk has the new name: it may fail when the whole is there.
      if (const std::string wrong = copying.wrong(); !wrong.empty())
        return "there, not acknowledged and not whole: " + wrong + "; " + said.err;
    }
    if (said.status == 0)
      if (const std::string wrong = copying.wrong(); !wrong.empty())
        return "acknowledged and not whole: " + wrong;
    if (clean && said.status != 0 && !fs::exists(scene.place)) {
      const auto left = names_in(scene.folder.path);
      for (const std::string& name : left)
        // What SQLite keeps beside an open book for its users means nothing once it is closed.
        if (!names_before.contains(name) && !name.ends_with("-shm") && !name.ends_with("-wal"))
          return "left behind: " + name + "; " + said.err;
    }
    const book::Book book = book::Book::open(scene.book);
    if (!check(book).sound) return "the book is not sound any more";
    if (contents(book) != scene.contents_of_book) return "the book has changed";
  } catch (const std::exception& error) {
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE(
    "whichever call of the disk fails, a backup, a restored book, an export and a workbook are whole or not "
    "there",
    "[book][faults]") {
  const Scene scene;
  const auto all = copyings(scene);
  const auto names = names_in(scene.folder.path);
  FaultyDisk disk;
  int runs = 0;
  for (const Copying& copying : all) {
    constexpr int never = 1 << 30;
    disk.arm(FaultyDisk::every, never, false);
    const Said whole = program(copying.words);
    const int made = never - disk.left();
    disk.disarm();
    REQUIRE(wrong_after(scene, copying, whole, names, true).empty());
    REQUIRE(whole.status == 0);
    for (const bool onwards : {false, true})
      for (const int at : points(made)) {
        if (at % 4 != (onwards ? 0 : 2)) continue;  // by turns: a restored book alone makes 700 calls
        scene.clear_place();
        disk.forget();
        disk.arm(FaultyDisk::every, at, onwards);
        const Said said = program(copying.words);
        const bool fired = disk.disarm();
        // With the disk gone nothing can be cleared away through it.
        const std::string wrong = wrong_after(scene, copying, said, names, false);
        INFO(copying.name << ", call " << at << (onwards ? " and all after it" : "") << ": " << wrong);
        REQUIRE(fired);
        REQUIRE(wrong.empty());
        ++runs;
      }
    scene.clear_place();
  }
  WARN("calls of the disk that failed while something was copied: " << runs);
}

TEST_CASE(
    "whenever the memory runs out, a backup, a restored book, an export and a workbook are whole or not "
    "there",
    "[book][faults]") {
  const Scene scene;
  const auto all = copyings(scene);
  const auto names = names_in(scene.folder.path);
  FaultyMemory memory;
  int runs = 0;
  for (const Copying& copying : all) {
    memory.arm(0, false);
    const Said whole = program(copying.words);
    const long asked = memory.asked();
    REQUIRE(whole.status == 0);
    const long step = asked / (static_cast<long>(points(60).size())) + 1;
    for (const bool onwards : {false, true})
      for (long at = onwards ? 2 : 1; at <= asked; at += step) {
        scene.clear_place();
        memory.arm(at, onwards);
        const Said said = program(copying.words);
        memory.disarm();
        const std::string wrong = wrong_after(scene, copying, said, names, true);
        INFO(copying.name << ", request " << at << " of " << asked << (onwards ? " and all after it" : "")
                          << ": " << wrong);
        REQUIRE(wrong.empty());
        ++runs;
      }
    scene.clear_place();
  }
  WARN("requests for memory that were refused while something was copied: " << runs);
}

namespace {

// The program in a process of its own that may write no file longer than `most` bytes; standard error is
// caught with what libraries print there themselves.
Said program_with_room(const std::vector<std::string>& words, rlim_t most) {
  int ends[2];
  if (::pipe(ends) != 0) throw std::runtime_error("no pipe");
  const pid_t child = ::fork();
  if (child == 0) {
    ::dup2(ends[1], STDERR_FILENO);
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{most, most};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    const Said said = program(words);
    if (::write(STDERR_FILENO, said.err.data(), said.err.size()) < 0) ::_exit(99);
    ::_exit(said.status);
  }
  ::close(ends[1]);
  Said said;
  char room[4096];
  for (ssize_t got; (got = ::read(ends[0], room, sizeof room)) > 0;)
    said.err.append(room, static_cast<std::size_t>(got));
  ::close(ends[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  said.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return said;
}

}  // namespace

TEST_CASE(
    "where the room for a file ends, at any size, a backup, a restored book, an export and a workbook are "
    "whole or not there",
    "[book][faults]") {
  const Scene scene;
  const auto all = copyings(scene);
  const auto names = names_in(scene.folder.path);
  int runs = 0, refused = 0;
  for (const Copying& copying : all) {
    const rlim_t most = 2 * fs::file_size(scene.book);
    for (rlim_t room = 0; room < most;
         room = room < 64 ? room * 2 + 1 : room + room / (points(4).size() == 4 ? 4 : 2)) {
      scene.clear_place();
      const Said said = program_with_room(copying.words, room);
      const std::string wrong = wrong_after(scene, copying, said, names, true);
      INFO(copying.name << ", files of at most " << room << " bytes: " << wrong);
      REQUIRE(wrong.empty());
      ++runs;
      if (said.status != 0) ++refused;
    }
    scene.clear_place();
    REQUIRE(program_with_room(copying.words, RLIM_INFINITY).status == 0);
    scene.clear_place();
  }
  CHECK(refused > 0);
  WARN("room that ended (RLIMIT_FSIZE): " << runs << " runs, " << refused << " of them too small");
}

TEST_CASE(
    "a book that is brought up to date is of the old layout or of the new, and the old one is set aside "
    "first",
    "[book][faults]") {
  const Folder folder;
  FaultyDisk disk;
  const fs::path old = folder.path / "old.book", book = folder.path / "tried.book";
  const std::size_t newest = book::migrations().size();
  const fs::path aside = fmt::format("{}.before-{:04}", book.string(), newest);
  const auto layout = [](const fs::path& path) {
    SQLite::Database database(path.string(), SQLite::OPEN_READWRITE);
    if (database.execAndGet("PRAGMA integrity_check").getString() != "ok")
      throw std::runtime_error("damaged");
    if (database.execAndGet("SELECT value FROM setting WHERE name = 'hour'").getString() != "20")
      throw std::runtime_error("lost");
    return static_cast<std::size_t>(database.execAndGet("PRAGMA user_version").getInt());
  };
  // Of the first and of the last older layout each call in turn, of those between every fifth; where no release
  // is made one in nine of them: with each migration there are more calls, and each is a migration of its own.
  const int every = sanitized || std::getenv("NONRUNNER_LONG") ? 1 : 9;  // sanitized: few points are taken
  int runs = 0;
  for (std::size_t count = 1; count < newest; ++count) {
    remove_book(old);
    book::Book::create_old(old, count);
    {
      SQLite::Database database(old.string(), SQLite::OPEN_READWRITE);
      database.exec("INSERT INTO setting VALUES ('hour', '20')");
    }
    const auto open = [&] { return outcome_of(book, [&] { book::Book::open(book); }); };
    const auto begin = [&] {
      copy_book(old, book);
      remove_book(aside);
      remove_book(aside.string() + ".arriving");
      disk.forget();
    };
    begin();
    constexpr int never = 1 << 30;
    disk.arm(FaultyDisk::changing, never, false);
    REQUIRE(open().acknowledged);
    const int made = never - disk.left();
    disk.disarm();
    REQUIRE(layout(book) == newest);
    REQUIRE(layout(aside) == count);
    for (const int way : {0, 1, 2})
      for (const int at : points(made)) {
        const bool at_an_end = count == 1 || count + 1 == newest;
        const int thinned = at_an_end ? every : 5 * every;
        if (at % thinned != way % thinned) continue;
        begin();
        disk.arm(FaultyDisk::changing, at, way > 0);
        const Outcome outcome = open();
        REQUIRE(disk.disarm());
        if (way == 2) disk.lose_power(static_cast<std::uint32_t>(at));
        INFO("from layout " << count << ", call " << at << ", way " << way << ": " << outcome.said);
        REQUIRE((outcome.acknowledged || outcome.machine));
        const std::size_t is = layout(book);
        REQUIRE((is == count || is == newest));
        if (is == newest) REQUIRE(fs::exists(aside));
        if (fs::exists(aside)) REQUIRE(layout(aside) == count);
        // And the next opening gets it done.
        const book::Book opened = book::Book::open(book);
        REQUIRE(check(opened).sound);
        REQUIRE(opened.setting("hour") == "20");
        REQUIRE(layout(aside) == count);
        ++runs;
      }
  }
  WARN("calls of the disk that failed while a book was brought up to date: " << runs);
}
