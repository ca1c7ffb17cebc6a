// Figures as a person reads them and as a program does; both from the same book::VehicleFigures.
#pragma once
#include <nlohmann/json.hpp>
#include <string>

#include "book/questions/figures.h"

namespace nonrunner::commands {

nlohmann::ordered_json as_json(const book::VehicleFigures&, const book::Book&);
nlohmann::ordered_json due_as_json(const book::Due&, const Currency&);
// The headline and the few figures that matter; with `detail` all of them.
std::string as_text(const book::VehicleFigures&, const book::Book&, bool detail);
std::string money_or_blank(const std::optional<Money>&, const Currency&);

}  // namespace nonrunner::commands
