// Which cars to buy with one purse (answers/choose.h) as JSON. Keys are the interface: they stay, others may
// come beside them; money is a decimal string.
#pragma once
#include <string>

#include "answers/choose.h"

namespace nonrunner::words {

std::string to_json(const answers::ChooseAnswer&);

}  // namespace nonrunner::words
