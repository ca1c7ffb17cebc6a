#include "exact/money.h"

#include "exact/decimal.h"
#include "exact/ends.h"
#include "exact/grouped.h"

namespace nonrunner {

Money Money::of_minor(std::int64_t minor) {
  if (minor > limit || minor < -limit)
    throw Refusal("an amount of " + std::to_string(minor) +
                  " minor units is beyond what a book holds, expected at most " + std::to_string(limit) +
                  " either way");
  Money money;
  money.minor_ = minor;
  return money;
}

namespace {
// An amount as it is shown, 1,450.00, reads back: commas between groups of three digits before the point.
std::string without_grouping(std::string_view text) {
  const auto point = std::min(text.find('.'), text.size());
  const auto sign = !text.empty() && (text[0] == '-' || text[0] == '+') ? std::size_t{1} : std::size_t{0};
  if (text.substr(0, point).find(',') == std::string_view::npos) return std::string(text);
  if ((point - sign) % 4 == 0 || text[sign] == '0') return std::string(text);
  std::string plain(text.substr(0, sign));
  for (std::size_t at = sign; at < point; ++at) {
    const std::size_t left = point - at;  // of the digits before the point, this one counted
    const bool comma_belongs_here = left % 4 == 0 && at > sign;
    if ((text[at] == ',') != comma_belongs_here) return std::string(text);
    if (!comma_belongs_here) plain += text[at];
  }
  return plain + std::string(text.substr(point));
}
}  // namespace

Money Money::parse(std::string_view text, const Currency& currency) {
  const auto units = scaled(without_grouping(text), currency.digits);
  if (!units) {
    const std::string decimals = currency.digits == 0
                                     ? "without decimals"
                                     : "with at most " + std::to_string(currency.digits) + " decimals";
    throw Refusal("found \"" + std::string(text) + "\", expected an amount in " + currency.code + " " +
                  decimals + ", such as " + unscaled(125000, currency.digits));
  }
  return of_minor(*units);
}

std::string Money::plain(const Currency& currency) const { return unscaled(minor_, currency.digits); }

std::string grouped(std::string number) {
  const std::size_t first = number.starts_with('-') ? 1 : 0;
  const auto point = number.find('.');
  for (std::size_t at = point == std::string::npos ? number.size() : point; at > first + 3;) {
    at -= 3;
    number.insert(at, ",");
  }
  return number;
}

std::string Money::shown(const Currency& currency) const { return grouped(plain(currency)); }

}  // namespace nonrunner
