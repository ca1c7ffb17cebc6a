// A car's tag: 1 to 24 of a-z, 0-9 and '-'. Typed with capitals it is the same car.
#pragma once
#include <algorithm>
#include <string>

#include "text/lower_case.h"

namespace nonrunner {

inline std::string as_tag(const std::string& typed) { return lower_case(typed); }

inline bool is_tag(const std::string& text) {
  return !text.empty() && text.size() <= 24 && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  });
}

}  // namespace nonrunner
