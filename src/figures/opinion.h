// Opinions of money (doubles in the currency's units) as amounts for a person or a file: rounded to a minor
// unit, half away from zero, here and nowhere before.
#pragma once
#include <string>

#include "exact/money.h"

namespace nonrunner {

// Throws Refusal where it is beyond the range of Money.
Money in_money(double units, const Currency&);
double in_units(Money, const Currency&);
std::string shown_units(double units, const Currency&);  // "1,250.50"
std::string plain_units(double units, const Currency&);  // "1250.50"

}  // namespace nonrunner
