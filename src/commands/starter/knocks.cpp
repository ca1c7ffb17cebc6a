#include "commands/starter/starter.h"

namespace nonrunner::commands {

const char* const starter_knocks =
    R"(# What it can be: odds against each other, and what the car fetches as it stands once that is known.
[[cause]]
name       = "something loose outside the engine"
odds       = 22
found      = 1500
correction = "brackets, pulley, exhaust shield"
[[cause]]
name       = "tappets or timing chain"
odds       = 30
found      = 950
correction = "chain and tappets"
[[cause]]
name       = "bearing in the bottom end"
odds       = 40
found      = 550
correction = "engine from the yard"
[[cause]]
name       = "piston or valve broken"
odds       = 8
found      = 450
correction = "engine from the yard"

[[correction]]
name        = "brackets, pulley, exhaust shield"
operations  = [{ name = "find it, fasten or change it", hours = [0.5, 1.5, 4], hazards = ["lifting"] }]
parts       = [{ name = "pulley, bolts, clamps", qty = 1, new = 65 }]
[[correction]]
name        = "chain and tappets"
operations  = [
  { name = "covers off, chain and guides", hours = [4, 6.5, 12], hazards = ["battery"] },
  { name = "tappets, covers on, oil, road test", hours = [2, 3, 6] },
]
parts       = [{ name = "chain set", qty = 1, new = 165 }, { name = "tappets, set", qty = 1, new = 98 }]
consumables = [{ name = "engine oil, filter, sealer", qty = 1, price = 48 }]
works       = 0.85
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

# What can be found out before buying. `given`: the chance of each outcome under each cause. Do not run it for long.
[[test]]
name     = "listen with a rod, belt on and off"
hours    = 0.4
outcomes = ["gone without the belt, or outside", "top of the engine", "bottom of the engine"]
[test.given]
"something loose outside the engine" = [0.85, 0.08, 0.07]
"tappets or timing chain"            = [0.08, 0.82, 0.1]
"bearing in the bottom end"          = [0.03, 0.12, 0.85]
"piston or valve broken"             = [0.02, 0.38, 0.6]
[[test]]
name     = "oil pressure, and metal in the oil"
cash     = 4
hours    = 0.5
outcomes = ["in range, clean", "low or metal in it"]
[test.given]
"something loose outside the engine" = [0.95, 0.05]
"tappets or timing chain"            = [0.75, 0.25]
"bearing in the bottom end"          = [0.1, 0.9]
"piston or valve broken"             = [0.35, 0.65]
)";

}  // namespace nonrunner::commands
