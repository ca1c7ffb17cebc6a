// A car's figures as a person reads them.
#pragma once
#include <string>

#include "book/questions/figures.h"

namespace nonrunner::commands {

// The headline and the few figures that matter; with `detail` all of them.
std::string figures_as_text(const book::VehicleFigures&, const book::Book&, bool detail);
std::string money_or_blank(const std::optional<Money>&, const Currency&);

}  // namespace nonrunner::commands
