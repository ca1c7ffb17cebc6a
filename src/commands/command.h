// A command: its usage and what it does. One file per command; all of them are listed in all.cpp.
#pragma once
#include <vector>

#include "commands/options.h"
#include "commands/terminal.h"

namespace nonrunner::commands {

struct Command {
  Usage usage;
  int (*run)(const Given&, Terminal&);  // the exit status: 0 done, 1 the answer is no
};

const std::vector<Command>& all();
// Runs the command that the words name; returns the exit status, or 128 and the signal where one interrupted
// it. Errors become one line on terminal.err.
int run(const Words&, Terminal&);

}  // namespace nonrunner::commands
