// A car's figures as JSON. Keys are the interface: they stay, others may come beside them. Money is a decimal
// string with the currency's digits; a figure that does not exist is null.
#pragma once
#include <nlohmann/json_fwd.hpp>

#include "book/questions/figures.h"

namespace nonrunner::words {

nlohmann::ordered_json as_json(const book::VehicleFigures&, const book::Book&);
nlohmann::ordered_json due_as_json(const book::Due&, const Currency&);

}  // namespace nonrunner::words
