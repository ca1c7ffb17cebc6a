#include "exact/rate.h"

#include "exact/ends.h"

namespace nonrunner {

namespace {
constexpr std::int64_t one = 1'000'000'000;
}

Rate Rate::parse(std::string_view text) {
  const bool percent = !text.empty() && text.back() == '%';
  const auto units = percent ? scaled(text.substr(0, text.size() - 1), 7) : scaled(text, 9);
  if (!units || *units < 0 || *units >= one)
    throw Refusal("found \"" + std::string(text) +
                  "\", expected a fraction from 0 to below 1, such as 0.05 or 5%");
  Rate rate;
  rate.billionths_ = *units;
  return rate;
}

Money Rate::of(Money amount, Rounding rounding) const {
  return Money::of_minor(scaled(amount.minor(), billionths_, one, rounding));
}

Money Rate::grossed_up(Money rest) const {
  return Money::of_minor(scaled(rest.minor(), one, one - billionths_, Rounding::ceiling));
}

}  // namespace nonrunner
