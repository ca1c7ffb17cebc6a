// A counter to try commands at: a scratch folder with an empty book, a fixed day, and what was printed.
#pragma once
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "book/ledger/book.h"
#include "commands/command.h"

namespace nonrunner::commands {

class Counter {
 public:
  explicit Counter(const std::string& name)
      : folder_(std::filesystem::temp_directory_path() /
                ("nonrunner-" + name + "-" + std::to_string(getpid()))) {
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
    book::Book::create(book(), Currency{}, "mi");
  }
  ~Counter() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  Counter(const Counter&) = delete;
  Counter& operator=(const Counter&) = delete;

  std::filesystem::path book() const { return folder_ / "shop.book"; }
  // Writes a file into the folder and gives its path.
  std::string file(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
    return (folder_ / name).string();
  }
  // Runs a command on the book; gives what it printed, the error first.
  std::string run(Words words) {
    std::string text = run_at(std::move(words), nullptr);
    // The scratch folder's name is not part of what is compared.
    const std::string here = folder_.string() + "/";
    for (auto at = text.find(here); at != std::string::npos; at = text.find(here))
      text.erase(at, here.size());
    return text;
  }

  // The same at a terminal, where these answers are typed.
  std::string at_terminal(Words words, const std::string& answers = "") {
    std::istringstream in(answers);
    return run_at(std::move(words), &in);
  }

  Day today = Day(2026, 5, 2);
  int status = 0;

 private:
  std::string run_at(Words words, std::istream* in) {
    std::ostringstream out, err;
    words.insert(words.end(), {"--book", book().string()});
    Terminal terminal{out, err, in != nullptr, in != nullptr, today, "2026-05-02T12:00:00Z", {}, in};
    status = commands::run(words, terminal);
    return err.str() + out.str();
  }

  std::filesystem::path folder_;
};

}  // namespace nonrunner::commands
