// JSON read as the plain tree of text/value.h, and that tree written as JSON, keys in their order; lines are not kept.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "text/value.h"

namespace nonrunner {

// Absent where it is not JSON. A null is a value of another kind than text, number, flag, array and table.
std::optional<Value> parse_json(std::string_view text);
// On one line. Days are texts, numbers the digits that they have, what is of another kind null; what is no UTF-8 is
// written as U+FFFD.
std::string json_line(const Value&);

}  // namespace nonrunner
