#include "commands/session.h"

#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iterator>
#include <regex>
#include <sstream>

namespace nonrunner::commands {

Session::Session() {
  ::setenv("TZ", "UTC", 1);
  ::tzset();
}

void Session::file(const std::string& name, const std::string& text) {
  std::ofstream(folder() / name, std::ios::binary) << text;
}

Words words_of(const std::string& line) {
  Words words;
  bool quoted = false, begun = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
      if (!begun) words.emplace_back();
      begun = true;
    } else if (c == ' ' && !quoted) {
      begun = false;
    } else {
      if (!begun) words.emplace_back();
      begun = true;
      words.back() += c;
    }
  }
  return words;
}

Said Session::type(const std::string& line) {
  Words words = words_of(line);
  for (std::string& word : words)
    if (const auto at = word.find("SHOP"); at != std::string::npos) word.replace(at, 4, folder().string());
  return run(words);
}

Said Session::run(const Words& words) {
  std::ostringstream out, err;
  Terminal terminal{
      out,     err,    false, false, today, now, {{"NONRUNNER_BOOK", (folder() / "shop.book").string()}},
      nullptr, columns};
  Said said;
  said.status = commands::run(words, terminal);
  said.out = out.str();
  said.err = err.str();
  return said;
}

std::string Session::masked(std::string text) const {
  for (auto at = text.find(folder().string()); at != std::string::npos; at = text.find(folder().string()))
    text.replace(at, folder().string().size(), "SHOP");
  return std::regex_replace(text, std::regex("[0-9a-f]{64}"), "SEAL");
}

std::string Session::dialogue(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) {
    const Said said = type(line);
    text += "$ nonrunner " + line + "\n" + said.out + said.err;
    if (said.status != 0) text += "[status " + std::to_string(said.status) + "]\n";
    text += "\n";
  }
  return masked(text);
}

void check_approved(const std::string& name, const std::string& text) {
  const std::filesystem::path path =
      std::filesystem::path(NONRUNNER_SOURCE) / "tests/commands/approved" / name;
  if (const char* approve = std::getenv("APPROVE"); approve && *approve) {
    std::filesystem::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << text;
    WARN("approved: " << path.string());
    return;
  }
  std::ifstream in(path, std::ios::binary);
  const std::string approved(std::istreambuf_iterator<char>(in), {});
  if (text == approved) return;
  std::istringstream ours(text), theirs(approved);
  std::string our_line, their_line;
  int number = 0;
  do {
    ++number;
    if (!std::getline(ours, our_line)) our_line = "(end)";
    if (!std::getline(theirs, their_line)) their_line = "(end)";
  } while (our_line == their_line && our_line != "(end)");
  FAIL_CHECK(
      path.string()
      << ":" << number << ": printed   " << our_line << "\n  approved  " << their_line
      << "\n  if it is wanted: APPROVE=1 .build/plain/tests \"[approved]\", and look at the difference");
}

}  // namespace nonrunner::commands
