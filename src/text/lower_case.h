// A text with the letters A to Z made small; other characters stay, whatever their language: for comparing what
// somebody typed, not for showing it.
#pragma once
#include <string>

namespace nonrunner {

inline std::string lower_case(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

}  // namespace nonrunner
