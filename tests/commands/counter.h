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
    std::ostringstream out, err;
    words.push_back("--book");
    words.push_back(book().string());
    Terminal terminal{out, err, false, false, today, "2026-05-02T12:00:00Z", {}};
    status = commands::run(words, terminal);
    std::string text = err.str() + out.str();
    // The scratch folder's name is not part of what is compared.
    const std::string here = folder_.string() + "/";
    for (auto at = text.find(here); at != std::string::npos; at = text.find(here))
      text.erase(at, here.size());
    return text;
  }

  Day today = Day(2026, 5, 2);
  int status = 0;

 private:
  std::filesystem::path folder_;
};

}  // namespace nonrunner::commands
