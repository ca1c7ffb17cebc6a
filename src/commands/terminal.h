// Where a command prints, and what it is told about the world: handed in, so that a test can hand in its own.
#pragma once
#include <chrono>
#include <exception>
#include <filesystem>
#include <functional>
#include <istream>
#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "exact/day.h"

namespace nonrunner::commands {

struct Terminal {
  std::ostream& out;
  std::ostream& err;
  bool out_is_terminal = false;
  bool err_is_terminal = false;
  Day today;
  std::string now;                                 // ISO 8601, UTC
  std::map<std::string, std::string> environment;  // NONRUNNER_BOOK, XDG_DATA_HOME, XDG_STATE_HOME, HOME
  std::istream* in = nullptr;  // where a person answers questions; none: nobody is there, and none is asked
  std::size_t columns = 0;     // how wide the screen is (commands/screen.h); 0: nothing says it
  std::chrono::milliseconds patience{1000};  // what takes longer says how far it is

  std::string login() const;  // whose; empty where the environment does not say
  // The book's place where none was named: NONRUNNER_BOOK, else $XDG_DATA_HOME/nonrunner/shop.book.
  std::filesystem::path default_book() const;
  // Where the last seal of each book is kept (book/care/heads.h): $XDG_STATE_HOME/nonrunner/heads, else
  // ~/.local/state/nonrunner/heads; nothing where neither is set.
  std::optional<std::filesystem::path> heads() const;
  // Where it is kept when each book was last copied (book/care/last_backup.h): "backups" beside the heads.
  std::optional<std::filesystem::path> backups() const;
};

// Ctrl-C (or SIGTERM) while a Progress lives: thrown out of its next call, so that what was begun is taken
// back on the way.
class Interrupted : public std::exception {
 public:
  explicit Interrupted(int by) : signal(by) {}
  const char* what() const noexcept override { return "interrupted; nothing of it was kept"; }
  int signal;
};

// A progress line on a terminal for what takes longer than its patience; nothing otherwise. While it lives, the
// first Ctrl-C is answered by Interrupted; after its last call the work is kept and the first Ctrl-C changes
// nothing, so that what was kept is also acknowledged. The second one ends the process where it stands, which
// loses nothing that was acknowledged.
class Progress {
 public:
  Progress(Terminal& terminal, std::string what);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  void operator()(std::size_t so_far, std::size_t all);  // throws Interrupted
  void wipe();  // takes the line off the screen, before anything else is printed

 private:
  Terminal& terminal_;
  std::string what_;
  std::chrono::steady_clock::time_point begun_, shown_;
  bool visible_ = false;
};

}  // namespace nonrunner::commands
