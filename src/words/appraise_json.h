// An appraisal as JSON. Keys are the interface: they stay, others may come beside them. Money is a decimal
// string with the currency's digits, a chance or a number of hours or days a number; a figure that does not
// exist is null.
//
//   walk_away.limits      null where an aim is not set or no price breaks it
//   plan                  above the profit aimed at; `first` is the name of the test to begin with, null where there
//                         is none
//   courses               by cause, mean over the troubles; the price, the fees and the opening up are left out
//   fixes                 those to make; fix_choices: all of them
//   expected, risk        if bought now as it stands at the price asked
//   moves                 expected profit with the amount at its 10 % and 90 % point
#pragma once
#include <string>

#include "appraisal/appraisal.h"

namespace nonrunner::words {

std::string to_json(const appraisal::Appraisal&);
// The same on one line, as the book keeps it.
std::string kept_json(const appraisal::Appraisal&);

}  // namespace nonrunner::words
