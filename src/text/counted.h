// "1 hour", "2.5 hours": a number with what it counts.
#pragma once
#include <concepts>
#include <string>

namespace nonrunner {

// `number` as it is shown. `several` is `one` with an s where it is not said.
inline std::string counted(const std::string& number, const std::string& one,
                           const std::string& several = "") {
  return number + " " + (number == "1" ? one : several.empty() ? one + "s" : several);
}

template <std::integral Number>
std::string counted(Number number, const std::string& one, const std::string& several = "") {
  return counted(std::to_string(number), one, several);
}

}  // namespace nonrunner
