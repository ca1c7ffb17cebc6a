// What people type for a number or a day, turned into what the book reads: plain decimals and days of the calendar.
// Only the prompt takes these forms; files hold one form each. Nothing is guessed: what can be read in two ways is
// refused with both.
#pragma once
#include <string>

#include "exact/currency.h"
#include "exact/day.h"
#include "exact/money.h"
#include "exact/price.h"

namespace nonrunner::commands {

// ".75", "12,50", "1.234,50" as plain decimals; what is none of these comes back as it was, for the reader to refuse.
// Throws Refusal for "1,234", which is 1234 in one country and 1.234 in the next.
std::string plain_number(const std::string& typed);
// Those, and a sign of money before or behind them that the currency has: "$45.50", "12,50 €". "1.250" is refused where
// the currency has fewer than three decimals: nobody writes an amount so, but a thousand. Throws Refusal.
Money typed_money(const std::string& typed, const Currency&);
std::string plain_money(const std::string& typed, const Currency&);  // not read yet
// The same but for three decimals, which a price of one has: fuel at 1.259.
Price typed_price(const std::string& typed, const Currency&);
// Those, and "1.5h", "0:45", "1:30": hours in thousandths, minutes rounded to the nearest.
std::string plain_hours(const std::string& typed);
// Whether the word holds a number in one of these forms.
bool is_number_typed(const std::string& typed);

enum class Looks { back, forward };
// today, yesterday, tomorrow; a day of the week; a day of the month; MM-DD; a number of days, "3d"; -3; YYYY-MM-DD.
// Those without a year look back, up to today, or forward, from today on. Throws Refusal.
Day typed_day(const std::string& typed, Day today, Looks);
// A last day that a paper of `of_paper` gives: what has no year but a day of the month looks forward from the paper;
// fri, tomorrow and "28d" are said today. Throws Refusal.
Day typed_last_day(const std::string& typed, Day today, Day of_paper);

}  // namespace nonrunner::commands
