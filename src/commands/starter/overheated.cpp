#include "commands/starter/starter.h"

namespace nonrunner::commands {

const char* const starter_overheated =
    R"(# What it can be: odds against each other, and what the car fetches as it stands once that is known.
[[cause]]
name       = "thermostat or fan"
odds       = 26
found      = 1450
correction = "thermostat and fan"
[[cause]]
name       = "water pump or radiator"
odds       = 28
found      = 1250
correction = "water pump and radiator"
[[cause]]
name       = "head gasket leaks"
odds       = 33
found      = 700
correction = "reseal the head"
[[cause]]
name       = "engine seized or cracked"
odds       = 13
found      = 420
correction = "engine from the yard"

[[correction]]
name        = "thermostat and fan"
operations  = [{ name = "change them, fill, bleed, road test", hours = [1.2, 2, 4], hazards = ["hot coolant"] }]
parts       = [
  { name = "thermostat", qty = 1, new = 18 },
  { name = "fan with motor", qty = 1, new = 110, salvage = 32, pull_hours = 0.5, bad = 0.15 },
]
consumables = [{ name = "coolant", qty = 1.5, price = 15.50 }]
[[correction]]
name        = "water pump and radiator"
operations  = [
  { name = "change the pump", hours = [2, 3.2, 6], hazards = ["hot coolant"] },
  { name = "change the radiator, fill, bleed, road test", hours = [1.5, 2.5, 5], hazards = ["hot coolant"] },
]
parts       = [
  { name = "water pump with gasket", qty = 1, new = 70 },
  { name = "radiator", qty = 1, new = 140, salvage = 45, pull_hours = 0.8, bad = 0.15 },
]
consumables = [{ name = "coolant", qty = 2, price = 15.50 }]
[[correction]]
name        = "reseal the head"
operations  = [
  { name = "strip to the head", hours = [3.5, 5, 8], hazards = ["fuel", "hot coolant"] },
  { name = "rebuild and time", hours = [5, 7.5, 13], hazards = ["fuel"] },
]
parts       = [{ name = "head gasket set with bolts", qty = 1, new = 155 }]
consumables = [{ name = "coolant, oil, filter", qty = 1, price = 65 }]
sublet      = [{ name = "pressure-test and skim the head", price = [80, 105, 160] }]
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

# What can be found out before buying. `given`: the chance of each outcome under each cause. Let it cool first.
[[test]]
name     = "combustion gas in the coolant"
cash     = 9
hours    = 0.4
outcomes = ["colour changes", "no change"]
[test.given]
"thermostat or fan"        = [0.03, 0.97]
"water pump or radiator"   = [0.05, 0.95]
"head gasket leaks"        = [0.88, 0.12]
"engine seized or cracked" = [0.6, 0.4]
[[test]]
name     = "turn the crankshaft by hand"
hours    = 0.2
outcomes = ["turns freely", "tight or locked"]
[test.given]
"thermostat or fan"        = [0.98, 0.02]
"water pump or radiator"   = [0.97, 0.03]
"head gasket leaks"        = [0.95, 0.05]
"engine seized or cracked" = [0.35, 0.65]
[[test]]
name     = "hand-pump the cooling system"
cash     = 3
hours    = 0.4
outcomes = ["holds", "drops, wet outside", "drops, dry outside"]
[test.given]
"thermostat or fan"        = [0.85, 0.1, 0.05]
"water pump or radiator"   = [0.15, 0.75, 0.1]
"head gasket leaks"        = [0.2, 0.15, 0.65]
"engine seized or cracked" = [0.25, 0.2, 0.55]
)";

}  // namespace nonrunner::commands
