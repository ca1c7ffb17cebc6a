// What the shop's own cars say (answers/learn.h), said alike on every surface. Keys of the JSON text are the
// interface: they stay, others may come beside them; money is a decimal string.
#pragma once
#include <string>

#include "answers/learn.h"

namespace nonrunner::words {

// Why a car's hours say nothing of the pace: "no cause was noted".
std::string in_words(answers::OwnCar::NoPace);
// "clean: not estimated", "clean: no hours".
std::string in_words(const answers::OwnCar::LeftOut&);
std::string to_json(const answers::Learnt&);

}  // namespace nonrunner::words
