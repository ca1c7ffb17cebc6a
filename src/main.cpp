// The program: the world is gathered here and handed down; everything else is in the library.
#include <pwd.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <string>

#include "commands/command.h"
#include "commands/moment.h"
#include "commands/screen.h"

int main(int argc, char** argv) {
  using namespace nonrunner;
  std::ios::sync_with_stdio(false);
  const std::time_t now = std::time(nullptr);
  commands::Terminal terminal{std::cout,
                              std::cerr,
                              isatty(STDOUT_FILENO) == 1,
                              isatty(STDERR_FILENO) == 1,
                              commands::local_day(now),
                              commands::utc_moment(now),
                              {},
                              isatty(STDIN_FILENO) == 1 && isatty(STDERR_FILENO) == 1 ? &std::cin : nullptr};
  for (const char* name :
       {"NONRUNNER_BOOK", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME", "HOME", "LOGNAME", "USER"})
    if (const char* value = std::getenv(name)) terminal.environment[name] = value;
  // Whose entries they are, where the environment does not say it (a service, an empty container).
  if (!terminal.environment.contains("LOGNAME") && !terminal.environment.contains("USER")) {
    const struct passwd* who = ::getpwuid(::geteuid());
    terminal.environment["LOGNAME"] = who ? who->pw_name : std::to_string(::geteuid());
  }
  struct winsize size {};
  const bool shown = isatty(STDOUT_FILENO) == 1 && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0;
  const char* columns = std::getenv("COLUMNS");
  terminal.columns = commands::columns_said(columns ? columns : "", shown ? size.ws_col : 0);
  // A file that may grow no further is a failure of the machine that is told of, as a full disk is.
  std::signal(SIGXFSZ, SIG_IGN);
  // Books, copies, exports and workbooks hold names and addresses: what is made here is its owner's alone.
  ::umask(S_IRWXG | S_IRWXO);
  const int status = commands::run(commands::Words(argv + 1, argv + argc), terminal);
  // What was begun is taken back; the shell sees that the program was interrupted, and stops a loop around
  // it.
  if (status > 128) std::raise(status - 128);
  return status;
}
