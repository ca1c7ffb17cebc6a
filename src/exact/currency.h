// A currency of ISO 4217 and the number of its minor digits. Source: ISO 4217 list one, published 2024-06-25.
#pragma once
#include <string>
#include <string_view>

namespace nonrunner {

struct Currency {
  std::string code = "USD";  // three capital letters
  int digits = 2;            // minor digits: 0, 2, 3 or 4

  // Throws Refusal for a code that is not on the list or has no minor unit (metals, test codes); names the
  // nearest.
  static Currency of(std::string_view code);
  friend bool operator==(const Currency&, const Currency&) = default;
};

}  // namespace nonrunner
