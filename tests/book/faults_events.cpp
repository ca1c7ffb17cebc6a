// Promise 3, durable, when the disk or the memory fails in the middle of an event: the book opens, `check` is
// sound, the event is there wholly or not at all, what was acknowledged is there, and the message tells the
// truth.
#include <catch2/catch.hpp>
#include <set>

#include "book/events/post.h"
#include "book/faults_shop.h"
#include "book/faulty_disk.h"
#include "book/faulty_memory.h"

using namespace nonrunner;
using namespace nonrunner::faults;
namespace fs = std::filesystem;

namespace {

struct Ways {
  fs::path shop, book;
  std::string before, after;
};

// The shop, and what it is after the act when nothing fails.
Ways ways_of(const Folder& folder, const fs::path& shop, const Act& act) {
  Ways ways{shop, folder.path / "tried.book", "", ""};
  copy_book(shop, ways.book);
  {
    const book::Book book = book::Book::open(ways.book);
    ways.before = contents(book);
  }
  const Outcome outcome = attempt(ways.book, act);
  INFO(act.name << ": " << outcome.said);
  REQUIRE(outcome.acknowledged);
  const book::Book book = book::Book::open(ways.book);
  ways.after = contents(book);
  REQUIRE(ways.before != ways.after);
  return ways;
}

// How many calls of the kinds an act makes when nothing fails.
int calls_of(FaultyDisk& disk, const Ways& ways, const Act& act, unsigned calls) {
  copy_book(ways.shop, ways.book);
  constexpr int never = 1 << 30;
  disk.arm(calls, never, false);
  REQUIRE(attempt(ways.book, act).acknowledged);
  const int made = never - disk.left();
  disk.disarm();
  disk.forget();
  return made;
}

// Lets each of `at` fail; returns how many runs that were.
int interrupted(FaultyDisk& disk, const Ways& ways, const Act& act, unsigned calls,
                const std::vector<int>& at, bool onwards, bool power) {
  for (const int point : at) {
    copy_book(ways.shop, ways.book);
    disk.forget();
    disk.arm(calls, point, onwards);
    const Outcome outcome = attempt(ways.book, act);
    const bool fired = disk.disarm();
    if (power) disk.lose_power(static_cast<std::uint32_t>(point));
    const std::string wrong = wrong_after(ways.book, outcome, ways.before, ways.after);
    INFO(act.name << ", call " << point << (onwards ? " and all after it" : "")
                  << (power ? ", then no power" : "") << ": " << wrong);
    REQUIRE(fired);
    REQUIRE(wrong.empty());
  }
  return static_cast<int>(at.size());
}

}  // namespace

TEST_CASE("every event of the events file is among the acts that are interrupted", "[book][faults]") {
  const Folder folder;
  std::set<std::string> names;
  for (const Act& act : acts(folder.path)) names.insert(act.name);
  for (const std::string& word : book::event_words()) CHECK(names.contains(word));
}

TEST_CASE("whichever call of the disk fails, an event is there wholly or not at all", "[book][faults]") {
  const Folder folder;
  FaultyDisk disk;
  const fs::path shop = make_shop(folder.path);
  int runs = 0;
  for (const Act& act : acts(folder.path)) {
    const Ways ways = ways_of(folder, shop, act);
    const auto at = points(calls_of(disk, ways, act, FaultyDisk::changing));
    runs += interrupted(disk, ways, act, FaultyDisk::changing, at, false, false);
    runs += interrupted(disk, ways, act, FaultyDisk::changing, at, true, false);
  }
  WARN("writes, syncs, truncations, deletions and openings of files that failed: " << runs);
}

TEST_CASE("whatever the disk had not synced when the power went, what was acknowledged is there",
          "[book][faults]") {
  const Folder folder;
  FaultyDisk disk;
  const fs::path shop = make_shop(folder.path);
  int runs = 0;
  for (const Act& act : acts(folder.path)) {
    const Ways ways = ways_of(folder, shop, act);
    runs += interrupted(disk, ways, act, FaultyDisk::changing,
                        points(calls_of(disk, ways, act, FaultyDisk::changing)), true, true);
  }
  WARN("power cuts: " << runs);
}

TEST_CASE("whichever call fails, readings and locks among them, an event is there wholly or not at all",
          "[book][faults]") {
  const Folder folder;
  FaultyDisk disk;
  const fs::path shop = make_shop(folder.path);
  int runs = 0;
  for (const Act& act : acts(folder.path)) {
    if (act.name != "receipt" && act.name != "sell" && act.name != "clock on") continue;
    const Ways ways = ways_of(folder, shop, act);
    const auto at = points(calls_of(disk, ways, act, FaultyDisk::every));
    runs += interrupted(disk, ways, act, FaultyDisk::every, at, false, false);
    runs += interrupted(disk, ways, act, FaultyDisk::every, at, true, false);
  }
  WARN("calls of every kind that failed: " << runs);
}

TEST_CASE("whenever the memory runs out, an event is there wholly or not at all", "[book][faults]") {
  const Folder folder;
  FaultyMemory memory;
  const fs::path shop = make_shop(folder.path);
  int runs = 0, turn = 0;
  for (const Act& act : acts(folder.path)) {
    const Ways ways = ways_of(folder, shop, act);
    copy_book(ways.shop, ways.book);
    memory.arm(0, false);
    REQUIRE(attempt(ways.book, act).acknowledged);
    const long asked = memory.asked();
    // Opening is the same for every act: the points are spread, and each act begins at another one.
    const long step = asked / static_cast<long>(points(16).size()) + 1;
    for (const bool onwards : {false, true})
      for (long at = 1 + turn++ * 37 % step; at <= asked; at += step) {
        copy_book(ways.shop, ways.book);
        memory.arm(at, onwards);
        const Outcome outcome = attempt(ways.book, act);
        const bool fired = memory.disarm();
        const std::string wrong = wrong_after(ways.book, outcome, ways.before, ways.after);
        INFO(act.name << ", request " << at << " of " << asked << (onwards ? " and all after it" : "") << ": "
                      << wrong);
        REQUIRE(fired);
        REQUIRE(wrong.empty());
        ++runs;
      }
  }
  WARN("requests for memory that were refused: " << runs);
}
