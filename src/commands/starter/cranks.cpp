#include "commands/starter/starter.h"

namespace nonrunner::commands {

const char* const starter_cranks =
    R"(# What it can be: odds against each other, and what the car fetches as it stands once that is known.
[[cause]]
name       = "fuel pump or its wiring"
odds       = 32
found      = 1150
correction = "fuel pump"
[[cause]]
name       = "crank sensor or ignition"
odds       = 28
found      = 1200
correction = "sensor and ignition parts"
[[cause]]
name       = "key not known to the immobiliser"
odds       = 15
found      = 1150
correction = "keys cut and taught"
[[cause]]
name       = "timing belt broken"
odds       = 17
found      = 650
correction = "timing belt"
[[cause]]
name       = "engine worn out"
odds       = 8
found      = 450
correction = "engine from the yard"

[[correction]]
name        = "fuel pump"
operations  = [{ name = "change the pump in the tank", hours = [1.5, 2.5, 5], hazards = ["fuel", "fire"] }]
parts       = [
  { name = "fuel pump", qty = 1, new = 145, salvage = 45, pull_hours = 1.5, bad = 0.3 },
  { name = "fuel filter", qty = 1, new = 16 },
]
[[correction]]
name        = "sensor and ignition parts"
operations  = [{ name = "trace it, change what failed", hours = [1, 2, 5] }]
parts       = [{ name = "crank sensor and coil", qty = 1, new = 95 }]
works       = 0.85
otherwise   = "fuel pump"
[[correction]]
name        = "keys cut and taught"
operations  = [{ name = "meet the locksmith", hours = [0.5, 1, 2] }]
sublet      = [{ name = "locksmith, on site", price = [130, 180, 300] }]
[[correction]]
name        = "timing belt"
operations  = [{ name = "belt, tensioner, turn and measure", hours = [3, 4.5, 8], hazards = ["battery"] }]
parts       = [{ name = "belt set with water pump", qty = 1, new = 120 }]
works       = 0.5                    # where the valves did not touch
otherwise   = "engine from the yard"
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
name     = "listen for the pump, read the fuel pressure"
hours    = 0.3
outcomes = ["in range", "low or none"]
[test.given]
"fuel pump or its wiring"          = [0.05, 0.95]
"crank sensor or ignition"         = [0.85, 0.15]
"key not known to the immobiliser" = [0.55, 0.45]
"timing belt broken"               = [0.9, 0.1]
"engine worn out"                  = [0.9, 0.1]
[[test]]
name     = "compression while cranking"
hours    = 0.8
outcomes = ["even", "low or none"]
[test.given]
"fuel pump or its wiring"          = [0.93, 0.07]
"crank sensor or ignition"         = [0.93, 0.07]
"key not known to the immobiliser" = [0.93, 0.07]
"timing belt broken"               = [0.05, 0.95]
"engine worn out"                  = [0.1, 0.9]
[[test]]
name     = "watch the security lamp"
hours    = 0.1
outcomes = ["goes out", "flashes"]
[test.given]
"fuel pump or its wiring"          = [0.95, 0.05]
"crank sensor or ignition"         = [0.93, 0.07]
"key not known to the immobiliser" = [0.08, 0.92]
"timing belt broken"               = [0.95, 0.05]
"engine worn out"                  = [0.95, 0.05]
)";

}  // namespace nonrunner::commands
