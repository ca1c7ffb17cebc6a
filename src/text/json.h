// JSON read back as the plain tree of text/value.h, keys in their order; lines are not kept.
#pragma once
#include <optional>
#include <string_view>

#include "text/value.h"

namespace nonrunner {

// Absent where it is not JSON. A null is a value of another kind than text, number, flag, array and table.
std::optional<Value> parse_json(std::string_view text);

}  // namespace nonrunner
