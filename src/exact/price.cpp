#include "exact/price.h"

#include "exact/decimal.h"
#include "exact/ends.h"

namespace nonrunner {

Price Price::parse(std::string_view text, const Currency& currency) {
  const auto fine = scaled(text, currency.digits + 3);
  if (!fine || *fine > Money::limit || *fine < -Money::limit)
    throw Refusal("found \"" + std::string(text) + "\", expected a price for one with at most " +
                  std::to_string(currency.digits + 3) + " decimals");
  return of_fine(*fine);
}

std::string Price::plain(const Currency& currency) const {
  std::string text = unscaled(fine_, currency.digits + 3);
  for (int i = 0; i < 3 && text.back() == '0'; ++i) text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

Money Price::times(Quantity quantity) const {
  return Money::of_minor(scaled(fine_, quantity.thousandths(), 1'000'000, Rounding::half_away));
}

Money Price::times(Hours hours) const {
  return Money::of_minor(scaled(fine_, hours.thousandths(), 1'000'000, Rounding::half_away));
}

}  // namespace nonrunner
