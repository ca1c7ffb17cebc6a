// Expected values as money: doubles, rounded here and nowhere before, to the currency's digits, half away
// from zero.
#pragma once
#include <string>

#include "exact/currency.h"

namespace nonrunner::words {

std::string plain_money(double amount, const Currency&);  // "1250.50": files, JSON
std::string shown_money(double amount, const Currency&);  // "1,250.50": people

}  // namespace nonrunner::words
