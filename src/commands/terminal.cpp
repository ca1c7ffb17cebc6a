#include "commands/terminal.h"

#include <fmt/format.h>
#include <signal.h>

#include <algorithm>
#include <chrono>

#include "exact/ends.h"

namespace nonrunner::commands {

std::string Terminal::login() const {
  for (const char* name : {"LOGNAME", "USER"})
    if (const auto found = environment.find(name); found != environment.end()) return found->second;
  return "";
}

std::filesystem::path Terminal::default_book() const {
  const auto value = [&](const char* name) {
    const auto found = environment.find(name);
    return found == environment.end() ? std::string() : found->second;
  };
  if (const std::string book = value("NONRUNNER_BOOK"); !book.empty()) return book;
  if (const std::string data = value("XDG_DATA_HOME"); !data.empty())
    return std::filesystem::path(data) / "nonrunner" / "shop.book";
  if (const std::string home = value("HOME"); !home.empty())
    return std::filesystem::path(home) / ".local" / "share" / "nonrunner" / "shop.book";
  throw WrongUsage("no book is named and HOME is not set; say --book FILE or set NONRUNNER_BOOK");
}

std::optional<std::filesystem::path> Terminal::heads() const {
  const auto value = [&](const char* name) {
    const auto found = environment.find(name);
    return found == environment.end() ? std::string() : found->second;
  };
  if (const std::string state = value("XDG_STATE_HOME"); !state.empty())
    return std::filesystem::path(state) / "nonrunner" / "heads";
  if (const std::string home = value("HOME"); !home.empty())
    return std::filesystem::path(home) / ".local" / "state" / "nonrunner" / "heads";
  return std::nullopt;
}

std::optional<std::filesystem::path> Terminal::backups() const {
  const auto folder = heads();
  return folder ? std::optional(folder->parent_path() / "backups") : std::nullopt;
}

namespace {

// A signal reaches nothing but a variable like this one.
volatile sig_atomic_t signalled = 0;
void note_signal(int by) { signalled = by; }

void listen_for(int number) {
  struct sigaction now {
  }, action{};
  // Where it is ignored (nohup), it stays so.
  if (::sigaction(number, nullptr, &now) == 0 && now.sa_handler == SIG_IGN) return;
  action.sa_handler = note_signal;
  action.sa_flags = static_cast<int>(SA_RESETHAND);  // the second one ends the process
  ::sigaction(number, &action, nullptr);
}

}  // namespace

Progress::Progress(Terminal& terminal, std::string what)
    : terminal_(terminal), what_(std::move(what)), begun_(std::chrono::steady_clock::now()), shown_(begun_) {
  signalled = 0;
  for (const int number : {SIGINT, SIGTERM}) listen_for(number);
}

// The handler stays: what is still to do is to say what was kept, and to close the book.
Progress::~Progress() { wipe(); }

void Progress::wipe() {
  if (visible_) terminal_.err << "\r" << std::string(70, ' ') << "\r" << std::flush;
  visible_ = false;
}

void Progress::operator()(std::size_t so_far, std::size_t all) {
  using namespace std::chrono_literals;
  if (signalled != 0) {
    const int by = signalled;
    signalled = 0;
    throw Interrupted(by);
  }
  if (!terminal_.err_is_terminal) return;
  const auto now = std::chrono::steady_clock::now();
  if (now - begun_ < terminal_.patience ||
      now - shown_ < std::min<std::chrono::milliseconds>(200ms, terminal_.patience))
    return;
  shown_ = now;
  visible_ = true;
  terminal_.err << fmt::format("\r{}: {} of {}, {} %", what_, so_far, all, all ? so_far * 100 / all : 0)
                << std::flush;
}

}  // namespace nonrunner::commands
