// What the JSON of this room shares. Rows are filled key by key: nested lists in braces cost the compiler ten times as
// much. Keys keep the order in which they are set.
#pragma once
#include <nlohmann/json.hpp>
#include <string>

namespace nonrunner::words {

using Json = nlohmann::ordered_json;

Json& added(Json& list);           // a new row at its end, to be filled
std::string text_of(const Json&);  // as it is printed: two blanks deep, a line end
Json exact(const std::string&
               decimal);  // three decimals at most, so the nearest double prints as what it stands for

}  // namespace nonrunner::words
