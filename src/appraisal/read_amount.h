// Amounts and numbers of a job file, read where they stand. An amount is a number or three points [low,
// likely, high] that rise. Each function throws Refusal with file, line, key, what was found and what was
// expected.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "appraisal/job.h"
#include "text/table.h"

namespace nonrunner::appraisal {

// A number of 0 or more with no more decimals than the currency has.
bool is_money(const Value&, const Currency&);
// Money of 0 or more, no finer than the currency's digits.
Amount money_amount(const Table&, std::string_view key, const Currency&);
Amount money_amount_or_zero(const Table&, std::string_view key, const Currency&);
// Numbers of 0 or more; `what` says of what, e.g. "hours".
Amount amount_of(const Table&, std::string_view key, const std::string& what);
Amount amount_of_or_zero(const Table&, std::string_view key, const std::string& what);
// The amount that `value` holds, an item of the list at `key`.
Amount amount_in(const Table&, std::string_view key, const Value& value, const std::string& what);

double money_number(const Table&, std::string_view key, const Currency&);  // 0 or more
double share(const Table&, std::string_view key);                          // 0 to 1
double share_or(const Table&, std::string_view key, double fallback);
double rate_or_zero(const Table&, std::string_view key);  // 0 up to, not including, 1
double number_from(const Table&, std::string_view key, double least, const std::string& expected);
double number_above(const Table&, std::string_view key, double bound, const std::string& expected);

}  // namespace nonrunner::appraisal
