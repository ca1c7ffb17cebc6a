#include "commands/starter/starter.h"

namespace nonrunner::commands {

const char* const starter_does_not_crank =
    R"(# What it can be: odds against each other, and what the car fetches as it stands once that is known.
[[cause]]
name       = "battery flat or dead"
odds       = 38
found      = 1700
correction = "battery"
[[cause]]
name       = "starter or its wiring"
odds       = 34
found      = 1300
correction = "starter"
[[cause]]
name       = "locked by the immobiliser or the gear switch"
odds       = 16
found      = 1250
correction = "locksmith and switch"
[[cause]]
name       = "engine seized"
odds       = 12
found      = 450
correction = "engine from the yard"

[[correction]]
name        = "battery"
operations  = [{ name = "change the battery, check the charging", hours = [0.3, 0.6, 1.5], hazards = ["battery"] }]
parts       = [{ name = "battery", qty = 1, new = 120, core = 20 }]
[[correction]]
name        = "starter"
operations  = [{ name = "change the starter, clean the earths", hours = [1, 2, 4.5], hazards = ["battery", "lifting"] }]
parts       = [{ name = "starter", qty = 1, new = 190, reman = 115, core = 35, salvage = 40, pull_hours = 1, bad = 0.25 }]
works       = 0.92
otherwise   = "locksmith and switch"
[[correction]]
name        = "locksmith and switch"
operations  = [{ name = "meet the locksmith, change the switch", hours = [1, 1.5, 3] }]
sublet      = [{ name = "locksmith, on site", price = [130, 180, 300] }]
parts       = [{ name = "gear switch", qty = 1, new = 45 }]
[[correction]]
name        = "engine from the yard"
operations  = [
  { name = "engine out", hours = [5, 7, 12], hazards = ["lifting", "fuel"] },
  { name = "engine in, fill, road test", hours = [8, 11, 18], hazards = ["lifting", "fuel"] },
]
parts       = [
  { name = "engine, complete", qty = 1, salvage = 480, bad = 0.18, reman = 1650, core = 60, use = "salvage" },
  { name = "gaskets, seals, fluids", qty = 1, new = 110 },
]
sublet      = [{ name = "hoist hire", price = 55 }]

# What can be found out before buying. `given`: the chance of each outcome under each cause.
[[test]]
name     = "voltage at the battery, then with a good one beside it"
hours    = 0.2
outcomes = ["cranks with the good one", "clicks or nothing"]
[test.given]
"battery flat or dead"                         = [0.93, 0.07]
"starter or its wiring"                        = [0.05, 0.95]
"locked by the immobiliser or the gear switch" = [0.03, 0.97]
"engine seized"                                = [0.01, 0.99]
[[test]]
name     = "turn the crankshaft by hand"
hours    = 0.2
outcomes = ["turns freely", "tight or locked"]
[test.given]
"battery flat or dead"                         = [0.98, 0.02]
"starter or its wiring"                        = [0.96, 0.04]
"locked by the immobiliser or the gear switch" = [0.98, 0.02]
"engine seized"                                = [0.05, 0.95]
)";

}  // namespace nonrunner::commands
