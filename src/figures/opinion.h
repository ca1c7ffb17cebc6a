// The one bridge between opinions of money (doubles in the currency's units) and Money: rounded to a minor
// unit, half away from zero, here and nowhere before.
//
// Range: that of Money; what would leave it throws Refusal. Money that becomes an opinion is exact up to 2^53
// minor units, which is more than Money holds.
#pragma once
#include <string>

#include "exact/money.h"
#include "exact/price.h"

namespace nonrunner {

Money in_money(double units, const Currency&);
Price in_price(double units, const Currency&);  // rounded to a thousandth of a minor unit
double in_units(Money, const Currency&);
std::string shown_units(double units, const Currency&);  // "1,250.50": people
std::string plain_units(double units, const Currency&);  // "1250.50": files, JSON

}  // namespace nonrunner
