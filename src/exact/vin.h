// Vehicle identification numbers: 17 characters, digits and capital letters without I, O and Q, the ninth a
// check digit.
//
// Source: 49 CFR 565.15, tables III to VII. The check digit is asked for by that regulation, not by ISO 3779:
// outside North America a failing digit is a hint, not a proof. The digit misses some mistakes, since up to
// three letters share each value. Known to be right by the regulation's worked samples
// (tests/outside/vin.cpp).
#pragma once
#include <string>
#include <string_view>

namespace nonrunner {

// The number in capitals. Throws Refusal `found ..., expected ...; what to do` where it is none or its digit
// fails.
std::string checked_vin(std::string_view text);

// The check digit that belongs to these 17 characters (digits and capitals without I, O, Q): '0' to '9' or
// 'X'.
char vin_check_digit(std::string_view vin);

}  // namespace nonrunner
