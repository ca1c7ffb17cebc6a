// The asking price and its plan (answers/price.h), said alike on every surface. Keys of the
// JSON text are the interface: they stay, others may come beside them; money is a decimal string.
#pragma once
#include <string>

#include "answers/price.h"

namespace nonrunner::words {

std::string in_words(const answers::Doubt&);
// To the whole unit, as one advertises: "3,490".
std::string shown_round(double units, const Currency&);
std::string to_json(const answers::AskingPrice&);

}  // namespace nonrunner::words
