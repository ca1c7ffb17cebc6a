// A disk that fails when it is told to: a VFS of SQLite over the real one, the default one while it lives.
// Every file that SQLite opens meanwhile goes through it.
//
// Calls are counted from arm() on; the chosen one fails, alone or with everything after it. A write that
// fails has written its first half, as a full disk does. A sync is counted, remembered and not handed on: the
// disk is played here, and lose_power() plays what an unsynced write is worth, a part of them gone, as chosen
// by a seed.
//
// One at a time; no book may be open when it comes or goes.
#pragma once
#include <cstdint>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

struct sqlite3_vfs;

namespace nonrunner {

class FaultyDisk {
 public:
  enum Call : unsigned {
    write = 1,
    sync = 2,
    truncate = 4,
    remove = 8,
    open = 16,
    read = 32,
    size = 64,
    lock = 128,
    share = 256,  // the part of the memory that the users of a book share
    changing = write | sync | truncate | remove | open,
    every = changing | read | size | lock | share,
  };

  FaultyDisk();
  ~FaultyDisk();
  FaultyDisk(const FaultyDisk&) = delete;
  FaultyDisk& operator=(const FaultyDisk&) = delete;

  // The call number `at`, from 1, among `calls` fails; with `onwards` so does every call after it.
  void arm(unsigned calls, int at, bool onwards);
  // No call fails any more; returns whether one did.
  bool disarm();
  // What was not synced when the first call failed is lost, each write by the toss of a coin, and what
  // follows it in the same place is kept or lost on its own. To be called when every file is closed.
  void lose_power(std::uint32_t seed);
  // Forgets what was not synced; to be called before files are made anew.
  void forget() { unsynced_.clear(); }
  int left() const { return left_; }  // calls until the chosen one

 private:
  struct Change {
    std::int64_t at = 0;
    std::string before, after;  // the bytes there
    std::int64_t size_before = 0, size_after = 0;
  };
  struct Calls;
  friend struct Calls;
  bool fails(Call);

  sqlite3_vfs* real_;
  std::vector<char> vfs_;  // the sqlite3_vfs that is registered
  std::string name_;
  unsigned counted_ = 0;
  int left_ = 0;
  bool onwards_ = false, failed_ = false;
  std::map<std::string, std::vector<Change>> unsynced_;
};

}  // namespace nonrunner
