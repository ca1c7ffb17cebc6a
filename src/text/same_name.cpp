#include "text/same_name.h"

#include <cctype>

namespace nonrunner {

std::vector<std::string> plain_words(const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text + " ") {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || byte >= 0x80) {
      word += static_cast<char>(std::tolower(byte));
    } else if (!word.empty()) {
      words.push_back(word);
      word.clear();
    }
  }
  return words;
}

// Names of signs alone have no words to be told apart by.
bool same_name(const std::string& a, const std::string& b) {
  const std::vector<std::string> words = plain_words(a);
  return a == b || (!words.empty() && words == plain_words(b));
}

}  // namespace nonrunner
