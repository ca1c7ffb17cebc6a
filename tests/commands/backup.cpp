// Copies that are made by habit: dated, the last ten kept, and a word where none was made for a week.
#include <catch2/catch.hpp>
#include <sstream>

#include "commands/counter.h"

using namespace nonrunner;
namespace fs = std::filesystem;

namespace {

class Habit : public commands::Counter {
 public:
  explicit Habit(const std::string& name) : Counter(name) {
    fs::create_directories(copies());
    today = Day(2026, 5, 1);
    run({"owner", "in", "2500", "--purse", "cash"});
  }
  fs::path copies() const { return book().parent_path() / "copies"; }
  std::vector<std::string> names() const {
    std::vector<std::string> all;
    for (const auto& each : fs::directory_iterator(copies())) all.push_back(each.path().filename().string());
    std::sort(all.begin(), all.end());
    return all;
  }
  // With somebody at the terminal, whose folder of state lies in the scratch folder.
  std::string typed(commands::Words words) {
    std::ostringstream out, err;
    std::istringstream in;
    words.insert(words.end(), {"--book", book().string()});
    commands::Terminal terminal{out,
                                err,
                                true,
                                true,
                                today,
                                today.iso() + "T12:00:00Z",
                                {{"XDG_STATE_HOME", (book().parent_path() / "state").string()}},
                                &in};
    status = commands::run(words, terminal);
    return err.str();
  }
};

}  // namespace

TEST_CASE("backup without a name needs a folder that was set, and says how", "[commands]") {
  Habit desk("backup-nowhere");
  CHECK(desk.run({"backup"}) ==
        "nonrunner: backup: where to? say FILE, or once for all: nonrunner set backup-folder FOLDER; see: "
        "nonrunner backup --help\n");
  CHECK(desk.status == 2);
  desk.run({"set", "backup-folder", (desk.book().parent_path() / "stick").string()});
  CHECK(desk.run({"backup"}) ==
        "nonrunner: stick: the folder for backups is not there; put the disk in, or set another folder\n");
  CHECK(desk.status == 3);
}

TEST_CASE("dated copies carry the seal, a second one of the day has a number, the last ten stay",
          "[commands]") {
  Habit desk("backup-dated");
  CHECK(desk.run({"set", "backup-folder", desk.copies().string()}) == "backup-folder is copies\n");
  const std::string said = desk.run({"backup"});
  CHECK(said.rfind("copies/shop-2026-05-01.book: a copy of shop.book up to entry 1\n  last seal ", 0) == 0);
  desk.run({"backup"});
  CHECK(desk.names() == std::vector<std::string>{"shop-2026-05-01-2.book", "shop-2026-05-01.book"});
  for (int day = 2; day <= 9; ++day) {
    desk.today = Day(2026, 5, static_cast<unsigned>(day));
    desk.run({"backup"});
  }
  CHECK(desk.names().size() == 10);
  desk.today = Day(2026, 5, 10);
  CHECK(desk.run({"backup"}).find("  copies/shop-2026-05-01.book: removed, as 10 later ones are there\n") !=
        std::string::npos);
  CHECK(desk.names().size() == 10);
  CHECK(desk.names().front() == "shop-2026-05-01-2.book");
}

TEST_CASE("copies of another book and files that are none are never removed", "[commands]") {
  Habit desk("backup-others");
  desk.run({"set", "backup-folder", desk.copies().string()});
  // Another shop's book of the same name, and files whose names fit by chance.
  commands::Counter other("backup-other-shop");
  other.run({"owner", "in", "7", "--purse", "tin", "--new"});
  other.run({"backup", (desk.copies() / "shop-2020-01-01.book").string()});
  const fs::path bare = desk.copies() / "shop-2020-01-02.book";
  std::ofstream(bare) << "no book at all";
  std::ofstream(desk.copies() / "shop-notes.book") << "nor this";
  for (int day = 1; day <= 12; ++day) {
    desk.today = Day(2026, 5, static_cast<unsigned>(day));
    desk.run({"backup"});
  }
  CHECK(desk.names().size() == 13);
  CHECK(fs::exists(bare));
  CHECK(fs::exists(desk.copies() / "shop-notes.book"));
  CHECK(fs::exists(desk.copies() / "shop-2026-05-03.book"));
  CHECK(!fs::exists(desk.copies() / "shop-2026-05-02.book"));
}

TEST_CASE("after a week without a copy one line says so, once a day", "[commands]") {
  Habit desk("backup-reminder");
  const auto reminded = [&] { return desk.typed({"owner", "in", "1", "--purse", "cash", "--again"}); };
  desk.today = Day(2026, 5, 9);  // the first entry was written on 2 May, by the counter's clock
  CHECK(reminded() == "");
  desk.today = Day(2026, 5, 10);
  CHECK(reminded() ==
        "no copy of this book was made yet: nonrunner backup FILE, or once for all:\n  nonrunner set "
        "backup-folder "
        "FOLDER\n");
  CHECK(reminded() == "");
  desk.today = Day(2026, 5, 11);
  desk.typed({"set", "backup-folder", desk.copies().string()});
  desk.today = Day(2026, 5, 12);
  CHECK(reminded() == "no copy of this book was made yet: nonrunner backup\n");
  desk.typed({"backup"});
  desk.today = Day(2026, 5, 19);
  CHECK(reminded() == "");
  desk.today = Day(2026, 5, 20);
  CHECK(reminded() == "no copy of this book was made for 8 days: nonrunner backup\n");
}

TEST_CASE("a folder for backups that is not there is taken, and said not to be there", "[commands]") {
  commands::Counter counter("no-folder");
  CHECK(counter.run({"set", "backup-folder", "/nonexistent/stick"}) ==
        "backup-folder is /nonexistent/stick\n"
        "  there is no such folder now; it has to be there when a copy is made\n");
  CHECK(counter.run({"set", "backup-folder", "/tmp"}) == "backup-folder is /tmp\n");
}
