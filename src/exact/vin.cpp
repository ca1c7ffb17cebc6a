#include "exact/vin.h"

#include <array>

#include "exact/ends.h"

namespace nonrunner {

namespace {
constexpr std::string_view letters = "ABCDEFGHJKLMNPRSTUVWXYZ";
constexpr std::string_view values = "12345678123457923456789";
constexpr std::array<int, 17> weights = {8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2};

bool is_numeral(char c) { return c >= '0' && c <= '9'; }
bool is_allowed(char c) { return is_numeral(c) || letters.find(c) != std::string_view::npos; }
int value_of(char c) { return (is_numeral(c) ? c : values[letters.find(c)]) - '0'; }
}  // namespace

char vin_check_digit(std::string_view vin) {
  int sum = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) sum += weights[i] * value_of(vin[i]);
  const int rest = sum % 11;
  return rest == 10 ? 'X' : static_cast<char>('0' + rest);
}

std::string checked_vin(std::string_view text) {
  std::string vin(text);
  for (char& c : vin)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  if (vin.size() != 17)
    throw Refusal("found " + std::to_string(vin.size()) + " characters, expected 17; copy the number again");
  for (std::size_t i = 0; i < vin.size(); ++i)
    if (!is_allowed(vin[i]))
      throw Refusal(
          "found " +
          (vin[i] > ' ' && vin[i] < 0x7f ? "\"" + vin.substr(i, 1) + "\"" : "a sign that does not print") +
          " as character " + std::to_string(i + 1) +
          ", expected a digit or a letter other than I, O and Q; copy the number again");
  const char digit = vin_check_digit(vin);
  if (vin[8] != digit)
    throw Refusal(
        std::string("found the check digit ") + vin[8] + " (character 9), expected " + digit +
        " for the others; copy the number again, or leave it out if the car was not made for North America");
  return vin;
}

}  // namespace nonrunner
