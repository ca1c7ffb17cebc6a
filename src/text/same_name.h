// Names as people write them: the same letters and digits, whatever the case and what stands between them.
#pragma once
#include <string>
#include <vector>

namespace nonrunner {

// "Front brake-disc" is front, brake and disc. Letters beyond ASCII stay as they are.
std::vector<std::string> plain_words(const std::string& text);
bool same_name(const std::string& a, const std::string& b);

}  // namespace nonrunner
