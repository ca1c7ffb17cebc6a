// Hours as a person writes them, wherever they are typed: "2.25", "2,25", "1:30".
#pragma once
#include <optional>
#include <string>

#include "exact/thousandths.h"

namespace nonrunner {

// "1:30" as 1.5 hours, a third to the nearest thousandth; nothing where it is no hours and minutes.
std::optional<Hours> hours_and_minutes(const std::string& typed);
// Any of the forms above; throws Refusal saying what was found and expected.
Hours typed_hours(std::string typed);

}  // namespace nonrunner
