// A person at the desk: commands typed one after another on a book in a temporary folder, through the same
// entry as the program's own, with a terminal of strings, a fixed day and nothing of the real environment.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "book/fixture.h"
#include "commands/command.h"

namespace nonrunner::commands {

struct Said {
  int status = 0;
  std::string out, err;
};

class Session {
 public:
  Session();  // in UTC, wherever the tests run
  Day today{2026, 5, 2};
  std::string now = "2026-05-02T10:00:00Z";
  std::size_t columns = 0;  // of the screen; 0: nothing says it

  std::filesystem::path folder() const { return folder_.path(); }
  void file(const std::string& name, const std::string& text);

  // A line as one types it, without "nonrunner"; double quotes hold words together, SHOP is the folder. The
  // book is SHOP/shop.book unless the line names another.
  Said type(const std::string& line);
  Said run(const Words& words);

  // What was typed and what came back, as one reads it on the screen: "$ nonrunner sell ...", the output, the
  // error, the status where it is not 0. The folder is shown as SHOP, a seal as SEAL.
  std::string dialogue(const std::vector<std::string>& lines);
  std::string masked(std::string text) const;

 private:
  book::TemporaryFolder folder_;
};

Words words_of(const std::string& line);

// Compares with the file of that name in tests/commands/approved, whole. To approve a wanted change run the
// tests with APPROVE=1 and look at the difference before you commit it.
void check_approved(const std::string& name, const std::string& text);

}  // namespace nonrunner::commands
