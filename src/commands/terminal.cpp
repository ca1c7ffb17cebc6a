#include "commands/terminal.h"

#include <fmt/format.h>

#include <chrono>

#include "exact/ends.h"

namespace nonrunner::commands {

std::filesystem::path Terminal::default_book() const {
  const auto value = [&](const char* name) {
    const auto found = environment.find(name);
    return found == environment.end() ? std::string() : found->second;
  };
  if (const std::string book = value("NONRUNNER_BOOK"); !book.empty()) return book;
  if (const std::string data = value("XDG_DATA_HOME"); !data.empty()) return std::filesystem::path(data) / "nonrunner" / "shop.book";
  if (const std::string home = value("HOME"); !home.empty())
    return std::filesystem::path(home) / ".local" / "share" / "nonrunner" / "shop.book";
  throw WrongUsage("no book is named and HOME is not set; say --book FILE or set NONRUNNER_BOOK");
}

Progress::Progress(Terminal& terminal, std::string what)
    : terminal_(terminal), what_(std::move(what)), begun_(std::chrono::steady_clock::now()), shown_(begun_) {}

Progress::~Progress() {
  if (visible_) terminal_.err << "\r" << std::string(70, ' ') << "\r" << std::flush;
}

void Progress::operator()(std::size_t done, std::size_t all) {
  using namespace std::chrono_literals;
  if (!terminal_.err_is_terminal || done % 64 != 0) return;
  const auto now = std::chrono::steady_clock::now();
  if (now - begun_ < 1s || now - shown_ < 200ms) return;
  shown_ = now;
  visible_ = true;
  terminal_.err << fmt::format("\r{}: {} of {}, {} %", what_, done, all, all ? done * 100 / all : 0) << std::flush;
}

}  // namespace nonrunner::commands
