// Where a command prints, and what it is told about the world: handed in, so that a test can hand in its own.
#pragma once
#include <chrono>
#include <filesystem>
#include <functional>
#include <map>
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
  std::map<std::string, std::string> environment;  // NONRUNNER_BOOK, XDG_DATA_HOME, HOME

  // The book's place where none was named: NONRUNNER_BOOK, else $XDG_DATA_HOME/nonrunner/shop.book.
  std::filesystem::path default_book() const;
};

// A progress line on a terminal for what takes longer than a second; nothing otherwise.
class Progress {
 public:
  Progress(Terminal& terminal, std::string what);
  ~Progress();
  void operator()(std::size_t done, std::size_t all);

 private:
  Terminal& terminal_;
  std::string what_;
  std::chrono::steady_clock::time_point begun_, shown_;
  bool visible_ = false;
};

}  // namespace nonrunner::commands
